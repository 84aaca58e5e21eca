#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <string_view>

#include "core/base/whole_file.hpp"
#include "model/forecast/output.hpp"

namespace stillheap::forecast {
namespace {

struct Column {
  std::string_view name, unit;
  double HistoryRow::*value;
  bool banded = true;
};

/// Names hold neither comma nor quote, and values are numbers: nothing ever needs quoting.
constexpr std::array<Column, 17> columns{{
    {"day", "", &HistoryRow::day, false},
    {"outside", "_degC", &HistoryRow::outside_c, false},
    {"mean", "_degC", &HistoryRow::mean_c},
    {"core", "_degC", &HistoryRow::core_c},
    {"hottest", "_degC", &HistoryRow::hottest_c},
    {"coldest", "_degC", &HistoryRow::coldest_c},
    {"lowest_oxygen", "_share", &HistoryRow::lowest_oxygen},
    {"mean_oxygen", "_share", &HistoryRow::mean_oxygen},
    {"mean_moisture", "_wet", &HistoryRow::mean_moisture_wet},
    {"dry_mass", "_kg", &HistoryRow::dry_mass_kg},
    {"height", "_m", &HistoryRow::height_m},
    {"oxygen_uptake", "_kg_s", &HistoryRow::uptake_kg_s},
    {"evaporated", "_kg_day", &HistoryRow::evaporated_kg_day},
    {"drained", "_kg_day", &HistoryRow::drained_kg_day},
    {"sprinkled", "_kg_day", &HistoryRow::sprinkled_kg_day},
    {"rain", "_kg_day", &HistoryRow::rain_kg_day},
    {"water_made", "_kg_day", &HistoryRow::water_made_kg_day},
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
  const auto name = [&](const Column& c, std::string_view end) { text.append(c.name).append(end).append(c.unit); };
  line([&](const Column& column) {
    name(column, "");
    if (!column.banded) return;
    for (const std::string_view end : {"_low", "_high"}) {
      text += ',';
      name(column, end);
    }
  });
  for (std::size_t r = 0; r < result.history.size(); ++r) {
    line([&](const Column& column) {
      append_number(text, result.history[r].*column.value);
      if (!column.banded) return;
      for (const auto* ends : {&result.history_low, &result.history_high}) {
        text += ',';
        if (r < ends->size()) append_number(text, (*ends)[r].*column.value);
      }
    });
  }
  write_whole_file(file, text);
}

}  // namespace stillheap::forecast
