#include "yard/record/log_sheet.hpp"

#include <vector>

#include "core/base/csv.hpp"

namespace stillheap::record {

std::string blank_log_csv(UnitSystem units) {
  std::vector<std::string> head;
  for (const LogColumnInfo& column : log_columns) {
    const std::string_view unit = unit_of(column, units);
    head.push_back(std::string(column.name) + (unit.empty() ? "" : " (" + std::string(unit) + ")"));
  }
  std::string text = csv::row(head);
  for (int day = 1; day <= logged_days; ++day) {
    std::vector<std::string> cells(log_columns.size());
    cells[static_cast<std::size_t>(LogColumn::day)] = std::to_string(day);
    cells[static_cast<std::size_t>(LogColumn::time)] = usual_hour;
    text += csv::row(cells);
  }
  return text;
}

}  // namespace stillheap::record
