#include "planning/site/value.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <sstream>

#include "core/base/date.hpp"
#include "core/base/printable.hpp"

namespace stillheap::site {
namespace {

/// What is being read and where it stands.
struct Reading {
  Report& report;
  const Key& key;
  const std::string& path;
  int line = 0;
  std::string written;
};

std::nullopt_t refuse(const Reading& reading, const std::string& why) {
  const std::string allowed = allowed_text(reading.key);
  add(reading.report, reading.line, reading.path, "= " + reading.written + ' ' + why,
      "give " + form_text(reading.key) + (allowed.empty() ? "" : "; allowed: " + allowed));
  return std::nullopt;
}

Dimension volume_instead(Dimension dimension) {
  return dimension == Dimension::mass ? Dimension::volume : Dimension::money_per_volume;
}

bool is_plain(Form form) {
  return form == Form::number || form == Form::number_pair || form == Form::number_list || form == Form::whole ||
         form == Form::whole_pair;
}

double bound_value(const Key& key, const Bound& bound) {
  const bool plain = is_plain(key.form);
  return plain ? std::stod(std::string(bound.text)) : quantity::parse(bound.text, key.dimension);
}

std::optional<double> within_bounds(const Reading& reading, double value) {
  const Bound& low = reading.key.low;
  const Bound& high = reading.key.high;
  const double slack = 1e-12;  // so that "12 in" is not above "304.8 mm" by its last bit
  if (!low.text.empty()) {
    const double end = bound_value(reading.key, low);
    const double give = low.inclusive ? slack * std::abs(end) : 0.0;
    if (value < end - give || (!low.inclusive && value == end)) return refuse(reading, "is too small");
  }
  if (!high.text.empty()) {
    const double end = bound_value(reading.key, high);
    const double give = high.inclusive ? slack * std::abs(end) : 0.0;
    if (value > end + give || (!high.inclusive && value == end)) return refuse(reading, "is too large");
  }
  return value;
}

/// An amount's text in SI, by volume when that is allowed and fits better.
std::optional<double> amount_from(const Reading& reading, const std::string& text, bool* by_volume) {
  try {
    return within_bounds(reading, quantity::parse(text, reading.key.dimension));
  } catch (const InputError& error) {
    if (reading.key.by_volume_too && by_volume != nullptr) {
      try {
        const double value = quantity::parse(text, volume_instead(reading.key.dimension));
        *by_volume = true;
        return within_bounds(reading, value);
      } catch (const InputError&) {  // neither fits: the first message is the better one
      }
    }
    const Problem& problem = error.problems().front();
    const std::string allowed = allowed_text(reading.key);
    add(reading.report, reading.line, reading.path, "= " + problem.what,
        problem.mend + (allowed.empty() ? "" : "; allowed: " + allowed));
    return std::nullopt;
  }
}

std::optional<double> amount_from(const Reading& reading, const toml::node& node, bool* by_volume = nullptr) {
  if (const auto text = node.value_exact<std::string>()) return amount_from(reading, *text, by_volume);
  const bool plain_share = reading.key.dimension == Dimension::fraction && node.is_number();
  if (!plain_share) return refuse(reading, "has no unit");
  const double share = *node.value<double>();
  if (!(share >= 0.0 && share <= 1.0)) return refuse(reading, "has no unit and is not between 0 and 1");
  return within_bounds(reading, share);
}

std::optional<double> number_from(const Reading& reading, const toml::node& node) {
  const bool whole = reading.key.form == Form::whole || reading.key.form == Form::whole_pair;
  if (whole && !node.is_integer()) return refuse(reading, "is not a whole number");
  if (!node.is_number()) return refuse(reading, "is not a number without a unit");
  const double value = *node.value<double>();
  if (!std::isfinite(value)) return refuse(reading, "is not a number");
  return within_bounds(reading, value);
}

std::optional<double> scalar_from(const Reading& reading, const toml::node& node) {
  return is_plain(reading.key.form) ? number_from(reading, node) : amount_from(reading, node);
}

/// Reads every entry of a list that must have `count` of them.
bool read_list(const Reading& reading, const toml::node& node, std::size_t count, std::vector<double>& numbers) {
  const toml::array* list = node.as_array();
  if (list == nullptr || list->size() != count) {
    refuse(reading, "is not a list of " + std::to_string(count) + " values");
    return false;
  }
  bool good = true;
  for (const toml::node& entry : *list) {
    const Reading one{reading.report, reading.key, reading.path, reading.line, written_text(entry)};
    const std::optional<double> value = scalar_from(one, entry);
    good = good && value.has_value();
    numbers.push_back(value.value_or(NAN));
  }
  return good;
}

bool read_rising(const Reading& reading, const toml::node& node, std::vector<double>& numbers) {
  const toml::array* list = node.as_array();
  if (list == nullptr || list->empty()) {
    refuse(reading, "is not a list of numbers");
    return false;
  }
  if (!read_list(reading, node, list->size(), numbers)) return false;
  if (std::adjacent_find(numbers.begin(), numbers.end(), std::greater_equal<>()) == numbers.end()) return true;
  refuse(reading, "does not rise from each number to the next");
  return false;
}

bool read_pair(const Reading& reading, const toml::node& node, std::vector<double>& numbers, bool ordered) {
  if (!read_list(reading, node, 2, numbers)) return false;
  if (!ordered || numbers[0] <= numbers[1]) return true;
  refuse(reading, "has its low end above its high end");
  return false;
}

/// { unit = "degC", months = [...] }: the unit is put behind each number.
bool read_months(const Reading& reading, const toml::node& node, std::vector<double>& numbers) {
  const toml::table* table = node.as_table();
  if (table == nullptr) return read_list(reading, node, 12, numbers);
  const auto unit = (*table)["unit"].value_exact<std::string>();
  const toml::array* months = (*table)["months"].as_array();
  if (!unit || months == nullptr || table->size() != 2 || months->size() != 12) {
    refuse(reading, "does not have just a unit and twelve months");
    return false;
  }
  bool good = true;
  for (const toml::node& entry : *months) {
    const Reading one{reading.report, reading.key, reading.path, reading.line,
                      written_text(entry) + " (" + *unit + ')'};
    const std::optional<double> value = entry.is_number() ? amount_from(one, written_text(entry) + ' ' + *unit, nullptr)
                                                          : std::optional<double>(refuse(one, "is not a number"));
    good = good && value.has_value();
    numbers.push_back(value.value_or(NAN));
  }
  return good;
}

bool read_positions(const Reading& reading, const toml::node& node, std::vector<double>& numbers) {
  const toml::array* list = node.as_array();
  if (list == nullptr) {
    refuse(reading, "is not a list of places");
    return false;
  }
  bool good = true;
  for (const toml::node& entry : *list) {
    const Reading one{reading.report, reading.key, reading.path, reading.line, written_text(entry)};
    good = read_list(one, entry, 2, numbers) && good;
  }
  return good;
}

bool read_shares(const Reading& reading, const toml::node& node, Value& value) {
  const toml::table* table = node.as_table();
  if (table == nullptr || table->empty()) {
    refuse(reading, "is not a table of feedstock id = share");
    return false;
  }
  bool good = true;
  for (const auto& [id, share] : *table) {
    const std::string path = reading.path + '.' + std::string(id.str());
    const int line = static_cast<int>(share.source().begin.line);
    const std::optional<double> number =
        amount_from({reading.report, reading.key, path, line, written_text(share)}, share);
    good = good && number.has_value();
    value.words.emplace_back(id.str());
    value.lines.push_back(line);
    value.numbers.push_back(number.value_or(NAN));
  }
  return good;
}

bool is_choice(std::string_view choices, const std::string& word) {
  return ('|' + std::string(choices) + '|').find('|' + word + '|') != std::string::npos;
}

bool read_text(const Reading& reading, const toml::node& node, Value& value) {
  const auto text = node.value_exact<std::string>();
  if (!text || text->empty()) {
    refuse(reading, reading.key.form == Form::word ? "is not one of the words" : "is not a text");
    return false;
  }
  if (reading.key.form == Form::word && !is_choice(reading.key.choices, *text)) {
    refuse(reading, "is not one of the words");
    return false;
  }
  const std::size_t most_bytes = reading.key.form == Form::file ? 4096 : 400;  // chosen: a path, a sentence
  if (text->size() > most_bytes || printable(*text) != *text || text->find_first_of("\n\t") != std::string::npos) {
    refuse(reading, "is longer than " + std::to_string(most_bytes) + " bytes, or holds signs that are no text");
    return false;
  }
  const std::filesystem::path file = reading.report.file.parent_path() / *text;
  if (reading.key.form == Form::file && !std::filesystem::is_regular_file(file)) {
    refuse(reading, "is not there (looked for " + file.string() + ')');
    return false;
  }
  value.words = {*text};
  return true;
}

bool read_date(const Reading& reading, const toml::node& node, Value& value) {
  const std::string text = node.is_date() ? written_text(node) : node.value_exact<std::string>().value_or("");
  const std::optional<date::Day> day = date::parse_iso(text);
  if (!day) {
    refuse(reading, "is not a day of the calendar");
    return false;
  }
  if (!limits::holds(limits::year, date::year_of(*day))) {
    refuse(reading, "lies outside the years " + limits::allowed(limits::year));
    return false;
  }
  value.words = {text};
  return true;
}

bool read_flag(const Reading& reading, const toml::node& node, Value& value) {
  if (!node.is_boolean()) {
    refuse(reading, "is neither true nor false");
    return false;
  }
  value.numbers = {*node.value<bool>() ? 1.0 : 0.0};
  return true;
}

bool read_one(const Reading& reading, const toml::node& node, Value& value) {
  const std::optional<double> number =
      reading.key.form == Form::amount ? amount_from(reading, node, &value.by_volume) : number_from(reading, node);
  value.numbers = {number.value_or(NAN)};
  return number.has_value();
}

}  // namespace

std::string written_text(const toml::node& node) {
  std::ostringstream stream;
  if (const auto text = node.value_exact<std::string>()) {
    stream << '"' << *text << '"';
  } else {
    node.visit([&stream](const auto& any) { stream << any; });
  }
  std::string text = stream.str();
  std::replace(text.begin(), text.end(), '\n', ' ');
  text = printable(text.substr(0, 400));
  return text.size() > 60 ? text.substr(0, 57) + "..." : text;
}

Value read_value(Report& report, const Key& key, const std::string& path, const toml::node& node) {
  Value value;
  value.key = &key;
  value.line = static_cast<int>(node.source().begin.line);
  value.given = true;
  value.written = written_text(node);
  const Reading reading{report, key, path, value.line, value.written};
  switch (key.form) {
    case Form::amount:
    case Form::number:
    case Form::whole:
      value.good = read_one(reading, node, value);
      break;
    case Form::amount_pair:
    case Form::number_pair:
      value.good = read_pair(reading, node, value.numbers, true);
      break;
    case Form::number_list:
      value.good = read_rising(reading, node, value.numbers);
      break;
    case Form::whole_pair:
      value.good = read_pair(reading, node, value.numbers, false);
      break;
    case Form::months:
      value.good = read_months(reading, node, value.numbers);
      break;
    case Form::three_amounts:
      value.good = read_list(reading, node, 3, value.numbers);
      break;
    case Form::positions:
      value.good = read_positions(reading, node, value.numbers);
      break;
    case Form::shares:
      value.good = read_shares(reading, node, value);
      break;
    case Form::flag:
      value.good = read_flag(reading, node, value);
      break;
    case Form::word:
    case Form::text:
    case Form::file:
      value.good = read_text(reading, node, value);
      break;
    case Form::date:
      value.good = read_date(reading, node, value);
      break;
  }
  return value;
}

}  // namespace stillheap::site
