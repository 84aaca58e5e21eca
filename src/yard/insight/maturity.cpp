#include "yard/insight/maturity.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/error.hpp"
#include "core/base/plain_number.hpp"

namespace stillheap::insight {
namespace {

constexpr std::string_view metals_source = "40 CFR 503.13 table 3";
constexpr std::string_view pathogens_source = "40 CFR 503.32(a)(3)(i); read in 15A NCAC 02T .1106(a)(2)";
constexpr std::string_view specification_source =
    "chosen: usual limits of compost for soil improvement; no text that can be looked up is known to us, so they bind "
    "nobody";
constexpr std::string_view european_source =
    "Regulation (EU) 2019/1009, annex I (salmonella absent in 25 g, Escherichia coli at most 1000 CFU/g; five samples, "
    "every one), for EU fertilising products; Regulation (EU) 142/2011, annex V for composted animal by-products (not "
    "yet "
    "checked against the text)";

constexpr auto none = std::nullopt;

constexpr QualityLimit metal(std::string_view key, double high) {
  return {key, "mg/kg dry", metals_source, none, high, Standard::metals, true};
}
constexpr QualityLimit pathogen(std::string_view key, std::string_view unit, double below) {
  return {key, unit, pathogens_source, none, below, Standard::pathogens, false};
}
constexpr QualityLimit specified(std::string_view key, std::string_view unit, std::optional<double> low,
                                 std::optional<double> high, bool high_allowed = true) {
  return {key, unit, specification_source, low, high, Standard::specification, high_allowed};
}

constexpr QualityLimit limits[] = {
    metal("arsenic", 41.0),
    metal("cadmium", 39.0),
    metal("copper", 1500.0),
    metal("lead", 300.0),
    metal("mercury", 17.0),
    metal("nickel", 420.0),
    metal("selenium", 100.0),
    metal("zinc", 2800.0),
    pathogen("fecal_coliform", "MPN/g dry", 1000.0),
    pathogen("salmonella", "MPN/4 g dry", 3.0),
    {"salmonella_25_g", "found/25 g", european_source, none, 0.0, Standard::european_germs, true},
    {"escherichia_coli", "CFU/g", european_source, none, 1000.0, Standard::european_germs, true},
    specified("carbon_dioxide", "mg CO2-C/(g organic matter d)", none, 8.0, false),
    specified("ph", "", 5.5, 8.5),
    specified("conductivity", "dS/m", none, 10.0),
    specified("organic_matter", "% dry", 30.0, 65.0),
    specified("seedling_vigour", "% of control", 80.0, none),
};

std::string number(double value) { return plain::to_text(value, 6); }

const QualityLimit& find_limit(Standard standard, const std::string& key) {
  std::string known;
  for (const QualityLimit& limit : limits) {
    if (limit.standard != standard) continue;
    if (limit.key == key) return limit;
    known += (known.empty() ? "" : ", ") + std::string(limit.key);
  }
  throw InputError("laboratory value", "\"" + key + "\" has no limit in this standard", "use one of " + known);
}

Finding compare(const QualityLimit& limit, double value) {
  const bool under = limit.low && value < *limit.low;
  const bool over = limit.high && (limit.high_allowed ? value > *limit.high : value >= *limit.high);
  const bool usable = std::isfinite(value);
  std::string words = std::string(limit.key) + " " + number(value);
  if (!limit.unit.empty()) words += " " + std::string(limit.unit);
  if (!usable) {
    words += ": not a number";
  } else if (under) {
    words += ": below " + number(*limit.low);
  } else if (over) {
    words += limit.high_allowed ? ": over " + number(*limit.high) : ": not below " + number(*limit.high);
  } else {
    words += ": within the limit";
  }
  return {std::string(limit.key),   value, std::string(limit.unit), usable && !under && !over, std::move(words),
          std::string(limit.source)};
}

}  // namespace

std::span<const QualityLimit> quality_limits() noexcept { return limits; }

std::vector<Finding> check_quality(Standard standard, const std::map<std::string, double>& values) {
  std::vector<Finding> findings;
  findings.reserve(values.size());
  for (const auto& [key, value] : values) findings.push_back(compare(find_limit(standard, key), value));
  return findings;
}

bool passes(Standard standard, const std::vector<Finding>& findings) noexcept {
  std::size_t passed = 0;
  for (const Finding& finding : findings) passed += finding.pass ? 1 : 0;
  if (standard == Standard::pathogens) return passed > 0;
  return passed > 0 && passed == findings.size();
}

bool none_failed(const std::vector<Finding>& findings) noexcept {
  return !findings.empty() &&
         std::all_of(findings.begin(), findings.end(), [](const Finding& finding) { return finding.pass; });
}

SelfHeatingClass self_heating_class(double rise_k) {
  if (!std::isfinite(rise_k)) {
    throw InputError("self-heating test", "the rise is not a number", "give the highest rise over the room in K");
  }
  if (rise_k < 10.0) return {"V", "very stable"};
  if (rise_k < 20.0) return {"IV", "stable, curing"};
  if (rise_k < 30.0) return {"III", "still active"};
  if (rise_k < 40.0) return {"II", "very active"};
  return {"I", "like fresh material"};
}

double germination_index_percent(double germinated, double germinated_control, double length, double length_control) {
  if (!(germinated_control > 0.0) || !(length_control > 0.0) || !(germinated >= 0.0) || !(length >= 0.0)) {
    throw InputError("germination test", "a control of nothing or a negative count",
                     "give germination and root length of the sample and of a control that grew");
  }
  return germinated / germinated_control * (length / length_control) * 100.0;
}

std::string_view germination_words(double index_percent) noexcept {
  if (!(index_percent >= 50.0)) return "harms plants";
  if (index_percent < 70.0) return "some harm to plants; cure on";
  if (index_percent < 80.0) return "passes 70 %; not yet mature by 80 %";
  return "mature";
}

}  // namespace stillheap::insight
