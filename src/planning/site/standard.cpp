#include <string>

#include "planning/site/value.hpp"

namespace stillheap::site {
namespace {

double one_number(const Key& key, const std::string& text) {
  const bool plain = key.form == Form::number || key.form == Form::number_pair || key.form == Form::whole;
  return plain ? std::stod(text) : quantity::parse(text, key.dimension);
}

/// "[60 %, 70 %]" of the table.
std::vector<double> two_numbers(const Key& key) {
  const std::string text(key.standard);
  const std::size_t comma = text.find(',');
  return {one_number(key, text.substr(1, comma - 1)), one_number(key, text.substr(comma + 2, text.size() - comma - 3))};
}

}  // namespace

Value default_value(const Key& key) {
  Value value;
  value.key = &key;
  value.good = key.need == Need::has_default;
  if (!value.good) return value;
  switch (key.form) {
    case Form::amount:
    case Form::number:
    case Form::whole:
      value.numbers = {one_number(key, std::string(key.standard))};
      break;
    case Form::amount_pair:
    case Form::number_pair:
      value.numbers = two_numbers(key);
      break;
    case Form::flag:
      value.numbers = {key.standard == "true" ? 1.0 : 0.0};
      break;
    default:
      value.words = {std::string(key.standard)};
      break;
  }
  return value;
}

}  // namespace stillheap::site
