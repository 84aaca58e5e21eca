#include "yard/record/doubt_jump.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "yard/record/doubt_amounts.hpp"
#include "yard/record/read.hpp"
#include "yard/record/series.hpp"

namespace stillheap::record {
namespace {

using std::chrono::seconds;

// All chosen. A heap that heats fast gains some 2 K an hour.
constexpr double jump_k = 30.0;                // more than any heap changes within half a day
constexpr double fits_k = 15.0;                // so near, another unit explains it
constexpr seconds side_by_side{12 * 3600};     // readings that are held against each other
constexpr seconds before{3 * 86400};           // a column against the place's last reading
constexpr seconds young{60 * 86400};           // heaps are hot in their first weeks
constexpr double cold_c = 27.0, hot_c = 45.0;  // a column that never heats, and one that does
constexpr double hottest_c = 80.0;

double fahrenheit(double celsius) { return celsius * 1.8 + 32.0; }
double celsius(double fahrenheit) { return (fahrenheit - 32.0) / 1.8; }

std::string told(double value_c, UnitSystem units) { return quantity::format(value_c, Dimension::temperature, units); }

/// The same number read in the other scale, when that lies near: "; as degC its number would be 131 degF".
std::string other_scale(double value_c, double near_c, bool in_fahrenheit, UnitSystem units) {
  const double meant_c = in_fahrenheit ? fahrenheit(value_c) : celsius(value_c);
  if (std::abs(meant_c - near_c) > fits_k) return {};
  return std::string("; in ") + (in_fahrenheit ? "degC" : "degF") + " its number would be " + told(meant_c, units);
}

/// Whether a reading's number was given in degrees Fahrenheit: as it was written, else as the yard writes.
bool in_fahrenheit(const Reading& reading, UnitSystem units) {
  if (reading.written.empty()) return units == UnitSystem::us;
  return reading.written.back() == 'F';
}

std::vector<Reading> at_place(const Store& store, const Reading& reading, Instant begin, Instant end) {
  std::vector<Reading> all = readings_between(store, reading.fill_id, begin, end, Measure::temperature);
  const std::string key = place_key(reading.place);
  std::erase_if(
      all, [&](const Reading& one) { return place_key(one.place) != key || one.mark.id == reading.mark.corrects; });
  return all;
}

double median_of(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// What the column shows in its first half day.
double begin_of(std::span<const Reading> column) {
  std::vector<double> values;
  for (const Reading& one : column) {
    if (one.at <= column.front().at + side_by_side) values.push_back(one.value);
  }
  return median_of(values);
}

std::string cold_column(std::span<const Reading> column, bool fahrenheit_column, UnitSystem units) {
  if (!fahrenheit_column) return {};
  const auto hottest = std::max_element(column.begin(), column.end(),
                                        [](const Reading& a, const Reading& b) { return a.value < b.value; });
  const double meant_c = fahrenheit(hottest->value);
  if (hottest->value > cold_c || meant_c < hot_c || meant_c > hottest_c) return {};
  return "nothing in this column is above " + told(hottest->value, units) +
         ", cold for a young heap; in degC its numbers would go up to " + told(meant_c, units) + ": is its unit right?";
}

}  // namespace

void doubt_jump(const Store& store, const Reading& reading, UnitSystem units, Doubts& doubts) {
  if (reading.measure != Measure::temperature) return;
  const std::vector<Reading> all = at_place(store, reading, reading.at - side_by_side, reading.at + side_by_side);
  if (all.empty()) return;
  const auto near = std::min_element(all.begin(), all.end(), [&](const Reading& a, const Reading& b) {
    return std::chrono::abs(a.at - reading.at) < std::chrono::abs(b.at - reading.at);
  });
  if (std::abs(near->value - reading.value) <= jump_k) return;
  add_doubt(doubts, "reading: temperature",
            "= " + told(reading.value, units) + ", where this place showed " + told(near->value, units) +
                " within half a day; no heap changes so fast" +
                other_scale(reading.value, near->value, in_fahrenheit(reading, units), units));
}

std::string column_doubt(const Store& store, const Fill& fill, std::span<const Reading> column, bool fahrenheit_column,
                         UnitSystem units) {
  if (column.empty() || column.front().measure != Measure::temperature) return {};
  const Reading& first = column.front();
  const std::vector<Reading> all = at_place(store, first, first.at - before, first.at + seconds{1});
  if (all.empty()) {
    const bool is_young = first.at < fill.filled_at + young;
    return is_young ? cold_column(column, fahrenheit_column, units) : std::string{};
  }
  const double begin_c = begin_of(column);
  const Reading& last = all.back();
  const std::string other = other_scale(begin_c, last.value, fahrenheit_column, units);
  const bool may_change = first.at - last.at > side_by_side && other.empty();
  if (std::abs(last.value - begin_c) <= jump_k || may_change) return {};
  return "this column begins at " + told(begin_c, units) + ", where this place showed " + told(last.value, units) +
         " before" + (other.empty() ? ": is it another probe's?" : other + ": is its unit right?");
}

}  // namespace stillheap::record
