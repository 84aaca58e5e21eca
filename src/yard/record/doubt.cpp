#include "yard/record/doubt.hpp"

#include <algorithm>
#include <cmath>

#include "core/quantity/rounding.hpp"
#include "domain/limits/limits.hpp"
#include "domain/rules/worms.hpp"
#include "yard/record/read.hpp"

namespace stillheap::record {
namespace {

constexpr const char* look_again = "look again; if it is so, say that you are sure";
constexpr double shortest_to_harvest_days = 60.0;  // chosen: no static heap has been through its heat before
constexpr double worms_look_back_s = 7 * 86400.0;  // chosen: what a probe showed in the week before
constexpr double over_design = 1.5;                // chosen: of the volume drawn, heaped and trodden

void add(Doubts& doubts, const std::string& where, const std::string& what, const std::string& mend = look_again) {
  doubts.push_back({where, what, mend});
}

std::string metric(double si, Dimension dimension) { return quantity::format(si, dimension, UnitSystem::metric); }

template <class One, class Name>
std::string listed(const std::vector<One>& all, const Name& name) {
  std::string text;
  for (const One& one : all) text += (text.empty() ? "" : ", ") + name(one);
  return text;
}

const YardFacts::Design* design_of(const Store& store, const std::string& vessel_id, const YardFacts& facts) {
  const auto vessel = current<Vessel>(store, vessel_id);
  if (!vessel) return nullptr;
  const auto found = std::find_if(facts.designs.begin(), facts.designs.end(),
                                  [&](const YardFacts::Design& one) { return one.name == vessel->design; });
  return found == facts.designs.end() ? nullptr : &*found;
}

void doubt_depth(const std::optional<double>& length_m, double most_m, const char* where, const char* what,
                 Doubts& doubts) {
  if (!length_m || *length_m <= most_m * 1.1) return;  // chosen: a heap may be filled a little above its drawing
  add(doubts, where,
      "= " + metric(*length_m, Dimension::length) + " is more than " + what + ", " + metric(most_m, Dimension::length));
}

/// What worms would find, by the probes of the week before: the hottest, the last temperatures and the last moistures.
void doubt_worms(const Store& store, const Event& event, Doubts& doubts) {
  namespace worms = rules::worms;
  const auto week = std::chrono::seconds{static_cast<long long>(worms_look_back_s)};
  const auto read = [&](Measure measure) {
    return readings_between(store, event.fill_id, event.at - week, event.at + std::chrono::seconds{1}, measure);
  };
  const auto by_value = [](const Reading& a, const Reading& b) { return a.value < b.value; };
  const auto by_time = [](const Reading& a, const Reading& b) { return a.at < b.at; };
  const auto tell = [&](double value, Dimension dimension, const std::string& want) {
    add(doubts, "event: kind",
        "= worms in: a probe read " + metric(value, dimension) + " within the week before; worms want " + want);
  };
  if (const auto all = read(Measure::temperature); !all.empty()) {
    const double hottest_c = std::max_element(all.begin(), all.end(), by_value)->value;
    const double last_c = std::max_element(all.begin(), all.end(), by_time)->value;
    if (hottest_c > worms::hottest_c)
      tell(hottest_c, Dimension::temperature, "at most " + metric(worms::hottest_c, Dimension::temperature));
    if (last_c < worms::least_c)
      tell(last_c, Dimension::temperature, "at least " + metric(worms::least_c, Dimension::temperature));
  }
  if (const auto all = read(Measure::moisture); !all.empty()) {
    const double last = std::max_element(all.begin(), all.end(), by_time)->value;
    if (last < worms::least_moisture_wet || last > worms::most_moisture_wet)
      tell(last, Dimension::fraction,
           metric(worms::least_moisture_wet, Dimension::fraction) + " to " +
               metric(worms::most_moisture_wet, Dimension::fraction));
  }
}

}  // namespace

Doubts value_doubts(Measure measure, double value) {
  const MeasureInfo& about = info(measure);
  if (value >= about.usual_least && value <= about.usual_most) return {};
  return {
      {"reading: " + std::string(about.key),
       "= " + value_text(measure, value, UnitSystem::metric) + " hardly ever is; usual are " + std::string(about.usual),
       look_again}};
}

Doubts place_doubts(const Store& store, const std::string& fill_id, const Place& place, const YardFacts& facts) {
  const auto fill = current<Fill>(store, fill_id);
  const YardFacts::Design* design = fill ? design_of(store, fill->vessel_id, facts) : nullptr;
  if (design == nullptr) return {};
  Doubts doubts;
  doubt_depth(place.depth_m, design->fill_height_m, "reading: depth", "the heap is high", doubts);
  doubt_depth(place.height_m, design->fill_height_m, "reading: height", "the heap is high", doubts);
  doubt_depth(place.radius_m, design->reach_m, "reading: radius", "it is from the middle to the wall", doubts);
  return doubts;
}

Doubts doubts(const Store&, const Vessel& vessel, const YardFacts& facts) {
  if (vessel.design.empty() || facts.designs.empty()) return {};
  const bool known = std::any_of(facts.designs.begin(), facts.designs.end(),
                                 [&](const YardFacts::Design& one) { return one.name == vessel.design; });
  if (known) return {};
  return {{"vessel: design", "= \"" + vessel.design + "\" is not in the site file",
           "it has: " + listed(facts.designs, [](const YardFacts::Design& one) { return one.name; }) +
               "; if it is another, say that you are sure"}};
}

Doubts doubts(const Store&, const Lot& lot, const YardFacts& facts) {
  const auto& known = facts.feedstocks;
  if (lot.feedstock.empty() || known.empty()) return {};
  if (std::find(known.begin(), known.end(), lot.feedstock) != known.end()) return {};
  return {{"lot: feedstock", "= \"" + lot.feedstock + "\" is not in the site file",
           "it has: " + listed(known, [](const std::string& one) { return one; }) +
               "; if it is another, say that you are sure"}};
}

Doubts doubts(const Store& store, const Fill& fill, const YardFacts& facts) {
  Doubts doubts;
  const YardFacts::Design* design = design_of(store, fill.vessel_id, facts);
  if (fill.volume_m3 && design != nullptr && *fill.volume_m3 > over_design * design->volume_m3) {
    add(doubts, "fill: volume",
        "= " + metric(*fill.volume_m3, Dimension::volume) + " is far more than the vessel \"" + design->name +
            "\" holds, " + metric(design->volume_m3, Dimension::volume));
  }
  if (fill.moisture_wet && !limits::holds(limits::soaked_moisture, *fill.moisture_wet)) {
    add(doubts, "fill: moisture",
        "= " + metric(*fill.moisture_wet, Dimension::fraction) + " hardly ever is; usual are " +
            limits::allowed(limits::soaked_moisture));
  }
  if (fill.carbon_to_nitrogen && !limits::holds(limits::carbon_to_nitrogen, *fill.carbon_to_nitrogen)) {
    add(doubts, "fill: C:N",
        "= " + quantity::to_text(*fill.carbon_to_nitrogen, 3) + " hardly ever is; usual are " +
            limits::allowed(limits::carbon_to_nitrogen));
  }
  return doubts;
}

Doubts doubts(const Store& store, const Reading& reading, const YardFacts& facts) {
  Doubts found = value_doubts(reading.measure, reading.value);
  const Doubts place = place_doubts(store, reading.fill_id, reading.place, facts);
  found.insert(found.end(), place.begin(), place.end());
  return found;
}

Doubts doubts(const Store& store, const Event& event, const YardFacts&) {
  Doubts doubts;
  if (event.kind == EventKind::worms_in) doubt_worms(store, event, doubts);
  const bool ends = event.kind == EventKind::harvested || event.kind == EventKind::emptied;
  const auto fill = current<Fill>(store, event.fill_id);
  if (ends && fill) {
    const double days = static_cast<double>((event.at - fill->filled_at).count()) / 86400.0;
    if (days >= 0.0 && days < shortest_to_harvest_days) {
      add(doubts, "event: at_s",
          "is only " + quantity::to_text(std::floor(days), 3) + " days after batch " + fill->batch + " was filled");
    }
  }
  return doubts;
}

Doubts doubts(const Store&, const LabTest& test, const YardFacts& facts) {
  if (facts.lab_keys.empty()) return {};
  const auto found = std::find_if(facts.lab_keys.begin(), facts.lab_keys.end(),
                                  [&](const YardFacts::LabKey& one) { return one.key == test.key; });
  if (found == facts.lab_keys.end()) {
    return {{"laboratory test: key", "= \"" + test.key + "\" is judged by no rule here",
             "known are: " + listed(facts.lab_keys, [](const YardFacts::LabKey& one) { return one.key; }) +
                 "; if it is another, say that you are sure"}};
  }
  const bool unit_known = std::any_of(facts.lab_keys.begin(), facts.lab_keys.end(), [&](const YardFacts::LabKey& one) {
    return one.key == test.key && one.unit == test.unit;
  });
  if (unit_known) return {};
  return {{"laboratory test: unit", "= \"" + test.unit + "\" is not the unit in which " + test.key + " is judged",
           "give it in " + found->unit + ", or say that you are sure"}};
}

}  // namespace stillheap::record
