#pragma once
#include <array>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "model/forecast/result.hpp"
#include "planning/plan/plan.hpp"

namespace stillheap::study {

/// What became of a case.
enum class State {
  done,
  impossible,  ///< its site cannot be: a value out of its range, a channel on the wall, no blend within the limits
  failed       ///< the forecast broke off, or its workers were lost again and again
};
[[nodiscard]] const char* name_of(State state) noexcept;

/// One number of a case: a column of the results.
struct Measure {
  std::string_view name;  ///< with its unit: "peak_temperature_c"
  std::string_view unit;  ///< as UDUNITS-2 writes it
  std::string_view help;
  std::optional<Dimension> shown;                                      ///< how people read it; nothing: a plain number
  bool banded;                                                         ///< the forecast gives it a band
  forecast::Banded (*of)(const plan::Plan&, const plan::VesselPlan&);  ///< NaN: not known
};
[[nodiscard]] std::span<const Measure> measures() noexcept;

/// Place of a measure in `measures()`. Throws std::out_of_range for a name that is none.
[[nodiscard]] std::size_t measure_index(std::string_view name);

/// A number for people, in their units: "1.2 m3", "day 114", "none" when it is not known.
[[nodiscard]] std::string shown(const Measure& measure, double value, UnitSystem units);

/// The numbers of one kind of vessel of a case, in the order of `measures()`.
struct KindNumbers {
  std::string vessel;
  std::vector<forecast::Banded> numbers;
};

struct CaseResult {
  int number = 1;
  State state = State::done;
  std::string reason;  ///< why it is not done
  std::vector<KindNumbers> kinds;
  // Not part of the results:
  std::string by;               ///< the process that ran it
  double cpu_s = 0.0;           ///< processor time it took
  double peak_memory_kb = 0.0;  ///< of that process, so far
};

/// As kept in the study's folder, JSON. Numbers keep every bit.
[[nodiscard]] std::string to_text(const CaseResult& result);

/// Throws RunError when the file is damaged or of another program.
[[nodiscard]] CaseResult read_case_result(const std::filesystem::path& file);

}  // namespace stillheap::study
