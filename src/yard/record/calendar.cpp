#include "yard/record/calendar.hpp"

#include "core/base/date.hpp"
#include "core/ical/ical.hpp"
#include "yard/record/due.hpp"

namespace stillheap::record {

std::string calendar_of(const Store& store, Instant at, const std::string& zone, const Rhythm& rhythm) {
  std::vector<ical::CalendarDay> days;
  const std::string today = date::to_iso(local_day(at, zone));
  const std::vector<DueDay> planned = all<DueDay>(store);
  for (const Due& one : due_list(yard(store), planned, at, zone, rhythm)) {
    if (one.kind == DueKind::planned) continue;
    const std::string uid = one.fill_id + "-" + std::to_string(static_cast<int>(one.kind)) + "@stillheap";
    days.push_back({uid, today, "", one.vessel + ": " + one.what, one.why});
  }
  for (const DueDay& one : planned) {
    const std::string title = one.vessel.empty() ? one.what : one.vessel + ": " + one.what;
    days.push_back({one.mark.thing + "@stillheap", one.date, one.latest_date, title, "set by the plan"});
  }
  return ical::calendar_text("Compost yard", days, at);
}

}  // namespace stillheap::record
