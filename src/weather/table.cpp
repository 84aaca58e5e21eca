#include "weather/table.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>

#include "weather/calendar.hpp"

namespace stillheap::weather {
namespace {

std::string_view trimmed(std::string_view text) {
  const std::string_view blanks = " \t\r";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// Reads a quoted field whose opening quote is at `at`; leaves `at` behind the closing one.
std::optional<std::string> quoted(std::string_view line, std::size_t& at) {
  std::string field;
  for (++at; at < line.size(); ++at) {
    if (line[at] != '"') {
      field += line[at];
    } else if (at + 1 < line.size() && line[at + 1] == '"') {
      field += '"';
      ++at;
    } else {
      ++at;
      return field;
    }
  }
  return std::nullopt;
}

std::optional<int> digits(std::string_view text) {
  if (text.empty() || !std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; })) {
    return std::nullopt;
  }
  int value = 0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc{}) return std::nullopt;
  return value;
}

/// "14:00" or "14:00:00", only on the hour.
std::optional<int> full_hour(std::string_view clock) {
  if (clock.size() != 5 && clock.size() != 8) return std::nullopt;
  if (clock.substr(2, 3) != ":00" || (clock.size() == 8 && clock.substr(5) != ":00")) return std::nullopt;
  const std::optional<int> hour = digits(clock.substr(0, 2));
  if (!hour || *hour > 23) return std::nullopt;
  return hour;
}

std::chrono::year_month_day date_of(const Moment& moment) {
  return std::chrono::year{moment.year} / std::chrono::month{static_cast<unsigned>(moment.month)} /
         std::chrono::day{static_cast<unsigned>(moment.day)};
}

}  // namespace

std::optional<std::vector<std::string>> split_record(std::string_view line, char delimiter) {
  std::vector<std::string> fields;
  std::size_t at = 0;
  while (true) {
    const std::size_t start = std::min(line.find_first_not_of(' ', at), line.size());
    if (start < line.size() && line[start] == '"') {
      at = start;
      std::optional<std::string> field = quoted(line, at);
      if (!field) return std::nullopt;
      at = std::min(line.find_first_not_of(" \r", at), line.size());
      if (at < line.size() && line[at] != delimiter) return std::nullopt;
      fields.push_back(std::move(*field));
    } else {
      const std::size_t end = std::min(line.find(delimiter, at), line.size());
      fields.emplace_back(trimmed(line.substr(at, end - at)));
      at = end;
    }
    if (at >= line.size()) return fields;
    ++at;
  }
}

char delimiter_of(std::string_view header) {
  char best = ',';
  std::ptrdiff_t most = 0;
  for (const char candidate : {',', ';', '\t'}) {
    bool inside = false;
    std::ptrdiff_t count = 0;
    for (const char c : header) {
      if (c == '"') inside = !inside;
      if (c == candidate && !inside) ++count;
    }
    if (count > most) {
      most = count;
      best = candidate;
    }
  }
  return best;
}

std::optional<double> number_of(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0.0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc{} || result.ptr != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<Moment> moment_of(std::string_view text) {
  text = trimmed(text);
  if (text.size() < 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const std::optional<int> year = digits(text.substr(0, 4));
  const std::optional<int> month = digits(text.substr(5, 2));
  const std::optional<int> day = digits(text.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  Moment moment{*year, *month, *day, 0};
  if (!date_of(moment).ok()) return std::nullopt;
  if (text.size() == 10) return moment;
  if (text[10] != 'T' && text[10] != ' ') return std::nullopt;
  const std::optional<int> hour = full_hour(text.substr(11));
  if (!hour) return std::nullopt;
  moment.hour = *hour;
  return moment;
}

long hours_since_epoch(const Moment& moment) {
  return static_cast<long>(std::chrono::sys_days{date_of(moment)}.time_since_epoch().count()) * 24 + moment.hour;
}

Moment moment_at(long hours_since_epoch) {
  const long days = hours_since_epoch >= 0 ? hours_since_epoch / 24 : -((23 - hours_since_epoch) / 24);
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{days}}};
  return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day())), static_cast<int>(hours_since_epoch - 24 * days)};
}

std::string to_text(const Moment& moment) {
  char text[64];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d %02d:00", moment.year, moment.month, moment.day, moment.hour);
  return text;
}

std::optional<int> hour_of_year(const Moment& moment) {
  if (moment.month == 2 && moment.day == 29) return std::nullopt;
  return 24 * (first_day_of(moment.month - 1) + moment.day - 1) + moment.hour;
}

std::vector<std::string> lines_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in || std::filesystem::is_directory(file)) {
    throw InputError(file.string(), "cannot be read", "give the path of a readable file");
  }
  std::vector<std::string> lines;
  std::string line;
  while (std::getline(in, line)) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (lines.empty() && line.starts_with("\xEF\xBB\xBF")) line.erase(0, 3);
    lines.push_back(line);
  }
  return lines;
}

void FileProblems::add(std::size_t line, std::string_view field, std::string what, std::string mend) {
  ++count_;
  if (kept_.size() >= most) return;
  std::string where = file_;
  if (line > 0) where += ":" + std::to_string(line);
  if (!field.empty()) where += ": " + std::string(field);
  kept_.push_back({std::move(where), std::move(what), std::move(mend)});
}

void FileProblems::throw_if_any() const {
  if (count_ == 0) return;
  std::vector<Problem> problems = kept_;
  if (count_ > kept_.size()) {
    problems.push_back(
        {file_, std::to_string(count_ - kept_.size()) + " more problems are not shown", "mend these first"});
  }
  throw InputError(std::move(problems));
}

std::vector<Gap> gaps_of(const std::vector<double>& values) {
  std::vector<Gap> gaps;
  for (std::size_t step = 0; step < values.size(); ++step) {
    if (!std::isnan(values[step])) continue;
    if (!gaps.empty() && gaps.back().last + 1 == step) {
      gaps.back().last = step;
    } else {
      gaps.push_back({step, step});
    }
  }
  return gaps;
}

void bridge(std::vector<double>& values) {
  const std::size_t count = values.size();
  const auto known = std::find_if(values.begin(), values.end(), [](double v) { return !std::isnan(v); });
  if (known == values.end()) return;
  const auto start = static_cast<std::size_t>(known - values.begin());
  std::size_t before = start;
  for (std::size_t step = 1; step <= count; ++step) {
    const std::size_t here = start + step;
    if (std::isnan(values[here % count])) continue;
    for (std::size_t inside = before + 1; inside < here; ++inside) {
      const double share = static_cast<double>(inside - before) / static_cast<double>(here - before);
      values[inside % count] = values[before % count] + share * (values[here % count] - values[before % count]);
    }
    before = here;
  }
}

}  // namespace stillheap::weather
