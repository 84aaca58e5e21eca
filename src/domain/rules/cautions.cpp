#include "domain/rules/cautions.hpp"

#include "domain/rules/caution_words.hpp"
#include "domain/rules/worms.hpp"

namespace stillheap::rules {
namespace {

using Test = bool (*)(const Conditions&);

struct Row {
  WorkPlace place;
  Test applies;
  std::string_view text;
  std::string_view source;
};

constexpr std::string_view practice = "common practice, no source";

bool always(const Conditions&) { return true; }
bool tall(const Conditions& c) { return c.brim_height_m > caution_limit::reach_height_m; }
bool slender(const Conditions& c) { return !c.slender.empty(); }
bool manure(const Conditions& c) { return c.has_manure; }
bool hot(const Conditions& c) { return c.peak_c.value_or(caution_limit::hot_c) >= caution_limit::hot_c; }
bool hot_and_dry(const Conditions& c) {
  return hot(c) && c.driest_moisture_wet.value_or(0.0) < caution_limit::dry_moisture_wet;
}
bool drinking_water(const Conditions& c) { return c.drinking_water_supply; }
bool frost(const Conditions& c) { return c.coldest_outside_c.value_or(-1.0) < 0.0; }
bool salty(const Conditions& c) {
  return c.drain_conductivity_s_m.value_or(caution_limit::salty_s_m) >= caution_limit::salty_s_m;
}
bool weedkiller(const Conditions& c) { return c.may_carry_weedkiller; }
bool not_hygienic(const Conditions& c) { return !c.hygiene_met_everywhere; }
bool bearing_unknown_or_exceeded(const Conditions& c) {
  return !c.soil_bearing_pa || *c.soil_bearing_pa <= 0.0 || !c.ground_pressure_pa ||
         *c.ground_pressure_pa > *c.soil_bearing_pa;
}
bool heavy_pail(const Conditions& c) { return c.pail_mass_kg <= 0.0 || c.pail_mass_kg > c.pail_limit_kg; }

constexpr Row rows[] = {
    {WorkPlace::building, always,
     "Cut mesh ends are sharp: gloves and eye protection, and bend or cover every end that faces a person.", practice},
    {WorkPlace::building, always,
     "Set the base level on firm, drained ground. A full vessel is far too heavy to shift or right by hand; keep "
     "children and animals away from it.",
     practice},
    {WorkPlace::building, slender,
     "The vessel is taller than wide and can tip while it settles: brace or tie it, keep people off its lower side, "
     "and have a qualified person judge slopes, wind and frost-heave.",
     practice},
    {WorkPlace::building, bearing_unknown_or_exceeded,
     "The ground under the bearers is either not known or loaded beyond the bearing given: have it judged by someone "
     "qualified, spread the load on wider bearers or slabs, and follow the local building code.",
     practice},
    {WorkPlace::filling, always, words::mask, practice},
    {WorkPlace::filling, always, words::bath, practice},
    {WorkPlace::filling, manure,
     "Raw manure carries germs: gloves, washed hands before eating, separate boots and tools, nothing carried to "
     "finished compost or to the kitchen garden. Local rules on manure come first.",
     "7 CFR 205.203(c)(1) for intervals before harvest; hygiene: common practice, no source"},
    {WorkPlace::filling, heavy_pail,
     "A full soaked pail lifted to the brim is over the recommended weight limit for one person: fill pails less, "
     "lift in pairs, or use a hoist or conveyor.",
     "Waters et al. 1994, DHHS (NIOSH) 94-110"},
    {WorkPlace::filling, tall,
     "The brim is above a safe lift from the ground: stand on a steady platform or scaffold with a guard, set up as "
     "local rules and its maker ask, never on the mesh, a pail or a ladder with a load in both hands.",
     practice},
    {WorkPlace::filling, always,
     "Never climb into a vessel or lean inside head down; pull forms from outside with two people, straight up.",
     practice},
    {WorkPlace::hot_phase, always, words::scald, practice},
    {WorkPlace::hot_phase, always, words::arm, "40 degC: chosen"},
    {WorkPlace::hot_phase, always, words::smoke, practice},
    {WorkPlace::hot_phase, hot,
     "At 70 degC (158 degF) and above, read the core daily, measure the moisture the same day (unread counts as dry) "
     "and "
     "add no extra cover. From 75 degC (167 degF) with moisture unread, or near 85 degC (185 degF) in any case, it may "
     "be "
     "on the way to a fire: keep people away, and wet it slowly from a distance while there is no smoke.",
     "practice standard 317 job sheet, Natural Resources Conservation Service 2002 (watch from 165 degF, act at 185 "
     "degF); hot limit 70 degC chosen"},
    {WorkPlace::hot_phase, hot_and_dry,
     "Hot and dry together can ignite by themselves: wherever material above 70 degC (158 degF) is drier than 45 %, "
     "water slowly "
     "and evenly, keep a charged hose at hand, and keep the vessel away from buildings, fences and dry growth as the "
     "local fire code asks.",
     "Naylor 2004 (fires begin where heaps are dry); 25 to 45 % moisture: NRAES-54 1992 (not yet checked against the "
     "text)"},
    {WorkPlace::watering, drinking_water,
     "The line hangs on a drinking-water supply: fit the back-flow preventer that the local plumbing code names, by a "
     "licensed plumber where the code asks, upstream of the timer, and have it tested as required.",
     "local plumbing code"},
    {WorkPlace::watering, always,
     "What drains carries salts, nitrogen and germs: catch it or lead it onto planted ground, away from wells, "
     "ditches and open water, at the distances local rules name. Pour none on crops that are eaten raw.",
     practice},
    {WorkPlace::watering, always, words::mist, practice},
    {WorkPlace::watering, salty,
     "The drainage is salty enough to harm sensitive plants: thin it with clean water before it goes on planted "
     "ground, and test its conductivity.",
     "FAO-29 rev. 1 table 1 (Ayers and Westcot 1985), not yet checked against the text"},
    {WorkPlace::winter, frost,
     "Drain line, timer and back-flow preventer before the first frost. Wet steps and platforms freeze: clear them "
     "before work.",
     practice},
    {WorkPlace::harvest, always,
     "Open the cage from the top down and stand aside of the joint: mesh springs, and a steep face can slump. FFP2 or "
     "N95 "
     "mask for dry compost.",
     practice},
    {WorkPlace::harvest, always, worms::caution, practice},
    {WorkPlace::harvest, not_hygienic,
     "The forecast does not show that every part stayed hot long enough. Count the compost as raw for hygiene: test "
     "it, or keep the intervals before harvest for raw manure (90 days, 120 days where the crop touches soil) or "
     "whatever the local rule asks.",
     "7 CFR 205.203(c)(1) and (2)"},
    {WorkPlace::spreading, always, "Test salts before seedlings or pots: thin compost of high conductivity with soil.",
     practice},
    {WorkPlace::spreading, weedkiller,
     "Hay, straw, grass and manure can bring weedkillers that outlast composting. Ask the supplier what was sprayed, "
     "and grow beans or peas in the compost beside a clean control for some weeks before any is spread.",
     "NC State Extension, Herbicide Carryover in Hay, Manure, Compost and Grass Clippings"},
};

}  // namespace

std::string_view name_of(WorkPlace place) noexcept {
  switch (place) {
    case WorkPlace::building:
      return "building";
    case WorkPlace::filling:
      return "filling";
    case WorkPlace::hot_phase:
      return "hot phase";
    case WorkPlace::watering:
      return "watering";
    case WorkPlace::winter:
      return "winter";
    case WorkPlace::harvest:
      return "harvest";
    case WorkPlace::spreading:
      return "spreading";
  }
  return "";
}

namespace {

/// A caution that holds for some of the vessels alone begins with their names.
std::string text_of(const Row& row, const Conditions& conditions) {
  const bool of_some = row.applies == slender && static_cast<int>(conditions.slender.size()) < conditions.vessels;
  std::string names;
  for (const std::string& one : conditions.slender) names += (names.empty() ? "" : ", ") + one;
  return (of_some ? names + ": " : "") + std::string(row.text);
}

}  // namespace

std::vector<Warned> select_cautions(const Conditions& conditions) {
  std::vector<Warned> selected;
  for (const Row& row : rows) {
    if (row.applies(conditions)) selected.push_back({row.place, text_of(row, conditions), std::string(row.source)});
  }
  return selected;
}

}  // namespace stillheap::rules
