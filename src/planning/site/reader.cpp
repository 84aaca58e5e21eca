#include "planning/site/reader.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::site {
namespace {

/// A default as the yard's units have it; as the table has it where both systems write it alike.
std::string told_default(const Key& key, UnitSystem units) {
  const std::string standard(key.standard);
  if (key.form != Form::amount) return standard;
  const double si = quantity::parse(standard, key.dimension);
  const auto text = [&](UnitSystem system) { return quantity::format(si, key.dimension, system); };
  return text(UnitSystem::metric) == text(UnitSystem::us) ? standard : text(units);
}

/// Notes the default of a value that was asked for and not given, once.
const Value& use(Reader& reader, const Section& section, std::string_view name) {
  const Value& found = value(section, name);
  if (!found.given && found.good) note_default(reader, section, name, told_default(*found.key, reader.units));
  return found;
}

}  // namespace

const Value& value(const Section& section, std::string_view name) { return section.values.find(name)->second; }

const Section& part(const Block& block, std::string_view schema) { return block.parts.find(schema)->second; }

const Block& only_block(const Document& document, std::string_view schema) {
  return document.blocks.find(schema)->second.front();
}

bool given(const Section& section, std::string_view name) { return value(section, name).given; }

double amount(Reader& reader, const Section& section, std::string_view name) {
  const Value& found = use(reader, section, name);
  return found.good ? found.numbers.front() : NAN;
}

std::optional<double> maybe_amount(const Section& section, std::string_view name) {
  const Value& found = value(section, name);
  if (!found.given) return std::nullopt;
  return found.good ? found.numbers.front() : NAN;
}

int whole(Reader& reader, const Section& section, std::string_view name) {
  const double number = amount(reader, section, name);
  return std::isfinite(number) ? static_cast<int>(number) : 0;
}

bool flag(Reader& reader, const Section& section, std::string_view name) {
  return amount(reader, section, name) == 1.0;
}

std::string word(Reader& reader, const Section& section, std::string_view name) {
  const Value& found = use(reader, section, name);
  return found.good ? found.words.front() : std::string{};
}

const std::vector<double>& numbers(Reader& reader, const Section& section, std::string_view name) {
  return use(reader, section, name).numbers;
}

void note_default(Reader& reader, const Section& section, std::string_view name, const std::string& text) {
  const std::string topic = section.path + '.' + std::string(name);
  const bool noted = std::any_of(reader.defaults.begin(), reader.defaults.end(),
                                 [&](const Assumption& known) { return known.topic == topic; });
  if (!noted) reader.defaults.push_back({topic, text, std::string(value(section, name).key->source)});
}

void refuse(Reader& reader, const Section& section, std::string_view name, const std::string& what,
            const std::string& mend) {
  const Value& found = value(section, name);
  add(reader.report, found.given ? found.line : section.line, section.path + '.' + std::string(name),
      (found.given ? "= " + found.written : "is left out, which means " + std::string(found.key->standard) + ", and") +
          ' ' + what,
      mend);
}

void miss(Reader& reader, const Section& section, std::string_view name, const std::string& why) {
  const Key& key = *value(section, name).key;
  const std::string allowed = allowed_text(key);
  add(reader.report, section.line, section.path + '.' + std::string(name),
      "is missing" + (why.empty() ? "" : ' ' + why),
      "give " + form_text(key) + (allowed.empty() ? "" : "; allowed: " + allowed));
}

bool exactly_one(Reader& reader, const Section& section, std::string_view one, std::string_view other) {
  const bool has_one = given(section, one);
  const bool has_other = given(section, other);
  const std::string mend = "give exactly one of \"" + std::string(one) + "\" and \"" + std::string(other) + '"';
  if (has_one && has_other) refuse(reader, section, other, "stands beside \"" + std::string(one) + '"', mend);
  if (!has_one && !has_other) {
    add(reader.report, section.line, section.path + '.' + std::string(one), "is missing", mend);
  }
  return has_one != has_other;
}

std::string shown(const Reader& reader, double si, Dimension dimension) {
  return quantity::format(si, dimension, reader.units);
}

}  // namespace stillheap::site
