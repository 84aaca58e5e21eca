#include "yard/record/measure.hpp"

#include <algorithm>
#include <array>

#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "core/quantity/both.hpp"
#include "core/quantity/rounding.hpp"

namespace stillheap::record {
namespace {

// Limits are chosen: wider than anything a probe in a heap can show, so that only slips of the pen are refused. What is
// usual is chosen too: a heap that decays stays below 80 degC, air holds 20.9 % of oxygen, and what lies outside is
// mostly a number in another unit.
constexpr std::array table{
    MeasureInfo{Measure::temperature, "temperature", "degC", "degc", -45.0, 110.0, Dimension::temperature, -20.0, 80.0,
                ""},
    MeasureInfo{Measure::moisture, "moisture", "kg/kg wet", "wet", 0.0, 1.0, Dimension::fraction, 0.10, 0.90,
                " of wet mass"},
    MeasureInfo{Measure::oxygen, "oxygen", "m3/m3", "volume", 0.0, 0.25, Dimension::fraction, 0.0, 0.21, " of the air"},
    MeasureInfo{Measure::carbon_dioxide, "carbon_dioxide", "m3/m3", "volume", 0.0, 1.0, Dimension::fraction, 0.0, 0.30,
                " of the air"},
    MeasureInfo{Measure::conductivity, "conductivity", "S/m", "s_m", 0.0, 20.0, Dimension::conductivity, 0.0, 3.0, ""},
    MeasureInfo{Measure::acidity, "acidity", "pH", "ph", 0.0, 14.0, std::nullopt, 3.5, 10.0, ""},
};

constexpr std::array events{
    EventInfo{EventKind::forms_out, "forms_out", "forms out"},
    EventInfo{EventKind::sprinkled, "sprinkled", "sprinkled"},
    EventInfo{EventKind::covered, "covered", "covered"},
    EventInfo{EventKind::channel_cleared, "channel_cleared", "channel cleared"},
    EventInfo{EventKind::worms_in, "worms_in", "worms in"},
    EventInfo{EventKind::sampled, "sampled", "sampled"},
    EventInfo{EventKind::cured, "cured", "judged ready"},
    EventInfo{EventKind::harvested, "harvested", "harvested"},
    EventInfo{EventKind::emptied, "emptied", "emptied"},
    EventInfo{EventKind::other, "other", "other"},
};

std::string range_text(Measure measure, double least, double most, UnitSystem system) {
  return value_text(measure, least, system) + " to " + value_text(measure, most, system) +
         std::string(info(measure).of);
}

}  // namespace

std::span<const MeasureInfo> measures() noexcept { return table; }

const MeasureInfo& info(Measure measure) noexcept { return table[static_cast<std::size_t>(measure)]; }

std::optional<Measure> measure_of(std::string_view key) noexcept {
  const auto found = std::find_if(table.begin(), table.end(), [&](const MeasureInfo& one) { return one.key == key; });
  if (found == table.end()) return std::nullopt;
  return found->measure;
}

double parse_value(Measure measure, std::string_view text, std::string_view where) {
  const MeasureInfo& about = info(measure);
  double value = 0.0;
  if (about.dimension) {
    value = quantity::parse(text, *about.dimension, where);
  } else {
    std::string_view digits = trimmed(text);
    if (digits.starts_with("pH")) digits = trimmed(digits.substr(2));
    const std::optional<double> read = number_of(digits);
    if (!read) throw InputError(std::string(where), "= \"" + std::string(text) + "\" is no pH", "write it as 7.4");
    value = *read;
  }
  // 131 degF comes out as 55.0000000000002: rules compare with 55, so the noise of the conversion goes.
  value = quantity::round_to_digits(value, 12);
  if (value >= about.least && value <= about.most) return value;
  throw InputError(std::string(where), "= \"" + std::string(text) + "\" cannot be", "give " + allowed_text(measure));
}

std::string value_text(Measure measure, double value, UnitSystem system) {
  const MeasureInfo& about = info(measure);
  if (about.dimension) return quantity::format(value, *about.dimension, system);
  return "pH " + quantity::to_text(value, 3);
}

std::string usual_text(Measure measure, UnitSystem system) {
  const MeasureInfo& about = info(measure);
  return range_text(measure, about.usual_least, about.usual_most, system);
}

std::string allowed_text(Measure measure) {
  const MeasureInfo& about = info(measure);
  return quantity::in_both([&](UnitSystem system) { return range_text(measure, about.least, about.most, system); });
}

std::span<const EventInfo> event_kinds() noexcept { return events; }

const EventInfo& info(EventKind kind) noexcept { return events[static_cast<std::size_t>(kind)]; }

std::optional<EventKind> event_kind_of(std::string_view key) noexcept {
  const auto found = std::find_if(events.begin(), events.end(), [&](const EventInfo& one) { return one.key == key; });
  if (found == events.end()) return std::nullopt;
  return found->kind;
}

}  // namespace stillheap::record
