#include "yard/record/doubt.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/quantity/rounding.hpp"
#include "domain/limits/limits.hpp"
#include "domain/rules/caution_words.hpp"
#include "domain/rules/cautions.hpp"
#include "domain/rules/worms.hpp"
#include "yard/record/doubt_amounts.hpp"
#include "yard/record/doubt_jump.hpp"
#include "yard/record/read.hpp"

namespace stillheap::record {
namespace {

constexpr double shortest_to_harvest_days = 60.0;  // chosen: no static heap has been through its heat before
constexpr double look_back_s = 7 * 86400.0;        // chosen: what a probe showed in the week before
constexpr double thickest_spread_m = 0.3;          // chosen: a mulch, no dressing
constexpr double longest_sprinkling_s = 4 * 3600;  // chosen: a forgotten tap

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

/// The fill an entry speaks of and the design of its vessel, as far as they are known.
struct Filled {
  std::optional<Fill> fill;
  const YardFacts::Design* design = nullptr;
};

Filled filled_of(const Store& store, const std::string& fill_id, const YardFacts& facts) {
  Filled found{current<Fill>(store, fill_id), nullptr};
  if (found.fill) found.design = design_of(store, found.fill->vessel_id, facts);
  return found;
}

/// A heap that is harvested or emptied while a probe of the week before tells that it heats.
void doubt_hot_end(const Store& store, const Event& event, UnitSystem units, Doubts& doubts) {
  const auto week = std::chrono::seconds{static_cast<long long>(look_back_s)};
  double hottest_c = -300.0;
  for (const Reading& one : readings_between(store, event.fill_id, event.at - week, event.at + std::chrono::seconds{1},
                                             Measure::temperature))
    hottest_c = std::max(hottest_c, one.value);
  if (hottest_c <= rules::words::touch_c) return;
  add_doubt(doubts, "event: kind",
            "= " + std::string(info(event.kind).key) + ": a probe read " +
                quantity::format(hottest_c, Dimension::temperature, units) +
                " within the week before; nobody reaches into a heap above " +
                quantity::format(rules::words::touch_c, Dimension::temperature, units));
}

/// What worms would find, by the probes of the week before: the hottest, the last temperatures and the last moistures.
void doubt_worms(const Store& store, const Event& event, UnitSystem units, Doubts& doubts) {
  namespace worms = rules::worms;
  const auto text = [units](double si, Dimension dimension) { return quantity::format(si, dimension, units); };
  const auto week = std::chrono::seconds{static_cast<long long>(look_back_s)};
  const auto read = [&](Measure measure) {
    return readings_between(store, event.fill_id, event.at - week, event.at + std::chrono::seconds{1}, measure);
  };
  const auto by_value = [](const Reading& a, const Reading& b) { return a.value < b.value; };
  const auto by_time = [](const Reading& a, const Reading& b) { return a.at < b.at; };
  const auto tell = [&](double value, Dimension dimension, const std::string& want) {
    add_doubt(doubts, "event: kind",
              "= worms in: a probe read " + text(value, dimension) + " within the week before; worms want " + want);
  };
  if (const auto all = read(Measure::temperature); !all.empty()) {
    const double hottest_c = std::max_element(all.begin(), all.end(), by_value)->value;
    const double last_c = std::max_element(all.begin(), all.end(), by_time)->value;
    if (hottest_c > worms::hottest_c)
      tell(hottest_c, Dimension::temperature, "at most " + text(worms::hottest_c, Dimension::temperature));
    if (last_c < worms::least_c)
      tell(last_c, Dimension::temperature, "at least " + text(worms::least_c, Dimension::temperature));
  }
  if (const auto all = read(Measure::moisture); !all.empty()) {
    const double last = std::max_element(all.begin(), all.end(), by_time)->value;
    if (last < worms::least_moisture_wet || last > worms::most_moisture_wet)
      tell(last, Dimension::fraction,
           text(worms::least_moisture_wet, Dimension::fraction) + " to " +
               text(worms::most_moisture_wet, Dimension::fraction));
  }
}

/// What these tests hardly ever give, by key and unit.
Doubts lab_doubts(const LabTest& test) {
  struct Usual {
    std::string_view key, unit;
    double least, most;
  };
  // chosen: a control of 100 % is rarely doubled; a heap of fresh material heats a Dewar flask by 50 K
  constexpr std::array usual{Usual{"germination_index", "%", 0.0, 250.0}, Usual{"self_heating_rise", "K", -5.0, 60.0},
                             Usual{"conductivity", "dS/m", 0.0, 50.0}, Usual{"ph", "", 3.0, 11.0},
                             Usual{"moisture", "%", 5.0, 95.0}};
  Doubts doubts;
  for (const Usual& one : usual) {
    if (one.key != test.key || one.unit != test.unit || (test.value >= one.least && test.value <= one.most)) continue;
    add_doubt(doubts, "laboratory test: value",
              "= " + quantity::to_text(test.value, 6) + ' ' + test.unit + " hardly ever is; usual are " +
                  quantity::to_text(one.least, 3) + " to " + quantity::to_text(one.most, 3) + ' ' + test.unit);
  }
  return doubts;
}

}  // namespace

Doubts value_doubts(Measure measure, double value, UnitSystem units) {
  const MeasureInfo& about = info(measure);
  if (value >= about.usual_least && value <= about.usual_most) return {};
  const bool may_burn = measure == Measure::temperature && value >= rules::caution_limit::act_c;
  return {{"reading: " + std::string(about.key),
           "= " + value_text(measure, value, units) + " hardly ever is; usual are " + usual_text(measure, units),
           (may_burn ? "if it is so, the heap may burn: get away from it and call for help; if not, " : "") +
               std::string(look_again)}};
}

Doubts place_doubts(const Store& store, const std::string& fill_id, const Place& place, const YardFacts& facts) {
  Doubts doubts;
  if (const auto* design = filled_of(store, fill_id, facts).design) doubt_place(place, *design, facts.units, doubts);
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
  if (const auto* design = design_of(store, fill.vessel_id, facts)) doubt_amounts(fill, *design, facts.units, doubts);
  if (fill.moisture_wet && !limits::holds(limits::soaked_moisture, *fill.moisture_wet)) {
    add_doubt(doubts, "fill: moisture",
              "= " + quantity::format(*fill.moisture_wet, Dimension::fraction, facts.units) +
                  " hardly ever is; usual are " + limits::allowed(limits::soaked_moisture));
  }
  if (fill.carbon_to_nitrogen && !limits::holds(limits::carbon_to_nitrogen, *fill.carbon_to_nitrogen)) {
    add_doubt(doubts, "fill: C:N",
              "= " + quantity::to_text(*fill.carbon_to_nitrogen, 3) + " hardly ever is; usual are " +
                  limits::allowed(limits::carbon_to_nitrogen));
  }
  return doubts;
}

Doubts doubts(const Store& store, const LotUse& use, const YardFacts& facts) {
  Doubts doubts;
  if (const auto lot = current<Lot>(store, use.lot_id); lot && lot->mass_wet_kg) {
    const double used_kg = use.mass_wet_kg + used_of_lot_kg(store, use.lot_id, use.mark.corrects);
    doubt_more(used_kg, {*lot->mass_wet_kg, Dimension::mass, "was delivered in lot \"" + lot->name + "\""},
               "use of a lot: mass of all uses", facts.units, doubts);
  }
  if (const auto* design = filled_of(store, use.fill_id, facts).design)
    doubt_amounts(use, *design, facts.units, doubts);
  return doubts;
}

Doubts doubts(const Store& store, const Reading& reading, const YardFacts& facts) {
  Doubts found = value_doubts(reading.measure, reading.value, facts.units);
  const Doubts place = place_doubts(store, reading.fill_id, reading.place, facts);
  found.insert(found.end(), place.begin(), place.end());
  if (found.empty()) doubt_jump(store, reading, facts.units, found);
  return found;
}

Doubts doubts(const Store& store, const Event& event, const YardFacts& facts) {
  Doubts doubts;
  if (event.kind == EventKind::worms_in) doubt_worms(store, event, facts.units, doubts);
  if (ends_fill(event.kind)) doubt_hot_end(store, event, facts.units, doubts);
  const auto [fill, design] = filled_of(store, event.fill_id, facts);
  if (design != nullptr) doubt_amounts(event, *design, facts.units, doubts);
  if (event.kind == EventKind::sprinkled)
    doubt_more(event.duration_s, {longest_sprinkling_s, Dimension::duration, "anybody sprinkles at once"},
               "event: duration", facts.units, doubts);
  const bool ends_or_judged = ends_fill(event.kind) || event.kind == EventKind::cured;
  const double soonest = event.kind == EventKind::worms_in ? rules::worms::earliest_day
                         : ends_or_judged                  ? shortest_to_harvest_days
                                                           : 0.0;
  if (fill && soonest > 0.0) {
    const double days = static_cast<double>((event.at - fill->filled_at).count()) / 86400.0;
    if (days >= 0.0 && days < soonest) {
      add_doubt(doubts, "event: at_s",
                "is only " + quantity::to_text(std::floor(days), 3) + " days after batch " + fill->batch +
                    " was filled; " + quantity::to_text(soonest, 3) + " are the least that is usual");
    }
  }
  return doubts;
}

Doubts doubts(const Store& store, const Spreading& spreading, const YardFacts& facts) {
  Doubts doubts;
  const auto [fill, design] = filled_of(store, spreading.fill_id, facts);
  if (!fill) return doubts;
  bool is_out = false;
  for (const Event& event : of_fill<Event>(store, spreading.fill_id)) is_out |= ends_fill(event.kind);
  if (!is_out) add_doubt(doubts, "spreading", "is of batch " + fill->batch + ", of which no harvest is noted");
  if (design != nullptr) doubt_amounts(spreading, *design, facts.units, doubts);
  if (spreading.volume_m3 && spreading.area_m2 && *spreading.area_m2 > 0.0)
    doubt_more(*spreading.volume_m3 / *spreading.area_m2, {thickest_spread_m, Dimension::length, "anybody spreads"},
               "spreading: thickness", facts.units, doubts);
  return doubts;
}

Doubts doubts(const Store& store, const LabTest& test, const YardFacts& facts) {
  Doubts odd = lab_doubts(test);
  if (const auto fill = current<Fill>(store, test.fill_id);
      fill && test.sampled_at != Instant{} && test.sampled_at < fill->filled_at)
    add_doubt(odd, "laboratory test: sampled_at_s", "is before batch " + fill->batch + " was filled");
  if (!odd.empty()) return odd;
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
