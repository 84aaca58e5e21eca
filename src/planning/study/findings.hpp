#pragma once
#include <string>
#include <vector>

#include "planning/study/folder.hpp"

namespace stillheap::study {

/// One row of the results: one kind of vessel of one case. A case that is not done has one row without numbers.
struct CaseRow {
  int number = 1;
  State state = State::done;
  std::string reason;
  std::string vessel;
  std::vector<std::string> values;        ///< of the axes, as written
  std::vector<forecast::Banded> numbers;  ///< in the order of `measures()`; NaN where not known
};

/// What a study found.
struct Findings {
  Study study;
  std::vector<CaseRow> rows;       ///< by case, kinds in the order of the site file
  std::vector<std::size_t> front;  ///< places in `rows`, see `front_of`
  std::size_t cases = 0, done = 0, impossible = 0, failed = 0;
  double cpu_s = 0.0;           ///< of all cases together
  double peak_memory_kb = 0.0;  ///< of the largest worker
  // Of the first case that could be read, for words on the page.
  std::string site_name, start_date = "2000-01-01";
  UnitSystem units = UnitSystem::metric;
  int days = 0, members = 0;
};

/// What is weighed against one another, and which way is better.
struct Goal {
  std::string_view measure;
  bool more_is_better;
  std::string_view words;
};
[[nodiscard]] std::span<const Goal> goals() noexcept;

/// The runs that no other run beats in all goals at once (Pareto front), those with the largest hot share first, then
/// by number. A heap that does not cool within the forecast is the worst in that.
[[nodiscard]] std::vector<std::size_t> front_of(const std::vector<CaseRow>& runs);

/// Reads every case of a finished study. Throws RunError when a file is missing or damaged.
[[nodiscard]] Findings gather(const Folder& folder, const Study& study, const std::vector<Case>& cases);

/// The findings in sentences and a table of the front.
[[nodiscard]] std::string summary_text(const Findings& findings);

/// Whether any number has a band.
[[nodiscard]] bool has_bands(const Findings& findings);

/// Lowest and highest known value of a measure over all runs; nothing when none is known.
struct Reach {
  double low = 0.0, high = 0.0;
};
[[nodiscard]] std::optional<Reach> reach_of(const std::vector<CaseRow>& runs, std::size_t measure);

}  // namespace stillheap::study
