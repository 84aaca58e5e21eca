// Scores learning from real heaps' first days (docs/decisions/0012-series-split.md). A minute or two of work; prints
// tools/condition/series-scores.csv:         series_scores > FILE
// tools/condition/series-scores-middle.csv:  series_scores middle > FILE   looked at after the scoring: not blind
#include <cstring>
#include <iostream>

#include "series_run.hpp"

using namespace stillheap;

namespace {

void print(const records::SeriesRecord& record, const records::Series& series, const records::Window& one,
           const records::Split& split) {
  const records::Scored &b = one.before, &a = one.after;
  std::printf("%s,%s,%d,%d,%d,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.1f,%.1f,%.2f,%.2f,%.1f,%.1f,%d,%d\n",
              record.record.id.c_str(), series.name.c_str(), one.days, b.days, one.used ? 1 : 0, b.misfit_k, a.misfit_k,
              b.rmse_k, a.rmse_k, one.stays_rmse_k, b.crps_k, a.crps_k, b.cover, a.cover, b.width_k, a.width_k,
              b.chart_cover, a.chart_cover, b.chart_width_k, a.chart_width_k,
              a.width_k <= split.narrowed_to * b.width_k ? 1 : 0, a.cover >= split.cover_kept_from ? 1 : 0);
  std::fflush(stdout);
}

/// Error by how long after the last reading: up to 3 days, up to 7, later; 0 where nothing was scored.
std::array<double, 3> by_lead_k(const calibrate::Course& line, std::span<const calibrate::Observation> rest,
                                int window) {
  std::array<std::vector<calibrate::Observation>, 3> parts;
  for (const auto& one : rest) parts.at(one.day < window + 3 ? 0 : one.day < window + 7 ? 1 : 2).push_back(one);
  std::array<double, 3> errors{};
  for (std::size_t i = 0; i < parts.size(); ++i) errors.at(i) = records::root_mean_square_k(line, parts.at(i));
  return errors;
}

void print_middle(const records::Series& series, const calibrate::Prior& prior, calibrate::LearnOptions options,
                  int window, double single_k) {
  std::vector<calibrate::Observation> first, rest;
  for (const auto& one : series.days) (one.day < window ? first : rest).push_back(one);
  options.least_days = window;
  options.least_span_days = window - 1.0;
  const calibrate::Learned learned = calibrate::learn(prior, first, options);
  const calibrate::Course line = records::medians_of(learned.courses);
  const records::Scored b = records::score({records::medians_of(prior.courses), prior.courses, single_k}, first, rest);
  const records::Scored a = records::score({line, learned.courses, std::max(1.0, learned.after.misfit_k)}, first, rest);
  const auto lead = by_lead_k(line, rest, window);
  std::printf("%s,%d,%d,%d,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.1f,%.1f,%.2f,%.2f,%.2f\n", series.name.c_str(),
              window, b.days, learned.follows ? 1 : 0, b.misfit_k, a.misfit_k, b.rmse_k, a.rmse_k, b.crps_k, a.crps_k,
              b.cover, a.cover, b.width_k, a.width_k, lead[0], lead[1], lead[2]);
  std::fflush(stdout);
}

/// Every window of every series that lives longer than what is learned from. `prior_of`: drawn once a record.
template <class PriorOf, class Score>
void each_window(const records::Split& split, const PriorOf& prior_of, const Score& score) {
  for (const records::SeriesRecord& record : split.records) {
    const calibrate::LearnOptions options = records::options_for(split, record);
    const calibrate::Prior prior = prior_of(record, options);
    for (const records::Series& series : record.series)
      for (const int window : split.windows_days)
        if (series.days.back().day >= window) score(record, options, prior, series, window);
  }
}

/// The same windows with the readings held against where V11 takes the sensors to be, and with what the record does not
/// print drawn as widely as it says; learned in one step, since the program's own path knows no such place.
int score_middle(const records::Split& split) {
  std::printf(
      "series,learned_days,scored_days,follows,misfit_before_k,misfit_after_k,rmse_before_k,rmse_after_k,crps_before_k,"
      "crps_after_k,cover_before,cover_after,width_before_k,width_after_k,rmse_to_3_days_k,rmse_to_7_days_k,"
      "rmse_later_k\n");
  each_window(
      split, [](const auto& record, const auto& options) { return records::prior_of_the_middle(record, options); },
      [](const auto& record, const auto& options, const auto& prior, const auto& series, int window) {
        print_middle(series, prior, options, window, record.single_discrepancy_k);
      });
  return 0;
}

}  // namespace

int main(int count, char** words) {
  const records::Split split = records::read_split();
  if (count > 1 && std::strcmp(words[1], "middle") == 0) return score_middle(split);
  std::printf(
      "id,series,learned_days,scored_days,used,misfit_before_k,misfit_after_k,rmse_before_k,rmse_after_k,rmse_stays_k,"
      "crps_before_k,crps_after_k,cover_before,cover_after,width_before_k,width_after_k,chart_cover_before,"
      "chart_cover_after,chart_width_before_k,chart_width_after_k,narrowed,cover_kept\n");
  each_window(
      split,
      [](const auto& record, const auto& options) { return calibrate::draw_prior(record.record.request, options); },
      [&](const auto& record, const auto& options, const auto& prior, const auto& series, int window) {
        print(record, series, records::learn_and_score(record, prior, options, series, window), split);
      });
  return 0;
}
