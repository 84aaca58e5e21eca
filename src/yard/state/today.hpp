#pragma once
#include <string>
#include <vector>

#include "yard/record/due.hpp"
#include "yard/state/state.hpp"
#include "yard/state/words.hpp"

/// What there is to do today over the whole yard, with reasons.
namespace stillheap::yard {

struct Task {
  insight::Severity weight = insight::Severity::due;
  std::string vessel;   ///< its name; for planned days the design or empty
  std::string fill_id;  ///< empty for planned days
  std::string id;       ///< the rule ("too-hot") or the kind of due work ("due-sprinkle", "due-planned")
  std::string what;     ///< what to do
  std::string why;      ///< statement or reason, with the reading
  std::string rule;     ///< may be empty for planned days
  std::string source;
  std::string caution;  ///< may be empty
  record::Instant since{};
  std::string entry_id;  ///< the planned day; empty for the others
  bool ahead = false;    ///< a planned day that has not come yet
};

/// All vessels that have a fill, by name.
[[nodiscard]] std::vector<VesselState> states_of_yard(const record::Store& store, const Setting& setting,
                                                      record::Instant at);

/// Dangers, then warnings, then what is due by records and readings, then planned days that have come, then those still
/// ahead; each group longest due first.
/// A reading that is due by the records and missing by the alerts stands once.
[[nodiscard]] std::vector<Task> tasks_of(const std::vector<VesselState>& states, const std::vector<record::Due>& due,
                                         const Reader& reader);

/// The same from the store.
[[nodiscard]] std::vector<Task> today(const record::Store& store, const Setting& setting, record::Instant at,
                                      const Reader& reader, const record::Rhythm& rhythm = {});

}  // namespace stillheap::yard
