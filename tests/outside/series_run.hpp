#pragma once
#include <cstdio>
#include <map>

#include "domain/weather/days.hpp"
#include "domain/weather/evapotranspiration.hpp"
#include "model/calibrate/learn.hpp"
#include "model/forecast/band.hpp"
#include "model/forecast/cold_twin.hpp"
#include "records_run.hpp"

/// Learns from the first days of a real heap's series and scores the rest (records/series.toml, where all choices
/// stand; docs/decisions/0012-series-split.md).
namespace stillheap::records {

struct Series {
  std::string name;
  std::vector<calibrate::Observation> days;  ///< those with a value, up to the last day scored
};

struct SeriesRecord {
  Record record;
  std::vector<forecast::PriorDraw> heaps;  ///< what all other records taught
  double single_discrepancy_k = 0.0;
  std::vector<Series> series;
};

struct Split {
  std::vector<int> windows_days;
  calibrate::LearnOptions options;
  double cover_kept_from = 0.0, narrowed_to = 0.0;
  std::vector<SeriesRecord> records;
};

inline std::filesystem::path records_folder() {
  return std::filesystem::path(STILLHEAP_SOURCE_DIR) / "tests/outside/records";
}

/// Rows of cells by the name of their column; lines that begin with # are notes.
inline std::vector<std::map<std::string, std::string>> read_rows(const std::filesystem::path& file) {
  std::ifstream in(file);
  if (!in) throw std::runtime_error(file.string() + " is not there");
  std::vector<std::string> head;
  std::vector<std::map<std::string, std::string>> rows;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with('#')) continue;
    std::vector<std::string> cells;
    std::istringstream text(line + ",");
    for (std::string cell; std::getline(text, cell, ',');) cells.push_back(cell);
    if (head.empty()) {
      head = cells;
      continue;
    }
    for (std::size_t i = 0; i < head.size(); ++i)
      rows.resize(rows.size() + (i == 0 ? 1 : 0)), rows.back()[head[i]] = cells.at(i);
  }
  return rows;
}

/// The hours that really were over the record's normals, on the clock of days since building.
inline void put_weather(const toml::table& from, forecast::Request& request) {
  const double covered_from = need<double>(from, "covered_from_day"), until = need<double>(from, "covered_until_day");
  constexpr int hours_before_building = 9;  // the file begins at 01:00, the first hour of the series is 10:00
  std::vector<weather::Hour>& hours = request.weather.hours;
  int hour = -hours_before_building;
  for (const auto& row : read_rows(records_folder() / need<std::string>(from, "weather"))) {
    if (hour >= 0) {
      const auto at =
          static_cast<std::size_t>(24 * (need<std::int64_t>(from, "weather_begins_day_of_year") - 1) + hour);
      weather::Hour& one = hours.at(at);
      const bool covered = hour >= 24.0 * covered_from && hour < 24.0 * until;
      one.air_c = std::stod(row.at("air_c"));
      one.humidity = std::stod(row.at("humidity_percent")) / 100.0;
      one.wind_m_s = covered ? 0.0 : weather::wind_at_2m_m_s(std::stod(row.at("wind_10m_m_s")), 10.0);
      one.sun_w_m2 = std::stod(row.at("sun_w_m2"));
      one.rain_m_s = covered ? 0.0 : std::stod(row.at("rain_mm")) / 1000.0 / 3600.0;
      one.pressure_pa = 100.0 * std::stod(row.at("pressure_hpa"));
      one.longwave_w_m2 = -1.0;
    }
    ++hour;
  }
  weather::fill_longwave(hours, request.weather.place);
}

inline std::vector<forecast::PriorDraw> read_draws(const std::string& file) {
  constexpr std::array<const char*, material::kind_count> kinds{"wood", "dry plant", "fresh", "manure", "ripe"};
  std::vector<forecast::PriorDraw> draws;
  for (const auto& row : read_rows(records_folder() / file)) {
    const auto draw = static_cast<std::size_t>(std::stoi(row.at("draw")));
    if (draw >= draws.size()) draws.resize(draw + 1);
    const auto kind = std::find(kinds.begin(), kinds.end(), row.at("class")) - kinds.begin();
    for (std::size_t i = 0; i < forecast::learned_constants.size(); ++i) {
      // Columns stand in the order of the learned constants; these are their members' names.
      constexpr std::array<const char*, forecast::learned_constants.size()> names{
          "rate_factor",         "temperature_most_c", "particle_size_m", "holding_capacity", "moisture_half_wet",
          "oxygen_half_percent", "film_factor",        "cool_factor_10k", "height_per_solids"};
      draws[draw].at(static_cast<std::size_t>(kind))[i] = std::stod(row.at(names[i]));
    }
  }
  return draws;
}

inline Series series_of(const toml::table& from, const std::vector<std::map<std::string, std::string>>& rows) {
  Series series{need<std::string>(from, "name"), {}};
  const auto last = need<std::int64_t>(from, "last_day");
  for (const auto& row : rows) {
    const double day = std::stod(row.at("day"));
    const std::string& cell = row.at(series.name);
    if (day <= static_cast<double>(last) && !cell.empty()) series.days.push_back({day + 0.5, std::stod(cell)});
  }
  return series;
}

inline SeriesRecord series_record_of(const toml::table& from) {
  SeriesRecord one{read_record((records_folder() / need<std::string>(from, "heap")).string()), {}, 0.0, {}};
  one.heaps = read_draws(need<std::string>(from, "posterior"));
  one.single_discrepancy_k = need<double>(from, "single_discrepancy_k");
  const auto rows = read_rows(records_folder() / need<std::string>(from, "days"));
  for (const toml::node& node : *from["series"].as_array()) one.series.push_back(series_of(*node.as_table(), rows));
  put_weather(from, one.record.request);
  double last = 0.0;
  for (const Series& series : one.series) last = std::max(last, series.days.back().day);
  one.record.request.days = static_cast<int>(std::ceil(last)) + 1;  // what comes after moves nothing before
  return one;
}

inline Split read_split() {
  const toml::table table = toml::parse_file((records_folder() / "series.toml").string());
  Split split;
  for (const toml::node& node : *table["windows_days"].as_array())
    split.windows_days.push_back(static_cast<int>(node.value_or(std::int64_t{0})));
  split.options.members = static_cast<int>(need<std::int64_t>(table, "members"));
  split.options.deviation_k = need<double>(table, "reading_deviation_k");
  split.cover_kept_from = need<double>(table, "cover_kept_from");
  split.narrowed_to = need<double>(table, "narrowed_to");
  for (const toml::node& node : *table["record"].as_array())
    split.records.push_back(series_record_of(*node.as_table()));
  return split;
}

/// A forecast of the core as it is scored.
struct Told {
  calibrate::Course line;
  std::vector<calibrate::Course> members;
  double discrepancy_k = 0.0;  ///< of a single temperature
};

struct Scored {
  int days = 0;
  double misfit_k = 0.0, rmse_k = 0.0, crps_k = 0.0;
  double cover = 0.0, width_k = 0.0;              ///< of the band of a single temperature
  double chart_cover = 0.0, chart_width_k = 0.0;  ///< of the band that charts give the core
};

inline double core_of(const calibrate::Course& course, double day) { return rules::at_day(course, day).core_c; }

inline double root_mean_square_k(const calibrate::Course& line, std::span<const calibrate::Observation> readings) {
  double sum = 0.0;
  for (const auto& one : readings) sum += std::pow(one.value - core_of(line, one.day), 2);
  return readings.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(readings.size()));
}

/// Continuous ranked probability score of a sample, O(n log n): mean |x - y| less half the mean |x - x'|.
inline double crps_k(std::vector<double> sample, double measured) {
  std::sort(sample.begin(), sample.end());
  const auto n = static_cast<double>(sample.size());
  double near = 0.0, apart = 0.0;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    near += std::abs(sample[i] - measured) / n;
    apart += (2.0 * static_cast<double>(i) - n + 1.0) * sample[i] * 2.0 / (n * n);
  }
  return near - 0.5 * apart;
}

inline Scored score(const Told& told, std::span<const calibrate::Observation> learned,
                    std::span<const calibrate::Observation> rest) {
  Scored scored{static_cast<int>(rest.size()), root_mean_square_k(told.line, learned),
                root_mean_square_k(told.line, rest)};
  forecast::Discrepancy misses;
  misses.peak_k = told.discrepancy_k;
  const double share = 1.0 / static_cast<double>(std::max<std::size_t>(1, rest.size()));
  for (const auto& one : rest) {
    const double line = core_of(told.line, one.day);
    std::vector<double> members;
    for (const auto& course : told.members) members.push_back(core_of(course, one.day));
    // The standard grid's rules: what the draft grid misses is of the hottest place, which is not what was read.
    const auto band_of = [&](const forecast::Kind& kind) {
      return forecast::band_around(line, line, members, kind, forecast::Grid::standard, misses);
    };
    const forecast::Banded band = band_of(forecast::peak_kind), chart = band_of(forecast::average_kind);
    const auto holds = [&](const forecast::Banded& b) { return one.value >= b.low && one.value <= b.high; };
    scored.cover += holds(band) ? share : 0.0;
    scored.width_k += share * (band.high - band.low);
    scored.chart_cover += holds(chart) ? share : 0.0;
    scored.chart_width_k += share * (chart.high - chart.low);
    scored.crps_k += share * crps_k(forecast::likely_values(line, line, members, forecast::peak_kind,
                                                            forecast::Grid::standard, misses),
                                    one.value);
  }
  return scored;
}

struct Window {
  int days = 0;       ///< learned from
  bool used = false;  ///< the program would use it; else the forecast before stands
  double stays_rmse_k = 0.0;
  Scored before, after;
};

inline calibrate::LearnOptions options_for(const Split& split, const SeriesRecord& record) {
  calibrate::LearnOptions options = split.options;
  options.heaps = record.heaps;
  return options;
}

inline calibrate::Course line_of(const forecast::Request& request) {
  return forecast::heat_days(
      forecast::run_members({forecast::middle_member(request)}, [](double) { return true; }).front().history);
}

/// Each day's medians of the core.
inline calibrate::Course medians_of(const std::vector<calibrate::Course>& courses) {
  calibrate::Course line = courses.front();
  for (std::size_t i = 0; i < line.size(); ++i) {
    std::vector<double> core;
    for (const calibrate::Course& one : courses) core.push_back(one.at(i).core_c);
    line[i].core_c = forecast::percentile(core, 0.5);
  }
  return line;
}

/// A prior whose "core" is the zone "middle" (records_zones.hpp), from runs of the record with all it does not print.
inline calibrate::Prior prior_of_the_middle(const SeriesRecord& record, const calibrate::LearnOptions& options) {
  calibrate::Prior prior;
  prior.request = draft_of(record.record);
  prior.twin = forecast::cold_twin(record.record.request, [](double) { return true; });
  auto deviates = forecast::member_deviations(prior.request.blend, options.members, options.seed, options.heaps);
  const auto sizes = forecast::normal_points(1, options.members, options.seed + 1);
  for (std::size_t m = 0; m < deviates.size(); ++m) {
    deviates[m].push_back(sizes[m].front());
    const forecast::Member member = member_of(record.record, prior.request, deviates[m]);
    const Seen seen = see(member.request, member.parameters);
    if (seen.track.stopped) continue;
    std::vector<HistoryRow> history;
    calibrate::Course course;
    for (std::size_t i = 0; i < seen.track.history.size(); ++i) {
      HistoryRow row = seen.track.history[i];
      if (std::abs(row.day - std::round(row.day)) > 1e-4) continue;  // a row each 6 hours; the days' ends
      row.core_c = seen.zone[i].middle_c;
      course.push_back({std::round(row.day), row.core_c, row.hottest_c});
      history.push_back(row);
    }
    prior.members.push_back(member);
    prior.histories.push_back(std::move(history));
    prior.courses.push_back(std::move(course));
  }
  return prior;
}

/// Learns from one series up to a window and scores what is left of it.
inline Window learn_and_score(const SeriesRecord& record, const calibrate::Prior& prior,
                              calibrate::LearnOptions options, const Series& series, int window) {
  std::vector<calibrate::Observation> first, rest;
  for (const auto& one : series.days) (one.day < window ? first : rest).push_back(one);
  options.least_days = window;  // the product's own refusal below ten days is put aside
  options.least_span_days = window - 1.0;
  const Told before{prior.middle, prior.courses, record.single_discrepancy_k};
  const calibrate::Learned learned = calibrate::teach(prior, first, options);
  Window told{window, !learned.own.draws.empty(), 0.0, {}, {}};
  Told after = before;
  if (told.used) {
    forecast::Request follows = prior.request;
    follows.own = learned.own;
    after = {line_of(follows), learned.courses, forecast::discrepancy_of(learned.own).peak_k};
  }
  double square = 0.0;
  for (const auto& one : rest) square += std::pow(one.value - first.back().value, 2);
  told.stays_rmse_k = rest.empty() ? 0.0 : std::sqrt(square / static_cast<double>(rest.size()));
  told.before = score(before, first, rest);
  told.after = score(after, first, rest);
  return told;
}

}  // namespace stillheap::records
