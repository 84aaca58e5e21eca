#include "planning/site/key.hpp"

#include <algorithm>
#include <array>

namespace stillheap::site {
namespace {

constexpr std::array section_rows{
    SectionKey{"site", false, true, "The yard itself."},
    SectionKey{"place", false, true, "Where it lies."},
    SectionKey{"weather", false, true,
               "One of three: all six monthly normals, an EnergyPlus weather file, or a CSV file with named columns."},
    SectionKey{"weather.csv", false, false, "A CSV file of hourly or daily weather."},
    SectionKey{"feedstock", true, true, "One block for each raw material."},
    SectionKey{"goal", false, true, "How much is wanted: exactly one of `compost` and `vessels`."},
    SectionKey{"blend", false, false, "The mix: a fixed recipe, or limits under which one is searched."},
    SectionKey{"vessel", true, true,
               "One block for each kind of vessel. The sections below it belong to the block above them."},
    SectionKey{"vessel.channels", false, false,
               "Air channels: a ring, the middle, a grid, single places, or several of these."},
    SectionKey{"vessel.base", false, false, "What the vessel stands on."},
    SectionKey{"vessel.mesh", false, false, "Wire of the cage; left out, its strength is not checked."},
    SectionKey{"vessel.lining", false, false, "Cloth inside the cage."},
    SectionKey{"loads", false, false, "What the loads of a vessel are judged by."},
    SectionKey{
        "stock", true, false,
        "One block for each kind of panel, roll, board or pipe that the vessels are cut from. Without any, sizes are "
        "listed but not laid out."},
    SectionKey{
        "supply", false, false,
        "The yard plan: compost wanted through the year from vessels filled one after the other. Left out: none."},
    SectionKey{"bath", false, false, "Soaking before filling."},
    SectionKey{"fill", false, false, "How the people fill."},
    SectionKey{"water", false, true, "Daily watering."},
    SectionKey{"water.line", false, false, "The line with holes around each vessel; needed unless watered by hand."},
    SectionKey{"water.supply", false, false, "Where the water comes from; needed unless watered by hand."},
    SectionKey{"prices", false, false, "What things cost; what is left out is listed without a price."},
    SectionKey{"labour", false, false, "What work costs and how much there is every day."},
    SectionKey{"forecast", false, false, "How the forecast is run."},
    SectionKey{"forecast.surfaces", false, false, "How the outer faces let air and heat through."},
};

std::string listed(std::string_view words) {
  std::string list;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find('|'), words.size());
    const bool last = end == words.size();
    if (!list.empty()) list += last ? " or " : ", ";
    list += '"' + std::string(words.substr(0, end)) + '"';
    words.remove_prefix(last ? end : end + 1);
  }
  return list;
}

}  // namespace

std::span<const SectionKey> sections() noexcept { return section_rows; }

const SectionKey* find_section(std::string_view path) noexcept {
  const auto* const found = std::find_if(section_rows.begin(), section_rows.end(),
                                         [&](const SectionKey& section) { return section.path == path; });
  return found == section_rows.end() ? nullptr : found;
}

std::array<std::span<const Key>, 4> all_keys() noexcept {
  return {yard_keys(), heap_keys(), vessel_keys(), workshop_keys()};
}

const Key* find_key(std::string_view section, std::string_view name) noexcept {
  for (const std::span<const Key> keys : all_keys()) {
    for (const Key& key : keys) {
      if (key.section == section && key.name == name) return &key;
    }
  }
  return nullptr;
}

std::string allowed_text(const Key& key) {
  if (!key.choices.empty()) return listed(key.choices);
  std::string text;
  if (!key.low.text.empty()) text = (key.low.inclusive ? "at least " : "above ") + std::string(key.low.text);
  if (key.high.text.empty()) return text;
  if (!text.empty()) text += " and ";
  return text + (key.high.inclusive ? "at most " : "below ") + std::string(key.high.text);
}

std::string form_text(const Key& key) {
  const std::string such = "\"" + quantity::example(key.dimension) + "\"";
  const std::string noun = quantity::noun(key.dimension);
  switch (key.form) {
    case Form::amount:
      return noun + " such as " + such + (key.by_volume_too ? ", or by volume" : "");
    case Form::amount_pair:
      return "two values, low and high, each " + noun + " such as " + such;
    case Form::months:
      return "twelve values, January first, each " + noun + " such as " + such +
             "; or { unit = \"...\", months = [twelve numbers] }";
    case Form::three_amounts:
      return "three values, each " + noun + " such as " + such;
    case Form::positions:
      return "a list of places such as [[\"0.2 m\", \"-0.1 m\"]]";
    case Form::shares:
      return "a table of feedstock id = share";
    case Form::number:
      return "a number without a unit";
    case Form::number_pair:
      return "two numbers, low and high";
    case Form::number_list:
      return "a list of rising numbers such as [1, 7, 30]";
    case Form::whole:
      return "a whole number";
    case Form::whole_pair:
      return "two whole numbers";
    case Form::flag:
      return "true or false";
    case Form::word:
      return "a word in quotes";
    case Form::text:
      return "a text in quotes";
    case Form::date:
      return "a date such as 2026-03-14";
    case Form::file:
      return "a file, seen from the site file's folder";
  }
  return {};
}

}  // namespace stillheap::site
