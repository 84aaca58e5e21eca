#pragma once
#include <chrono>
#include <string>
#include <vector>

/// Due days as a calendar file (RFC 5545), for any calendar on a phone.
namespace stillheap::ical {

/// One whole-day entry.
struct CalendarDay {
  std::string uid;          ///< the same each time the same thing is written; ids of entries do
  std::string first;        ///< ISO date
  std::string last;         ///< ISO date, included; empty: the first alone
  std::string title;        ///< "North 1: take the forms out"
  std::string description;  ///< may be empty
};

/// A whole calendar. `made` is when it was written (DTSTAMP). Throws InputError for a date that is none.
[[nodiscard]] std::string calendar_text(const std::string& name, const std::vector<CalendarDay>& days,
                                        std::chrono::sys_seconds made);

}  // namespace stillheap::ical
