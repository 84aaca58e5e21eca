#include <cmath>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "core/quantity/database.hpp"
#include "core/quantity/number.hpp"
#include "core/quantity/quantity.hpp"
#include "core/quantity/units.hpp"

namespace stillheap::quantity {
namespace {

/// What is being read, for the message when it goes wrong.
struct Reading {
  std::string_view text;
  Dimension dimension;
  std::string_view where;
};

[[noreturn]] void refuse(const Reading& reading, const std::string& what) {
  throw InputError(std::string(reading.where), '"' + std::string(reading.text) + "\" " + what,
                   "write " + noun(reading.dimension) + " such as \"" + example(reading.dimension) +
                       "\"; accepted: " + accepted_units(reading.dimension));
}

bool looks_like_a_unit(std::string_view text) {
  const std::string_view letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
  return !text.empty() && letters.find(text.front()) != std::string_view::npos &&
         text.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_/^*.-") ==
             std::string_view::npos;
}

/// A row of another dimension that is written so: the user mixed up the kind of amount.
const Unit* find_elsewhere(std::string_view written) {
  for (const Unit& unit : units()) {
    if (unit.written == written) return &unit;
  }
  return nullptr;
}

[[noreturn]] void refuse_unit(const Reading& reading, const std::string& written) {
  if (written == "ton" || written == "tons") {
    refuse(reading, "uses \"ton\", which means several masses: say t (1000 kg) or short ton (2000 lb)");
  }
  if (!written.empty() && written.front() == ',') refuse(reading, "has a comma: write decimals with a point");
  const Unit* other = find_elsewhere(written);
  const std::string kind(noun(reading.dimension));
  if (other != nullptr) refuse(reading, "is " + std::string(kind_of(other->dimension).noun) + ", not " + kind);
  if (written.starts_with("per ") || written.starts_with('/')) refuse(reading, "is a price or rate, not " + kind);
  if (looks_like_a_unit(written) && database_knows(written)) {
    refuse(reading, "has the unit \"" + written + "\", which does not measure " + kind);
  }
  refuse(reading, "has the unknown unit \"" + written + '"');
}

Conversion conversion_for(const Reading& reading, Dimension dimension, const std::string& written) {
  if (const Unit* unit = find_unit(dimension, written)) return conversion_of(*unit);
  const bool ours_or_vague = find_elsewhere(written) != nullptr || written == "ton" || written == "tons";
  if (ours_or_vague || !looks_like_a_unit(written)) refuse_unit(reading, written);
  const std::optional<Conversion> asked = ask_database(written, kind_of(dimension).si);
  const bool offset_makes_sense = asked && (asked->offset == 0.0 || dimension == Dimension::temperature);
  if (!offset_makes_sense) refuse_unit(reading, written);
  return *asked;
}

double parse_money(const Reading& reading, const WrittenPart& part) {
  const Kind& kind = kind_of(reading.dimension);
  const bool by_piece = reading.dimension == Dimension::money_per_piece;
  if (by_piece && (part.unit == "each" || part.unit == "per piece")) return part.number;
  const bool per = part.unit.starts_with("per ");
  if (by_piece || !(per || part.unit.starts_with('/'))) {
    refuse(reading, part.unit.empty() ? "does not say what the price is for" : "is not " + std::string(kind.noun));
  }
  std::string unit = part.unit.substr(per ? 4 : 1);
  if (unit.starts_with(' ')) unit.erase(0, 1);
  return part.number / conversion_for(reading, kind.priced_per, unit).factor;
}

/// A share may stand without a unit; then it is 0 to 1, so that nobody writes 60 for 60 %.
double parse_plain_share(const Reading& reading, double number) {
  if (number < 0.0 || number > 1.0) refuse(reading, "has no unit and is not between 0 and 1");
  return number;
}

double sum_parts(const Reading& reading, const std::vector<WrittenPart>& parts) {
  double sum = 0.0;
  double last_factor = 0.0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Conversion conversion = conversion_for(reading, reading.dimension, parts[i].unit);
    const bool smaller = i == 0 || conversion.factor < last_factor;
    if (!smaller) refuse(reading, "has parts that do not go from larger to smaller units");
    sum += conversion.offset + conversion.factor * parts[i].number;
    last_factor = conversion.factor;
  }
  return sum;
}

}  // namespace

double parse(std::string_view text, Dimension dimension, std::string_view where) {
  const Reading reading{text, dimension, where};
  const std::string plain = plain_spelling(text);
  if (plain.empty()) refuse(reading, "is empty");
  const std::optional<std::vector<WrittenPart>> parts = split_parts(plain);
  if (!parts) refuse(reading, "is not a number with a unit");
  const Kind& kind = kind_of(dimension);
  if (parts->size() > 1 && !kind.sums) refuse(reading, "is not one number with one unit");
  const WrittenPart& first = parts->front();
  double si = 0.0;
  if (kind.money) {
    si = parse_money(reading, first);
  } else if (dimension == Dimension::fraction && first.unit.empty()) {
    si = parse_plain_share(reading, first.number);
  } else {
    for (const WrittenPart& part : *parts) {
      if (part.unit.empty()) refuse(reading, "has a number without a unit");
    }
    si = sum_parts(reading, *parts);
  }
  if (!std::isfinite(si)) refuse(reading, "is too large a number");
  return si;
}

std::string_view si_unit(Dimension dimension) noexcept { return kind_of(dimension).si; }

std::string noun(Dimension dimension) { return std::string(kind_of(dimension).noun); }

std::string example(Dimension dimension) { return std::string(kind_of(dimension).example); }

std::string accepted_units(Dimension dimension) {
  const Kind& kind = kind_of(dimension);
  const bool per = kind.money && dimension != Dimension::money_per_piece;
  std::string list;
  for (const Unit& unit : units()) {
    if (unit.dimension != (per ? kind.priced_per : dimension) || !unit.shown) continue;
    if (!list.empty()) list += ", ";
    if (per) list += "per ";
    list += unit.written;
  }
  if (dimension == Dimension::fraction) list += ", or a plain number from 0 to 1";
  return list;
}

}  // namespace stillheap::quantity
