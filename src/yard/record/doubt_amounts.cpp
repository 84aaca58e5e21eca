#include "yard/record/doubt_amounts.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::record {
namespace {

constexpr double over_design = 1.5;           // chosen: of the volume drawn, heaped and trodden
constexpr double under_design = 0.3;          // chosen: of the volume drawn; less is mostly a slip of the comma
constexpr double heaviest_kg_m3 = 1200.0;     // chosen: wetter than compost can be, Rynk et al. 1992 ask for 640
constexpr double most_sprinkled_share = 0.1;  // chosen: of the heap's volume at once; more runs through
constexpr double most_worms_kg_m3 = 20.0;     // chosen: of the heap's volume
constexpr double least_out_share = 0.05;      // chosen: a heap loses much, never nearly all
constexpr double over_drawing = 1.1;          // chosen: a heap may be filled a little above its drawing

void doubt_length(const std::optional<double>& length_m, double most_m, const char* where, const char* what,
                  UnitSystem units, Doubts& doubts) {
  if (length_m && *length_m <= most_m * over_drawing) return;
  doubt_more(length_m, {most_m, Dimension::length, what}, where, units, doubts);
}

/// From the middle to the wall, in one direction when it is known; else to the farthest wall.
double to_wall_m(const YardFacts::Design& design, const std::optional<double>& angle_rad) {
  if (!design.box || !angle_rad) return design.reach_m;
  const double along = std::abs(std::cos(*angle_rad));
  const double across = std::abs(std::sin(*angle_rad));
  double wall_m = design.reach_m;
  if (along > 0.0) wall_m = std::min(wall_m, design.box->half_length_m / along);
  if (across > 0.0) wall_m = std::min(wall_m, design.box->half_width_m / across);
  return wall_m;
}

/// Water as people draw it: litres or gallons, never cubic yards.
void doubt_water(const std::optional<double>& volume_m3, double most_m3, const std::string& what,
                 const std::string& where, UnitSystem units, Doubts& doubts) {
  if (!volume_m3 || *volume_m3 <= most_m3) return;
  add_doubt(doubts, where,
            "= " + quantity::format_water(1000.0 * *volume_m3, units) + " is more than " + what + ", " +
                quantity::format_water(1000.0 * most_m3, units));
}

/// A volume that comes out of a vessel.
Most out_of(const YardFacts::Design& design) {
  return {over_design * design.volume_m3, Dimension::volume, "comes out of \"" + design.name + "\""};
}

void doubt_taken_out(const Event& event, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  if (event.volume_m3 && *event.volume_m3 < least_out_share * design.volume_m3)
    add_doubt(doubts, "event: volume",
              "= " + quantity::format(*event.volume_m3, Dimension::volume, units) + " is next to nothing of \"" +
                  design.name + "\", which holds " + quantity::format(design.volume_m3, Dimension::volume, units));
  const Most most = out_of(design);
  doubt_more(event.volume_m3, most, "event: volume", units, doubts);
  doubt_more(event.mass_kg, {heaviest_kg_m3 * most.si, Dimension::mass, most.what}, "event: mass", units, doubts);
}

}  // namespace

void add_doubt(Doubts& doubts, const std::string& where, const std::string& what, const std::string& mend) {
  doubts.push_back({where, what, mend});
}

void doubt_more(const std::optional<double>& si, const Most& most, const std::string& where, UnitSystem units,
                Doubts& doubts) {
  if (!si || *si <= most.si) return;
  add_doubt(doubts, where,
            "= " + quantity::format(*si, most.dimension, units) + " is more than " + most.what + ", " +
                quantity::format(most.si, most.dimension, units));
}

void doubt_place(const Place& place, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  const char* const wall =
      design.box && place.angle_rad ? "it is from the middle to the wall there" : "it is from the middle to the wall";
  doubt_length(place.depth_m, design.fill_height_m, "reading: depth", "the heap is high", units, doubts);
  doubt_length(place.height_m, design.fill_height_m, "reading: height", "the heap is high", units, doubts);
  doubt_length(place.radius_m, to_wall_m(design, place.angle_rad), "reading: radius", wall, units, doubts);
}

void doubt_amounts(const Event& event, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  if (ends_fill(event.kind)) return doubt_taken_out(event, design, units, doubts);
  if (event.kind == EventKind::sprinkled) {
    const double most_m3 = most_sprinkled_share * design.volume_m3;
    const std::string what = "a tenth of the heap in \"" + design.name + "\" holds";
    doubt_water(event.volume_m3, most_m3, what, "event: volume", units, doubts);
    doubt_more(event.mass_kg, {1000.0 * most_m3, Dimension::mass, what}, "event: mass", units, doubts);
  } else if (event.kind == EventKind::worms_in) {
    doubt_more(event.mass_kg,
               {most_worms_kg_m3 * design.volume_m3, Dimension::mass,
                "a heap as in \"" + design.name + "\" is given of worms"},
               "event: mass", units, doubts);
  }
}

void doubt_amounts(const Fill& fill, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  if (!fill.volume_m3) return;
  if (*fill.volume_m3 > over_design * design.volume_m3)
    doubt_more(fill.volume_m3, {design.volume_m3, Dimension::volume, "the vessel \"" + design.name + "\" holds"},
               "fill: volume", units, doubts);
  if (*fill.volume_m3 < under_design * design.volume_m3)
    add_doubt(doubts, "fill: volume",
              "= " + quantity::format(*fill.volume_m3, Dimension::volume, units) + " is far less than \"" +
                  design.name + "\" holds, " + quantity::format(design.volume_m3, Dimension::volume, units));
}

void doubt_amounts(const LotUse& use, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  doubt_more(use.mass_wet_kg,
             {over_design * heaviest_kg_m3 * design.volume_m3, Dimension::mass, "goes into \"" + design.name + "\""},
             "use of a lot: mass", units, doubts);
}

void doubt_amounts(const Spreading& spreading, const YardFacts::Design& design, UnitSystem units, Doubts& doubts) {
  doubt_more(spreading.volume_m3, out_of(design), "spreading: volume", units, doubts);
}

}  // namespace stillheap::record
