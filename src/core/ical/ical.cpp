#include "core/ical/ical.hpp"

#include <libical/ical.h>

#include <memory>

#include "core/base/date.hpp"
#include "core/base/error.hpp"

namespace stillheap::ical {
namespace {

using Calendar = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

icaltimetype whole_day(date::Day day) {
  const std::chrono::year_month_day parts{day};
  icaltimetype time = icaltime_null_date();
  time.year = static_cast<int>(parts.year());
  time.month = static_cast<int>(static_cast<unsigned>(parts.month()));
  time.day = static_cast<int>(static_cast<unsigned>(parts.day()));
  return time;
}

date::Day day_of(const std::string& text) {
  const auto day = date::parse_iso(text);
  if (!day || *day > date::Day{std::chrono::year{9998} / 12 / 31})
    throw InputError("calendar: date", "= \"" + text + "\"", "give a date as 2026-05-03");
  return *day;
}

void add_day(icalcomponent* calendar, const CalendarDay& day, icaltimetype made) {
  const date::Day first = day_of(day.first);
  const date::Day last = day.last.empty() ? first : day_of(day.last);
  icalcomponent* event = icalcomponent_new(ICAL_VEVENT_COMPONENT);
  icalcomponent_add_component(calendar, event);
  icalcomponent_add_property(event, icalproperty_new_uid(day.uid.c_str()));
  icalcomponent_add_property(event, icalproperty_new_dtstamp(made));
  icalcomponent_add_property(event, icalproperty_new_dtstart(whole_day(first)));
  // The end of a whole-day entry is the day after its last one (RFC 5545, 3.6.1).
  icalcomponent_add_property(event, icalproperty_new_dtend(whole_day(last + std::chrono::days{1})));
  icalcomponent_add_property(event, icalproperty_new_summary(day.title.c_str()));
  if (!day.description.empty()) {
    icalcomponent_add_property(event, icalproperty_new_description(day.description.c_str()));
  }
  icalcomponent_add_property(event, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));  // the day stays free
}

}  // namespace

std::string calendar_text(const std::string& name, const std::vector<CalendarDay>& days,
                          std::chrono::sys_seconds made) {
  const Calendar calendar(icalcomponent_new(ICAL_VCALENDAR_COMPONENT), &icalcomponent_free);
  icalcomponent_add_property(calendar.get(), icalproperty_new_version("2.0"));
  icalcomponent_add_property(calendar.get(), icalproperty_new_prodid("-//stillheap//records//EN"));
  icalproperty* title = icalproperty_new_x(name.c_str());
  icalproperty_set_x_name(title, "X-WR-CALNAME");
  icalcomponent_add_property(calendar.get(), title);
  const icaltimetype stamp =
      icaltime_from_timet_with_zone(made.time_since_epoch().count(), 0, icaltimezone_get_utc_timezone());
  for (const CalendarDay& day : days) add_day(calendar.get(), day, stamp);
  const std::unique_ptr<char, decltype(&icalmemory_free_buffer)> text(icalcomponent_as_ical_string_r(calendar.get()),
                                                                      &icalmemory_free_buffer);
  return text.get();
}

}  // namespace stillheap::ical
