#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "core/quantity/number.hpp"
#include "core/quantity/units.hpp"
#include "planning/study/study_file.hpp"

namespace stillheap::study {
namespace {

constexpr int most_steps = 1000;

/// What a key of a study holds: amounts with a unit, plain numbers, or anything else.
bool is_amount(const Axis& axis) { return axis.share || axis.row->form == site::Form::amount; }
bool is_number(const Axis& axis) { return axis.row->form == site::Form::number || axis.row->form == site::Form::whole; }

struct End {
  double number = 0.0;
  std::string unit;
};

/// One end of a range: "1.2 m" as number and unit.
std::optional<End> read_end(const Axis& axis, const toml::node& node) {
  if (is_number(axis)) {
    const std::optional<double> number = node.is_number() ? node.value<double>() : std::nullopt;
    if (!number || !std::isfinite(*number)) return std::nullopt;
    return End{*number, ""};
  }
  const auto text = node.value_exact<std::string>();
  if (!text) return std::nullopt;
  const auto parts = quantity::split_parts(quantity::plain_spelling(*text));
  if (!parts || parts->size() != 1 || parts->front().unit.empty()) return std::nullopt;
  return End{parts->front().number, parts->front().unit};
}

std::optional<Range> read_range(Reading& reading, const Axis& axis, const toml::table& table) {
  const toml::node* from = table.get("from");
  const toml::node* to = table.get("to");
  if (from == nullptr || to == nullptr) {
    refuse(reading, table, "vary." + axis.key, "has neither a list nor both ends of a range",
           "give list = [...], or from and to");
    return std::nullopt;
  }
  if (!is_amount(axis) && !is_number(axis)) {
    refuse(reading, *from, "vary." + axis.key + ".from", "begins a range of something that is no amount and no number",
           "give list = [...]");
    return std::nullopt;
  }
  const std::optional<End> low = read_end(axis, *from);
  const std::optional<End> high = read_end(axis, *to);
  const bool good = low && high && low->unit == high->unit && low->number < high->number;
  if (!good) {
    refuse(reading, *from, "vary." + axis.key, "goes from " + written(*from) + " to " + written(*to),
           is_amount(axis) ? "write both ends as one number and the same unit, the low end first, such as \"0.9 m\" "
                             "and \"1.5 m\""
                           : "write two numbers, the low one first");
    return std::nullopt;
  }
  return Range{low->number, high->number, low->unit, axis.row->form == site::Form::whole};
}

std::optional<int> read_steps(Reading& reading, const Axis& axis, const toml::table& table) {
  const toml::node* node = table.get("steps");
  const auto steps = node == nullptr ? std::nullopt : node->value_exact<std::int64_t>();
  if (steps && *steps >= 2 && *steps <= most_steps) return static_cast<int>(*steps);
  refuse(reading, node == nullptr ? table : *node, "vary." + axis.key + ".steps",
         node == nullptr ? "is missing" : "= " + written(*node) + " is not a number of values",
         "give how many values from end to end, both counted: 2 to " + std::to_string(most_steps));
  return std::nullopt;
}

void spread_over(Reading& reading, Axis& axis, const toml::table& table) {
  const std::optional<int> steps = read_steps(reading, axis, table);
  if (!steps) return;
  const Range& range = *axis.range;
  const double step = (range.to - range.from) / (*steps - 1);
  if (range.whole && step != std::round(step)) {
    refuse(reading, table, "vary." + axis.key + ".steps", "leaves parts between whole numbers",
           "choose as many steps as give whole numbers, or a list");
    return;
  }
  for (int i = 0; i < *steps; ++i) {
    const double number = range.from + i * step;
    axis.values.push_back(range.unit.empty() ? fmt::format("{:.10g}", number)
                                             : fmt::format("\"{:.10g} {}\"", number, range.unit));
  }
}

void read_list(Reading& reading, Axis& axis, const toml::node& node) {
  const toml::array* list = node.as_array();
  if (list == nullptr || list->empty()) {
    refuse(reading, node, "vary." + axis.key + ".list", "= " + written(node) + " is not a list of values",
           "write values as in a site file between brackets");
    return;
  }
  for (const toml::node& entry : *list) axis.values.push_back(written(entry));
}

void refuse_strangers(Reading& reading, const Axis& axis, const toml::table& table, Way way) {
  const bool listed = table.contains("list");
  for (const auto& [name, node] : table) {
    const bool known =
        listed ? name == "list" : name == "from" || name == "to" || (name == "steps" && way != Way::quasi_random);
    if (known) continue;
    const std::string allowed = listed ? "list alone" : way == Way::quasi_random ? "from, to" : "from, to, steps";
    refuse(reading, node, "vary." + axis.key + '.' + std::string(name.str()),
           "= " + written(node) + " does not belong here", "allowed: " + allowed);
  }
}

}  // namespace

std::string written(const toml::node& node) {
  std::ostringstream text;
  if (const auto word = node.value_exact<std::string>()) {
    for (const char sign : *word) text << (sign == '"' || sign == '\\' ? "\\" : "") << sign;
    return '"' + text.str() + '"';
  }
  node.visit([&text](const auto& any) { text << any; });
  return text.str();
}

std::optional<Axis> read_axis(Reading& reading, const std::string& key, const toml::table& table, Way way) {
  const site::NamedKey named = site::find_named_key(key);
  if (named.key == nullptr) {
    refuse(reading, table, "vary." + key, "is not a key of a site file", site::key_hint(key));
    return std::nullopt;
  }
  Axis axis{key, named.key, !named.share.empty(), place(reading, table), {}, {}};
  refuse_strangers(reading, axis, table, way);
  if (const toml::node* list = table.get("list")) {
    read_list(reading, axis, *list);
    return axis;
  }
  axis.range = read_range(reading, axis, table);
  if (axis.range && way != Way::quasi_random) spread_over(reading, axis, table);
  return axis;
}

std::string value_at(const Range& range, double share) {
  if (range.whole) {
    const double count = range.to - range.from + 1.0;
    return fmt::format("{:.0f}", range.from + std::min(std::floor(share * count), count - 1.0));
  }
  // Six digits: finer than anything is built or measured, and what stands in the results is what was run.
  const double number = range.from + share * (range.to - range.from);
  return range.unit.empty() ? fmt::format("{:.6g}", number) : fmt::format("\"{:.6g} {}\"", number, range.unit);
}

std::string range_words(const Range& range) { return value_at(range, 0.0) + " to " + value_at(range, 1.0); }

std::optional<double> number_of(const Axis& axis, const std::string& value) {
  if (!is_amount(axis) && !is_number(axis)) return std::nullopt;
  const toml::table parsed = toml::parse("value = " + value);
  const toml::node& node = *parsed.get("value");
  if (node.is_number()) return node.value<double>();
  const auto text = node.value_exact<std::string>();
  if (!text) return std::nullopt;
  try {
    return quantity::parse(*text, axis.row->dimension);
  } catch (const InputError&) {  // a mass given by volume has no one unit
    return std::nullopt;
  }
}

std::string unit_of(const Axis& axis) {
  if (!is_amount(axis)) return "";
  const quantity::Kind& kind = quantity::kind_of(axis.row->dimension);
  return kind.money ? "1/(" + std::string(kind.si) + ")" : kind.si;
}

}  // namespace stillheap::study
