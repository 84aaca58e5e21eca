#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

/// Without the conditions of the harvest, which its work order lists where they are checked.
std::string short_words(const std::string& what) {
  const std::size_t conditions = what.find(". Ready when ");
  return conditions == std::string::npos ? what : what.substr(0, conditions) + ". Ready when work order 6 says so";
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
  for (const plan::CalendarEntry& entry : plan.calendar) {
    const Date first = read_date(entry.date);
    const Date last = entry.latest_date.empty() ? first : read_date(entry.latest_date);
    table.rows.push_back(
        {{"", date_span(first, last), short_words(entry.what), entry.vessel.empty() ? "all" : entry.vessel}});
  }
  draw_table(flow, table);
}

}  // namespace stillheap::sheet
