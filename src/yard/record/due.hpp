#pragma once
#include <functional>
#include <string>
#include <vector>

#include "core/base/date.hpp"
#include "core/base/note.hpp"
#include "yard/record/read.hpp"

/// What the records themselves say is due today: no phases, no forecast. Insight adds to this list.
namespace stillheap::record {

/// What the water programme asks of a vessel on a day.
struct WaterAsked {
  int every_days = 0;  ///< 0: nothing
  std::string what;    ///< "sprinkle: 3 min, 24 L"
  std::string rule;    ///< "every 2 days by the water programme"
  bool waits = false;  ///< the programme is being worked out: nothing is asked until it is known
};
/// Nothing when no programme is known for the vessel.
using WaterLookup = std::function<std::optional<WaterAsked>(const VesselGlance& glance, date::Day day)>;

/// How often things are wanted. The numbers stand in assumptions_of and in every list made of them.
struct Rhythm {
  double forms_out_after_h = 24.0;      ///< chosen: a day, when the blend has settled round the pipes
  double sprinkle_every_days = 1.0;     ///< where no programme is known; common practice, no source
  double reading_every_days = 1.0;      ///< chosen, for the first days: shorter than rules::widest_gap_s
  double young_days = 60.0;             ///< chosen: while it may be hot
  double old_reading_every_days = 7.0;  ///< chosen: afterwards
  double planned_shown_days = 14.0;     ///< chosen: a planned day is shown so long before and after it
  double done_ahead_days = 45.0;        ///< chosen: work noted so long before its planned day ticks it off
  WaterLookup water;                    ///< empty: no programme is known of any vessel
};

[[nodiscard]] Assumptions assumptions_of(const Rhythm& rhythm);

enum class DueKind { forms_out, sprinkle, reading, planned };

struct Due {
  DueKind kind{};
  std::string vessel;    ///< its name; for planned days the design or empty
  std::string fill_id;   ///< empty for planned days
  std::string what;      ///< "take the forms out"
  std::string why;       ///< the entry and the rule behind it
  Instant since{};       ///< from when on it has been due
  std::string entry_id;  ///< the planned day; empty for the others
  bool ahead = false;    ///< a planned day that has not come yet
};

/// Everything due at `at`, longest due first. Calendar days are those of `zone`.
[[nodiscard]] std::vector<Due> due_list(const std::vector<VesselGlance>& yard, const std::vector<DueDay>& planned,
                                        Instant at, const std::string& zone, const Rhythm& rhythm = {});

/// The calendar of a plan.json as days to be stored; their ids come from their content, so that the same plan taken
/// in twice stands once. Throws InputError when the text is no plan.
[[nodiscard]] std::vector<DueDay> due_days_of_plan(std::string_view plan_json, const EntryMetadata& mark);

/// Whether a day came in with a plan: then its id was made from its content.
[[nodiscard]] bool is_of_plan(const DueDay& day);

}  // namespace stillheap::record
