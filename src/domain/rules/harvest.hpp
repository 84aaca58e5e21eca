#pragma once
#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "domain/rules/self_heating.hpp"

/// When compost is ready. The one list: work order, calendar and status read it.
namespace stillheap::rules::harvest {

inline constexpr double least_age_days = 274.0;  ///< nine months; common practice, no source
inline constexpr double usual_age_days = 365.0;  ///< twelve months; common practice, no source
inline constexpr double curing_days = 30.0;      ///< after the end of self-heating; common practice, no source
/// Self-heating class IV or V: below. Brinton et al. 1995 (not yet checked against the text); class IV as the least:
/// chosen.
inline constexpr double stable_rise_k = 20.0;

/// The first day not before `least_day` on which the heap has made no heat for a month. `rests`: as
/// rules::self_heating tells them; one that lasts to `last_day`, the end of what is known, is taken to go on.
[[nodiscard]] inline std::optional<double> cured_day(std::span<const Rest> rests, double last_day, double least_day) {
  for (const Rest& rest : rests) {
    const double day = std::max(rest.begin_day + curing_days, least_day);
    const bool goes_on = rest.end_day >= last_day - 1.0;
    if (day <= rest.end_day || goes_on) return day;
  }
  return std::nullopt;
}

struct Criterion {
  std::string_view id;     ///< of the point in `status`, a row of docs/rules.md
  std::string_view words;  ///< for a list: "it is nine months old"
};

/// In the order in which a maker can tell.
inline constexpr std::array criteria{
    Criterion{"harvest-age", "it is nine months old"},
    Criterion{"harvest-cured", "it has made no heat of its own for a month (within 3 K of the air's smoothed course)"},
    Criterion{"harvest-look", "it smells of woods, and nothing of what went in can be told, wood chips aside"},
    Criterion{"harvest-stable", "a self-heating test stays below 20 K"},
    Criterion{"harvest-germs", "no test for germs has failed and one has passed"}};

/// "it is nine months old; ..."
[[nodiscard]] inline std::string all_words() {
  std::string words;
  for (const Criterion& one : criteria) words += (words.empty() ? "" : "; ") + std::string(one.words);
  return words;
}

}  // namespace stillheap::rules::harvest
