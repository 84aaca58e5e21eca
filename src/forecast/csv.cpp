#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <string_view>

#include "base/whole_file.hpp"
#include "forecast/output.hpp"

namespace stillheap::forecast {
namespace {

struct Column {
  std::string_view name;
  double HistoryRow::*value;
};

/// Names hold neither comma nor quote, and values are numbers: nothing ever needs quoting.
constexpr std::array<Column, 19> columns{{
    {"day", &HistoryRow::day},
    {"outside_degC", &HistoryRow::outside_c},
    {"mean_degC", &HistoryRow::mean_c},
    {"core_degC", &HistoryRow::core_c},
    {"core_low_degC", &HistoryRow::core_low_c},
    {"core_high_degC", &HistoryRow::core_high_c},
    {"hottest_degC", &HistoryRow::hottest_c},
    {"coldest_degC", &HistoryRow::coldest_c},
    {"lowest_oxygen_share", &HistoryRow::lowest_oxygen},
    {"mean_oxygen_share", &HistoryRow::mean_oxygen},
    {"mean_moisture_wet", &HistoryRow::mean_moisture_wet},
    {"mean_moisture_low_wet", &HistoryRow::moisture_low_wet},
    {"mean_moisture_high_wet", &HistoryRow::moisture_high_wet},
    {"dry_mass_kg", &HistoryRow::dry_mass_kg},
    {"height_m", &HistoryRow::height_m},
    {"oxygen_uptake_kg_s", &HistoryRow::uptake_kg_s},
    {"evaporated_kg_day", &HistoryRow::evaporated_kg_day},
    {"drained_kg_day", &HistoryRow::drained_kg_day},
    {"sprinkled_kg_day", &HistoryRow::sprinkled_kg_day},
}};
constexpr int digits = 9;

void append_number(std::string& text, double value) {
  if (!std::isfinite(value)) return;
  std::array<char, 32> buffer{};
  const auto end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, digits);
  text.append(buffer.data(), end.ptr);
}

}  // namespace

void write_history_csv(const Result& result, const std::filesystem::path& file) {
  std::string text;
  const auto line = [&text](auto&& append_field) {
    for (const Column& column : columns) {
      if (&column != columns.data()) text += ',';
      append_field(column);
    }
    text += "\r\n";
  };
  line([&](const Column& column) { text += column.name; });
  for (const HistoryRow& row : result.history)
    line([&](const Column& column) { append_number(text, row.*column.value); });
  write_whole_file(file, text);
}

}  // namespace stillheap::forecast
