#include "yard/record/doubt.hpp"

#include <algorithm>
#include <array>
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
constexpr double heaviest_kg_m3 = 1200.0;          // chosen: wetter than compost can be, Rynk et al. 1992 ask for 640
constexpr double most_sprinkled_share = 0.1;       // chosen: of the heap's volume at once; more runs through
constexpr double most_worms_kg_m3 = 20.0;          // chosen: of the heap's volume
constexpr double under_design = 0.3;               // chosen: of the volume drawn; less is mostly a slip of the comma
constexpr double least_out_share = 0.05;           // chosen: a heap loses much, never nearly all
constexpr double thickest_spread_m = 0.3;          // chosen: a mulch, no dressing
constexpr double longest_sprinkling_s = 4 * 3600;  // chosen: a forgotten tap

void add(Doubts& doubts, const std::string& where, const std::string& what, const std::string& mend = look_again) {
  doubts.push_back({where, what, mend});
}

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

/// An amount against the most that is usual in this vessel; `what` says what that most is.
struct Most {
  double si = 0.0;
  Dimension dimension = Dimension::length;
  std::string what;
};

void doubt_more(const std::optional<double>& si, const Most& most, const std::string& where, UnitSystem units,
                Doubts& doubts) {
  if (!si || *si <= most.si) return;
  add(doubts, where,
      "= " + quantity::format(*si, most.dimension, units) + " is more than " + most.what + ", " +
          quantity::format(most.si, most.dimension, units));
}

void doubt_length(const std::optional<double>& length_m, double most_m, const char* where, const char* what,
                  UnitSystem units, Doubts& doubts) {
  if (length_m && *length_m <= most_m * 1.1) return;  // chosen: a heap may be filled a little above its drawing
  doubt_more(length_m, {most_m, Dimension::length, what}, where, units, doubts);
}

/// Amounts of water, worms and compost that the vessel can hardly have taken or given.
void doubt_amounts(const Event& event, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  const bool gives = event.kind == EventKind::harvested || event.kind == EventKind::emptied;
  const auto volume = [&](double share, const std::string& what) {
    doubt_more(event.volume_m3, {share * design.volume_m3, Dimension::volume, what}, "event: volume", units, doubts);
  };
  const auto mass = [&](double kg_m3, const std::string& what) {
    doubt_more(event.mass_kg, {kg_m3 * design.volume_m3, Dimension::mass, what}, "event: mass", units, doubts);
  };
  if (event.kind == EventKind::sprinkled) {
    volume(most_sprinkled_share, "a tenth of the heap in \"" + design.name + "\" holds");
    mass(most_sprinkled_share * 1000.0, "a tenth of the heap in \"" + design.name + "\" holds");
  } else if (event.kind == EventKind::worms_in) {
    mass(most_worms_kg_m3, "a heap as in \"" + design.name + "\" is given of worms");
  } else if (gives) {
    if (event.volume_m3 && *event.volume_m3 < least_out_share * design.volume_m3)
      add(doubts, "event: volume",
          "= " + quantity::format(*event.volume_m3, Dimension::volume, units) + " is next to nothing of \"" +
              design.name + "\", which holds " + quantity::format(design.volume_m3, Dimension::volume, units));
    volume(over_design, "comes out of \"" + design.name + "\"");
    mass(over_design * heaviest_kg_m3, "comes out of \"" + design.name + "\"");
  }
}

/// What worms would find, by the probes of the week before: the hottest, the last temperatures and the last moistures.
void doubt_worms(const Store& store, const Event& event, UnitSystem units, Doubts& doubts) {
  namespace worms = rules::worms;
  const auto text = [units](double si, Dimension dimension) { return quantity::format(si, dimension, units); };
  const auto week = std::chrono::seconds{static_cast<long long>(worms_look_back_s)};
  const auto read = [&](Measure measure) {
    return readings_between(store, event.fill_id, event.at - week, event.at + std::chrono::seconds{1}, measure);
  };
  const auto by_value = [](const Reading& a, const Reading& b) { return a.value < b.value; };
  const auto by_time = [](const Reading& a, const Reading& b) { return a.at < b.at; };
  const auto tell = [&](double value, Dimension dimension, const std::string& want) {
    add(doubts, "event: kind",
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
    add(doubts, "laboratory test: value",
        "= " + quantity::to_text(test.value, 6) + ' ' + test.unit + " hardly ever is; usual are " +
            quantity::to_text(one.least, 3) + " to " + quantity::to_text(one.most, 3) + ' ' + test.unit);
  }
  return doubts;
}

}  // namespace

Doubts value_doubts(Measure measure, double value, UnitSystem units) {
  const MeasureInfo& about = info(measure);
  if (value >= about.usual_least && value <= about.usual_most) return {};
  return {{"reading: " + std::string(about.key),
           "= " + value_text(measure, value, units) + " hardly ever is; usual are " + usual_text(measure, units),
           look_again}};
}

Doubts place_doubts(const Store& store, const std::string& fill_id, const Place& place, const YardFacts& facts) {
  const auto fill = current<Fill>(store, fill_id);
  const YardFacts::Design* design = fill ? design_of(store, fill->vessel_id, facts) : nullptr;
  if (design == nullptr) return {};
  Doubts doubts;
  const UnitSystem units = facts.units;
  doubt_length(place.depth_m, design->fill_height_m, "reading: depth", "the heap is high", units, doubts);
  doubt_length(place.height_m, design->fill_height_m, "reading: height", "the heap is high", units, doubts);
  doubt_length(place.radius_m, design->reach_m, "reading: radius", "it is from the middle to the wall", units, doubts);
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
  if (design != nullptr && fill.volume_m3 > over_design * design->volume_m3)
    doubt_more(fill.volume_m3, {design->volume_m3, Dimension::volume, "the vessel \"" + design->name + "\" holds"},
               "fill: volume", facts.units, doubts);
  if (design != nullptr && fill.volume_m3 && *fill.volume_m3 < under_design * design->volume_m3)
    add(doubts, "fill: volume",
        "= " + quantity::format(*fill.volume_m3, Dimension::volume, facts.units) + " is far less than \"" +
            design->name + "\" holds, " + quantity::format(design->volume_m3, Dimension::volume, facts.units));
  if (fill.moisture_wet && !limits::holds(limits::soaked_moisture, *fill.moisture_wet)) {
    add(doubts, "fill: moisture",
        "= " + quantity::format(*fill.moisture_wet, Dimension::fraction, facts.units) + " hardly ever is; usual are " +
            limits::allowed(limits::soaked_moisture));
  }
  if (fill.carbon_to_nitrogen && !limits::holds(limits::carbon_to_nitrogen, *fill.carbon_to_nitrogen)) {
    add(doubts, "fill: C:N",
        "= " + quantity::to_text(*fill.carbon_to_nitrogen, 3) + " hardly ever is; usual are " +
            limits::allowed(limits::carbon_to_nitrogen));
  }
  return doubts;
}

Doubts doubts(const Store& store, const LotUse& use, const YardFacts& facts) {
  const auto fill = current<Fill>(store, use.fill_id);
  const YardFacts::Design* design = fill ? design_of(store, fill->vessel_id, facts) : nullptr;
  Doubts doubts;
  if (const auto lot = current<Lot>(store, use.lot_id); lot && lot->mass_wet_kg) {
    double used_kg = use.mass_wet_kg;
    for (const LotUse& other : all<LotUse>(store)) {
      const bool itself = other.mark.id == use.mark.corrects || other.mark.thing == use.mark.corrects;
      if (other.lot_id == use.lot_id && !itself) used_kg += other.mass_wet_kg;
    }
    doubt_more(used_kg, {*lot->mass_wet_kg, Dimension::mass, "was delivered in lot \"" + lot->name + "\""},
               "use of a lot: mass of all uses", facts.units, doubts);
  }
  if (design == nullptr) return doubts;
  doubt_more(use.mass_wet_kg,
             {over_design * heaviest_kg_m3 * design->volume_m3, Dimension::mass, "goes into \"" + design->name + "\""},
             "use of a lot: mass", facts.units, doubts);
  return doubts;
}

Doubts doubts(const Store& store, const Reading& reading, const YardFacts& facts) {
  Doubts found = value_doubts(reading.measure, reading.value, facts.units);
  const Doubts place = place_doubts(store, reading.fill_id, reading.place, facts);
  found.insert(found.end(), place.begin(), place.end());
  return found;
}

Doubts doubts(const Store& store, const Event& event, const YardFacts& facts) {
  Doubts doubts;
  if (event.kind == EventKind::worms_in) doubt_worms(store, event, facts.units, doubts);
  const bool ends = event.kind == EventKind::harvested || event.kind == EventKind::emptied;
  const auto fill = current<Fill>(store, event.fill_id);
  if (const YardFacts::Design* design = fill ? design_of(store, fill->vessel_id, facts) : nullptr)
    doubt_amounts(event, *design, facts.units, doubts);
  if (event.kind == EventKind::sprinkled)
    doubt_more(event.duration_s, {longest_sprinkling_s, Dimension::duration, "anybody sprinkles at once"},
               "event: duration", facts.units, doubts);
  const bool judged = event.kind == EventKind::cured;
  const double soonest = event.kind == EventKind::worms_in ? rules::worms::earliest_day
                         : ends || judged                  ? shortest_to_harvest_days
                                                           : 0.0;
  if (fill && soonest > 0.0) {
    const double days = static_cast<double>((event.at - fill->filled_at).count()) / 86400.0;
    if (days >= 0.0 && days < soonest) {
      add(doubts, "event: at_s",
          "is only " + quantity::to_text(std::floor(days), 3) + " days after batch " + fill->batch + " was filled; " +
              quantity::to_text(soonest, 3) + " are the least that is usual");
    }
  }
  return doubts;
}

Doubts doubts(const Store& store, const Spreading& spreading, const YardFacts& facts) {
  Doubts doubts;
  const auto fill = current<Fill>(store, spreading.fill_id);
  if (!fill) return doubts;
  bool is_out = false;
  for (const Event& event : of_fill<Event>(store, spreading.fill_id))
    is_out |= event.kind == EventKind::harvested || event.kind == EventKind::emptied;
  if (!is_out) add(doubts, "spreading", "is of batch " + fill->batch + ", of which no harvest is noted");
  if (const YardFacts::Design* design = design_of(store, fill->vessel_id, facts))
    doubt_more(spreading.volume_m3,
               {over_design * design->volume_m3, Dimension::volume, "comes out of \"" + design->name + "\""},
               "spreading: volume", facts.units, doubts);
  if (spreading.volume_m3 && spreading.area_m2 && *spreading.area_m2 > 0.0)
    doubt_more(*spreading.volume_m3 / *spreading.area_m2, {thickest_spread_m, Dimension::length, "anybody spreads"},
               "spreading: thickness", facts.units, doubts);
  return doubts;
}

Doubts doubts(const Store& store, const LabTest& test, const YardFacts& facts) {
  Doubts odd = lab_doubts(test);
  if (const auto fill = current<Fill>(store, test.fill_id);
      fill && test.sampled_at != Instant{} && test.sampled_at < fill->filled_at)
    add(odd, "laboratory test: sampled_at_s", "is before batch " + fill->batch + " was filled");
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
