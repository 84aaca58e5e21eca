#include <chrono>

#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

std::string month_of(Date date) {
  const std::chrono::year_month_day day{date};
  return month_long(static_cast<unsigned>(day.month())) + " " + std::to_string(static_cast<int>(day.year()));
}

}  // namespace

void calendar_page(Flow& flow, const plan::Plan& plan) {
  flow.start_sheet("Calendar", "dates from the forecast are ranges: look at the heap, not at the date alone");
  if (plan.calendar.empty()) {
    flow.paragraph("This plan has no dated work.");
    return;
  }
  Table table;
  table.size_pt = 11.0;
  table.row_padding_pt = 4.0;
  table.columns = {{.head = "", .fixed_pt = 16.0, .paint = paint_tick_box},
                   {.head = "When", .strong = true},
                   {.head = "What"},
                   {.head = "Vessel"}};
  std::string month;
  for (const plan::CalendarEntry& entry : plan.calendar) {
    const Date first = read_date(entry.date);
    const Date last = entry.latest_date.empty() ? first : read_date(entry.latest_date);
    if (month_of(first) != month) {
      month = month_of(first);
      table.rows.push_back({{month}, RowKind::group});
    }
    table.rows.push_back({{"", date_span(first, last), entry.what, entry.vessel.empty() ? "all" : entry.vessel}});
  }
  draw_table(flow, table);
}

}  // namespace stillheap::sheet
