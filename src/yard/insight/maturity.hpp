#pragma once
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Laboratory results of finished compost against public standards. Limits are rows of data.
namespace stillheap::insight {

/// Which standard a limit belongs to.
enum class Standard { metals, pathogens, specification, european_germs };

/// One limit of a standard. The value counts in `unit`, on the basis the standard names.
struct QualityLimit {
  std::string_view key;   ///< for example "arsenic"
  std::string_view unit;  ///< for example "mg/kg dry"
  std::string_view source;
  std::optional<double> low;
  std::optional<double> high;
  Standard standard{};
  bool high_allowed = true;  ///< whether the upper limit itself passes ("shall not exceed") or not ("less than")
};

[[nodiscard]] std::span<const QualityLimit> quality_limits() noexcept;

/// A laboratory value beside its limit.
struct Finding {
  std::string key;
  double value = 0.0;
  std::string unit;
  bool pass = false;
  std::string words;  ///< "arsenic 41.1 mg/kg dry: over 41"
  std::string source;
};

/// Compares laboratory values (key -> value in the limit's unit) with every limit of one standard that has a
/// value. Throws InputError naming the known keys when a key belongs to no limit of the standard.
[[nodiscard]] std::vector<Finding> check_quality(Standard standard, const std::map<std::string, double>& values);

/// Whether the values pass by the standard's own words. Metals, specification, European germs: every given value
/// passes. Pathogens: either indicator suffices (40 CFR 503.32(a)). False when nothing was given. Whether compost is
/// ready is not told by this alone: see `none_failed`.
[[nodiscard]] bool passes(Standard standard, const std::vector<Finding>& findings) noexcept;

/// Our own reading, stricter than the rule's: something was tested and no test failed.
[[nodiscard]] bool none_failed(const std::vector<Finding>& findings) noexcept;

/// Stability class I (fresh) to V (finished) from the highest rise over the room in a self-heating test.
/// Boundaries 10, 20, 30, 40 K; a rise on a boundary counts as the less mature class (chosen). A class of stability
/// alone, not of maturity. Source: TMECC 05.08-D; Brinton et al. 1995 (not yet checked against the text).
struct SelfHeatingClass {
  std::string_view numeral;
  std::string_view words;
};
[[nodiscard]] SelfHeatingClass self_heating_class(double rise_k);

/// Germination index, %: (germinated / control) x (root length / control) x 100.
/// Throws InputError when a control is not above zero or a count is negative.
[[nodiscard]] double germination_index_percent(double germinated, double germinated_control, double length,
                                               double length_control);

/// What the index says, by the thresholds 50 % (harm to plants), 70 % (NY/T 525-2021) and 80 % (mature).
[[nodiscard]] std::string_view germination_words(double index_percent) noexcept;

}  // namespace stillheap::insight
