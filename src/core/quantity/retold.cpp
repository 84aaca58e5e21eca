#include "core/quantity/retold.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>

#include "core/base/plain_number.hpp"

namespace stillheap::quantity {
namespace {

struct MetricUnit {
  std::string_view written;
  std::string_view parsed;  ///< as `parse` reads it; empty: no US unit of the trade, left as it is
  Dimension dimension{};
};

/// Longer ones first: "m2 K/W" before "m2" before "m".
constexpr std::array metric_units{
    MetricUnit{"m2 K/W", "m2 K/W", Dimension::thermal_resistance},
    MetricUnit{"m\u00b2 K/W", "m2 K/W", Dimension::thermal_resistance},
    MetricUnit{"Pa s/m", ""},
    MetricUnit{"kg/m3", "kg/m3", Dimension::density},
    MetricUnit{"kg/m\u00b3", "kg/m3", Dimension::density},
    MetricUnit{"degC", "degC", Dimension::temperature},
    MetricUnit{"\u00b0C", "degC", Dimension::temperature},
    MetricUnit{"MPa", "MPa", Dimension::pressure},
    MetricUnit{"kPa", "kPa", Dimension::pressure},
    MetricUnit{"Pa", "Pa", Dimension::pressure},
    MetricUnit{"bar", "bar", Dimension::pressure},
    MetricUnit{"mm", "mm", Dimension::length},
    MetricUnit{"cm", "cm", Dimension::length},
    MetricUnit{"km", "km", Dimension::length},
    MetricUnit{"m3", "m3", Dimension::volume},
    MetricUnit{"m\u00b3", "m3", Dimension::volume},
    MetricUnit{"m2", "m2", Dimension::area},
    MetricUnit{"m\u00b2", "m2", Dimension::area},
    MetricUnit{"m", "m", Dimension::length},
    MetricUnit{"kg", "kg", Dimension::mass},
    MetricUnit{"L", "L", Dimension::volume},
    MetricUnit{"K", "K", Dimension::temperature_step},
};

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0 || static_cast<signed char>(c) < 0; }

/// How long the number at the front is: "12", "0.0015", "-20"; 0: none. Its sign counts only where no word or other
/// number stands before it.
std::size_t number_length(std::string_view text) {
  std::size_t at = text.starts_with('-') ? 1 : 0;
  const std::size_t first = at;
  while (at < text.size() && is_digit(text[at])) ++at;
  if (at == first) return 0;
  if (at + 1 < text.size() && text[at] == '.' && is_digit(text[at + 1])) {
    ++at;
    while (at < text.size() && is_digit(text[at])) ++at;
  }
  return at;
}

/// The unit at the front, when nothing goes on behind it: not "m2/s", not "mean", not "kg of".
const MetricUnit* unit_at(std::string_view text) {
  for (const MetricUnit& unit : metric_units) {
    if (!text.starts_with(unit.written)) continue;
    const std::string_view rest = text.substr(unit.written.size());
    const bool goes_on = !rest.empty() && (is_letter(rest[0]) || is_digit(rest[0]) || rest[0] == '/' || rest[0] == '^');
    // "5 m2 Pa/W" and "1 m K/W" are other units
    const bool product = rest.starts_with(" Pa/W") || rest.starts_with(" K/W") || rest.starts_with(" s/m");
    if (!goes_on) return product ? nullptr : &unit;
  }
  return nullptr;
}

/// An amount of one or two numbers: "55 degC", "10 to 30 degC".
struct Amount {
  std::size_t length = 0;
  std::string first, second;
  const MetricUnit* unit = nullptr;
};

std::optional<Amount> amount_at(std::string_view text) {
  Amount found;
  std::size_t at = number_length(text);
  if (at == 0) return std::nullopt;
  found.first = text.substr(0, at);
  for (const std::string_view between : {" to ", " and "}) {
    if (!text.substr(at).starts_with(between)) continue;
    const std::size_t second = at + between.size();
    const std::size_t length = number_length(text.substr(second));
    if (length == 0) continue;
    const MetricUnit* unit =
        text.substr(second + length).starts_with(' ') ? unit_at(text.substr(second + length + 1)) : nullptr;
    if (unit == nullptr) continue;
    found.second = text.substr(second, length);
    found.unit = unit;
    found.length = second + length + 1 + unit->written.size();
    return found;
  }
  if (!text.substr(at).starts_with(' ')) return std::nullopt;
  found.unit = unit_at(text.substr(at + 1));
  if (found.unit == nullptr) return std::nullopt;
  found.length = at + 1 + found.unit->written.size();
  return found;
}

std::string in_us(const std::string& number, const MetricUnit& unit) {
  const std::string us =
      format(parse(number + ' ' + std::string(unit.parsed), unit.dimension), unit.dimension, UnitSystem::us);
  return unit.written == unit.parsed ? us : typeset(us);
}

/// "(158 degF)" behind an amount that is told both ways; 0 when there is none.
std::size_t us_beside(std::string_view rest) {
  if (!rest.starts_with(" (")) return 0;
  const std::size_t end = rest.find(')');
  if (end == std::string_view::npos) return 0;
  const std::string_view inside = rest.substr(2, end - 2);
  const bool us = inside.ends_with("degF") || inside.ends_with("\u00b0F") || inside.ends_with(" in") ||
                  inside.ends_with(" ft") || inside.ends_with(" gal") || inside.ends_with(" lb");
  return us && !inside.empty() && is_digit(inside[0]) ? end + 1 : 0;
}

}  // namespace

std::string retold(std::string_view sentence, UnitSystem system) {
  if (system == UnitSystem::metric) return std::string(sentence);
  std::string told;
  std::size_t at = 0;
  while (at < sentence.size()) {
    const char before = at == 0 ? ' ' : sentence[at - 1];
    const bool may_begin = !is_letter(before) && !is_digit(before) && before != '.' && before != '/' && before != '-';
    const std::optional<Amount> amount = may_begin ? amount_at(sentence.substr(at)) : std::nullopt;
    if (!amount || amount->unit->parsed.empty()) {
      told += sentence[at++];
      continue;
    }
    const std::string_view rest = sentence.substr(at + amount->length);
    if (const std::size_t beside = us_beside(rest); beside > 0 && amount->second.empty()) {
      told += rest.substr(2, beside - 3);
      at += amount->length + beside;
      continue;
    }
    told += in_us(amount->first, *amount->unit);
    if (!amount->second.empty()) {
      const bool and_between = sentence.substr(at + amount->first.size()).starts_with(" and ");
      told += (and_between ? " and " : " to ") + in_us(amount->second, *amount->unit);
    }
    at += amount->length;
  }
  return told;
}

}  // namespace stillheap::quantity
