#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "core/base/constants.hpp"
#include "domain/rules/hygiene.hpp"

/// The time and temperature equation over a whole history in one sweep.
///
/// Lower a level from the highest reading down: the stretches above it grow, and join at the lowest reading between
/// them. So every stretch at every level belongs to exactly one reading, the lowest inside it, and between that
/// reading's level and the level of the next reading outside its ends run along two straight lines. On such a piece the
/// length L(T) is linear and the time asked for D(T) exponential: L / D has one highest point, found in closed form. As
/// many pieces as readings; the nearest lower neighbours come from a stack.
namespace stillheap::rules {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr double equation_days = 131700000.0;
constexpr double decades_per_k = 0.14;
constexpr double least_c = 50.0;
constexpr double least_s = 20.0 * 60.0;
constexpr double least_solids = 0.07;
constexpr int halvings = 60;  // to the last digit of a double

double asked_s(double at_c) { return std::max(required_hold_s(at_c), least_s); }

/// Where the 20 minutes take over from the equation.
double floor_from_c() { return std::log10(equation_days * constant::seconds_per_day / least_s) / decades_per_k; }

/// One end of a stretch: a moment that moves along a straight line as the level rises, or stands still at a gap.
struct End {
  double at_s = 0.0, at_c = 0.0;  ///< of the reading inside
  double slope_s_k = 0.0;
  double lowest_c = -no_limit;  ///< where the line ends: the reading outside
  [[nodiscard]] double moment_s(double level_c) const { return at_s + slope_s_k * (level_c - at_c); }
};

/// All stretches whose lowest reading is one and the same.
struct Piece {
  End begin, end;
  double low_c = 0.0, high_c = 0.0;
  [[nodiscard]] double length_s(double level_c) const { return end.moment_s(level_c) - begin.moment_s(level_c); }
  [[nodiscard]] double ratio(double level_c) const { return length_s(level_c) / asked_s(level_c); }
};

bool joined(const History& history, std::size_t first, std::size_t second) {
  return history[second].time_s - history[first].time_s <= widest_gap_s;
}

End end_between(const Reading& inside, const Reading& outside) {
  return {inside.time_s, inside.celsius, (outside.time_s - inside.time_s) / (outside.celsius - inside.celsius),
          outside.celsius};
}

End standing(const Reading& inside) { return {inside.time_s, inside.celsius, 0.0, -no_limit}; }

/// For each reading the nearest one before it that is lower, or its own place where none is within reach.
/// `equal_counts`: an equal reading stands for a lower one, so that of equal readings one alone speaks for them all.
std::vector<std::size_t> first_of_stretch(const History& history, bool equal_counts) {
  std::vector<std::size_t> first(history.size());
  std::vector<std::size_t> higher;
  for (std::size_t i = 0; i < history.size(); ++i) {
    if (i > 0 && !joined(history, i - 1, i)) higher.clear();
    first[i] = i;
    while (!higher.empty()) {
      const double before_c = history[higher.back()].celsius;
      if (before_c < history[i].celsius || (equal_counts && before_c == history[i].celsius)) break;
      first[i] = first[higher.back()];
      higher.pop_back();
      ++readings_visited;
    }
    higher.push_back(i);
    ++readings_visited;
  }
  return first;
}

History backwards(const History& history) {
  History back(history.rbegin(), history.rend());
  for (Reading& reading : back) reading.time_s = -reading.time_s;
  return back;
}

std::vector<Piece> pieces_of(const History& history) {
  const std::size_t count = history.size();
  const std::vector<std::size_t> first = first_of_stretch(history, true);
  const std::vector<std::size_t> back = first_of_stretch(backwards(history), false);
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < count; ++i) {
    if (history[i].celsius + rounding_k < least_c) continue;
    const std::size_t begin = first[i];
    const std::size_t end = count - 1 - back[count - 1 - i];
    const bool open_begin = begin > 0 && joined(history, begin - 1, begin);
    if (open_begin && history[begin - 1].celsius >= history[i].celsius) continue;  // the equal one before speaks for it
    const bool open_end = end + 1 < count && joined(history, end, end + 1);
    Piece piece;
    piece.begin = open_begin ? end_between(history[begin], history[begin - 1]) : standing(history[begin]);
    piece.end = open_end ? end_between(history[end], history[end + 1]) : standing(history[end]);
    piece.high_c = history[i].celsius;
    piece.low_c = std::min(piece.high_c, std::max({least_c, piece.begin.lowest_c, piece.end.lowest_c}));
    pieces.push_back(piece);
  }
  readings_visited += count;
  return pieces;
}

/// The level at which a piece's stretch lasts longest against the time asked for.
double best_level_c(const Piece& piece) {
  const double shrink_s_k = piece.begin.slope_s_k - piece.end.slope_s_k;  // length lost a kelvin
  const double per_k = decades_per_k * std::log(10.0);
  double level_c = piece.high_c;
  if (shrink_s_k > 0.0) level_c = piece.high_c + piece.length_s(piece.high_c) / shrink_s_k - 1.0 / per_k;
  return std::clamp(std::min(level_c, floor_from_c()), piece.low_c, piece.high_c);
}

/// The last level on the way from one that suffices to one that may not.
double last_sufficient_c(const Piece& piece, double good_c, double other_c) {
  if (piece.ratio(other_c) >= 1.0) return other_c;
  for (int i = 0; i < halvings; ++i) {
    const double middle_c = 0.5 * (good_c + other_c);
    (piece.ratio(middle_c) >= 1.0 ? good_c : other_c) = middle_c;
  }
  return good_c;
}

/// The earliest moment at which a stretch of the piece had lasted long enough.
double earliest_met_s(const Piece& piece, double best_c) {
  const double low_c = last_sufficient_c(piece, best_c, piece.low_c);
  const double high_c = last_sufficient_c(piece, best_c, piece.high_c);
  const double per_k = decades_per_k * std::log(10.0);
  double level_c = high_c;  // the later begin against the shorter hold: one lowest point
  if (piece.begin.slope_s_k > 0.0)
    level_c = std::log10(per_k * required_hold_s(0.0) / piece.begin.slope_s_k) / decades_per_k;
  level_c = std::clamp(std::min(level_c, floor_from_c()), low_c, high_c);
  return piece.begin.moment_s(level_c) + asked_s(level_c);
}

std::string best_words(const Piece& piece, double level_c) {
  char line[120];
  std::snprintf(line, sizeof line, "best hold: %.2f degC for %.2f h of %.2f h asked", level_c,
                piece.length_s(level_c) / 3600.0, asked_s(level_c) / 3600.0);
  return line;
}

}  // namespace

double required_hold_s(double celsius) noexcept {
  return equation_days / std::pow(10.0, decades_per_k * celsius) * constant::seconds_per_day;
}

Verdict judge_time_temperature(const History& history, const Circumstances& circumstances) {
  check_history(history);
  Verdict verdict{
      "time-temperature",
      "time and temperature: an unbroken hold of D = 131,700,000 / 10^(0.14 T) days, T in Celsius, at 50 degC "
      "or more, for at least 20 minutes, solids at least 7 % (written for sewage sludge: a yardstick here, no "
      "permit)",
      "never held 50 degC",
      "40 CFR 503.32(a)(3)(ii)(A), equation 2",
      false,
      std::nullopt,
      {}};
  double best_ratio = 0.0;
  for (const Piece& piece : pieces_of(history)) {
    const double level_c = best_level_c(piece);
    const double ratio = piece.ratio(level_c);
    if (ratio >= 1.0) verdict.met_at_s = std::min(verdict.met_at_s.value_or(no_limit), earliest_met_s(piece, level_c));
    if (ratio <= best_ratio) continue;
    best_ratio = ratio;
    verdict.longest = {piece.begin.moment_s(level_c), piece.end.moment_s(level_c)};
    verdict.reading = best_words(piece, level_c);
  }
  const bool solid_enough = circumstances.solids_wet >= least_solids;
  verdict.met = best_ratio >= 1.0 && solid_enough;
  if (!verdict.met) verdict.met_at_s.reset();
  if (!solid_enough) {
    char line[80];
    std::snprintf(line, sizeof line, "; solids %.1f %% are below 7 %%", 100.0 * circumstances.solids_wet);
    verdict.reading += line;
  }
  return verdict;
}

}  // namespace stillheap::rules
