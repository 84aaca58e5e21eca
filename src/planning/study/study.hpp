#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "planning/site/setting.hpp"
#include "planning/site/site.hpp"

/// A study: one site file read many times with some of its values varied.
namespace stillheap::study {

/// How the cases come about.
enum class Way {
  grid,         ///< every value of each key with every value of the others; the last key changes fastest
  list,         ///< the first values of all keys together, then the second ones, ...
  quasi_random  ///< points spread evenly over all keys at once (the ensemble's Sobol points)
};
[[nodiscard]] const char* name_of(Way way) noexcept;

/// Two ends in one unit; values between them are written in that unit.
struct Range {
  double from = 0.0, to = 0.0;
  std::string unit;    ///< empty: plain numbers
  bool whole = false;  ///< only whole numbers are allowed
};

/// One key that is varied.
struct Axis {
  std::string key;
  const site::Key* row = nullptr;
  bool share = false;               ///< one share of a table of shares
  std::string where;                ///< "study.toml:7"
  std::vector<std::string> values;  ///< written as in a site file; empty for a range drawn quasi-randomly
  std::optional<Range> range;
};

struct Study {
  std::filesystem::path file;
  std::filesystem::path site;  ///< resolved against the study's folder
  std::string site_text;       ///< as it was when the study was read: all cases vary the same
  Way way = Way::grid;
  int count = 0;  ///< of quasi-random cases
  std::uint64_t seed = 1;
  bool leave_out_impossible = false;  ///< instead of refusing the study
  std::vector<Axis> axes;             ///< in the order of the file
  std::vector<site::Setting> fixed;   ///< the same in every case
};

/// Most cases of one study. Chosen: their names have six digits.
inline constexpr int most_cases = 999999;

/// One run: a value for each axis, written as in a site file.
struct Case {
  int number = 1;
  std::vector<std::string> values;
};

/// Reads and checks a study file; throws InputError with every problem, each with file, line, key and what is allowed.
/// Whether the values suit the site file is seen when a case is read.
[[nodiscard]] Study read_study(const std::filesystem::path& file);

/// All cases, numbered from 1. The same study gives the same cases.
[[nodiscard]] std::vector<Case> cases_of(const Study& study);

/// The site of one case. Throws InputError when its values are wrong, each told where it stands in the study.
[[nodiscard]] site::Site site_of(const Study& study, const Case& one);

/// "vessel.diameter = "1.2 m", vessel.channels.count = 5"
[[nodiscard]] std::string words_of(const Study& study, const Case& one);

/// "60 % to 70 %"
[[nodiscard]] std::string range_words(const Range& range);

/// A value of an axis as a number in the SI unit of its key; nothing for words, lists and the like.
[[nodiscard]] std::optional<double> number_of(const Axis& axis, const std::string& value);

/// That unit as UDUNITS-2 writes it, "m"; empty for plain numbers.
[[nodiscard]] std::string unit_of(const Axis& axis);

}  // namespace stillheap::study
