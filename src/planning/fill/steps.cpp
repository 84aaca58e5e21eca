#include "planning/fill/steps.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "planning/fill/lifting.hpp"

namespace stillheap::fill {
namespace {

/// Amounts as text, all in one system.
struct Words {
  UnitSystem units;
  [[nodiscard]] std::string length(double m) const { return quantity::format_workshop(m, units); }
  [[nodiscard]] std::string mass(double kg) const { return quantity::format(kg, Dimension::mass, units, 2); }
  [[nodiscard]] std::string water(double kg) const {  // 1 kg is 1 L; never cubic yards
    return quantity::format_water(kg, units, 2);
  }
  [[nodiscard]] std::string volume(double m3) const { return quantity::format(m3, Dimension::volume, units, 2); }
  [[nodiscard]] std::string time(double s) const { return quantity::format(s, Dimension::duration, units, 2); }
};

std::string counted(int count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string cage_step(const vessel::Design& design, const Words& words) {
  std::string text =
      design.base_open ? "Set the slatted base level and firm, with its air gap clear" : "Set the base level and firm";
  const bool open = design.wall == vessel::Wall::open;
  text += std::string(", lay the base cloth on it and ") +
          (open ? "stand the joined cage on the cloth" : "put up the wall");
  if (!open) return text + ".";
  text += ". Hang the lining inside the cage";
  if (design.lining_overlap_m > 0.0) text += ", " + words.length(design.lining_overlap_m) + " of flap over its joint";
  if (design.lining_fold_m > 0.0) text += ", and fold " + words.length(design.lining_fold_m) + " over the brim";
  return text + ".";
}

std::string forms_step(const vessel::Design& design, const Words& words) {
  std::set<double> diameters;
  for (const vessel::Channel& channel : design.channels) diameters.insert(channel.diameter_m);
  const bool one_width = *diameters.rbegin() - *diameters.begin() < 1e-6;
  const std::string width =
      words.length(*diameters.begin()) + (one_width ? "" : " to " + words.length(*diameters.rbegin()));
  const bool one = design.channels.size() == 1;
  return "Stand " + counted(static_cast<int>(design.channels.size()), "form", "forms") + " of " + width +
         " outside diameter upright on " + (one ? "its mark" : "their marks") +
         " as the vessel figure shows, and tie " + (one ? "it" : "them") + " so that " +
         (one ? "it stays" : "they stay") + " plumb.";
}

/// How long the baths make it, and how many would end it in a working day.
std::string baths_words(const FillPlan& fill, const Practice& practice, const Words& words) {
  std::string text = "With " + counted(practice.baths, "bath", "baths") + " the filling ends " +
                     words.time(fill.clock_s) + " after the first batch goes in, the waiting for the bath included";
  if (fill.clock_s <= working_day_s) return text + ".";
  if (fill.baths_for_a_day > practice.baths) {
    return text + "; " + counted(fill.baths_for_a_day, "bath", "baths") + " of this size end it within " +
           words.time(working_day_s) + ".";
  }
  return text + "; more baths do not end it within " + words.time(working_day_s) +
         ": take more people, or fill over two days.";
}

std::string soak_step(const FillPlan& fill, const material::Bath& bath, const Practice& practice, const Words& words) {
  if (fill.soak.too_wet_already)
    return "Do not soak: the blend is wetter than wanted as delivered. Let it drain or mix in something drier.";
  if (fill.soak.batches == 0) return "Do not soak: the blend is as wet as wanted already.";
  return "Soak the blend in " + counted(fill.soak.batches, "batch", "batches") + " of at most " +
         words.volume(bath.volume_m3 * bath.load_share) + " loose: " + words.time(bath.soak_s) + " in a bath of " +
         words.volume(bath.volume_m3) + ", then " + words.time(bath.drain_s) +
         " to drain back into it, the next batch while this one is spread. Draw " +
         words.water(fill.soak.water_to_draw_kg) + " of water in all. " + baths_words(fill, practice, words);
}

std::string lift_step(const FillPlan& fill, const Practice& practice, const Words& words) {
  const int last = fill.pails - (fill.lifts - 1) * practice.pails_a_lift;
  std::string text = "Tip in " + counted(std::min(fill.pails, practice.pails_a_lift), "pail", "pails") +
                     " and spread them level between wall and forms by hand or fork, without treading: one lift of "
                     "about " +
                     words.length(fill.lift_height_m) + ". " + counted(fill.lifts, "lift fills", "lifts fill") +
                     " the vessel, " + counted(fill.pails, "pail", "pails") + " in all";
  if (fill.lifts > 1 && last < practice.pails_a_lift) text += ", " + std::to_string(last) + " of them in the last lift";
  return text + ": about " + words.time(fill.hours * 3600.0) + " of carrying and spreading for " +
         counted(practice.people, "person", "people") + ".";
}

/// How full a pail may be, and how many trips that makes.
std::string part_filled_words(const FillPlan& fill) {
  const double share = part_filled_share(fill.pail_mass_kg, fill.pail_limit_kg);
  if (share <= 0.0) return "";
  return "fill pails to " + std::to_string(static_cast<int>(std::lround(100.0 * share))) + " %, which makes " +
         std::to_string(static_cast<int>(std::ceil(fill.pails / share - 1e-9))) + " of them, or ";
}

}  // namespace

std::string weight_words(const FillPlan& fill, UnitSystem units) {
  const Words words{units};
  const std::string full = "A full pail weighs about " + words.mass(fill.pail_mass_kg);
  if (fill.pail_limit_kg <= 0.0) {
    return full +
           ". The brim is too high to lift pails over it from the ground: work from a firm platform and hand "
           "the pails up in stages.";
  }
  const std::string limit = words.mass(fill.pail_limit_kg);
  if (fill.lifting_index > 1.0) {
    return full + ", more than the " + limit +
           " recommended for lifting from the ground over the brim: " + part_filled_words(fill) +
           "lift in two stages from a firm step.";
  }
  return full + "; up to " + limit + " is recommended for lifting from the ground over the brim.";
}

std::vector<std::string> steps_of(const vessel::Design& design, const FillPlan& fill, const material::Bath& bath,
                                  const Practice& practice, UnitSystem units) {
  const Words words{units};
  const bool forms = !design.channels.empty();
  std::vector<std::string> steps{cage_step(design, words)};
  if (forms) steps.push_back(forms_step(design, words));
  steps.push_back(soak_step(fill, bath, practice, words));
  if (fill.inoculum_kg > 0.0) {
    steps.push_back("Strew " + words.mass(fill.inoculum_kg) + " of finished compost through the fill, about " +
                    words.mass(fill.inoculum_kg / fill.lifts) + " on each lift.");
  }
  steps.push_back(lift_step(fill, practice, words));
  steps.push_back(weight_words(fill, units));
  steps.push_back(std::string(practice.water_line ? "Level the top, lay the water line around it inside the wall, set "
                                                    "the sprays and lay the cover cloth"
                                                  : "Level the top and lay the cover cloth") +
                  (forms ? " around the forms." : "."));
  if (forms) {
    steps.push_back("After " + words.time(practice.forms_out_after_s) + " turn " +
                    (design.channels.size() == 1 ? "the form" : "each form") +
                    " loose and pull it straight up; the hole it leaves must stay open from top to base.");
  }
  return steps;
}

}  // namespace stillheap::fill
