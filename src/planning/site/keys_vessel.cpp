#include <array>

#include "planning/site/key.hpp"

namespace stillheap::site {
namespace {

using D = Dimension;
using F = Form;
using N = Need;

constexpr std::string_view practice = "common practice, no source";

// Two or three lines a key, by hand: the formatter would give every field its own line.
// clang-format off
constexpr std::array rows{
    Key{.section = "vessel", .name = "name", .form = F::text, .need = N::required,
        .help = "Short name, once only."},
    Key{.section = "vessel", .name = "count", .form = F::whole, .low = from("1"), .high = to("1000"),
        .need = N::worked_out, .standard = "goal.vessels when this is the only kind, else 1", .source = "chosen",
        .help = "How many alike. With a goal in compost: in what proportion the kinds stand."},
    Key{.section = "vessel", .name = "shape", .form = F::word, .choices = "round|rectangular",
        .need = N::has_default, .standard = "round", .source = "chosen", .help = "Outline seen from above."},
    Key{.section = "vessel", .name = "diameter", .form = F::amount, .dimension = D::length,
        .low = low_of(limits::diameter),
        .high = high_of(limits::diameter), .help = "Inside of a round cage. Give this or `panel_length`."},
    Key{.section = "vessel", .name = "panel_length", .form = F::amount, .dimension = D::length, .low = from("1 m"),
        .high = to("19 m"), .help = "Length of the mesh that is joined into a round cage, joint not lapped."},
    Key{.section = "vessel", .name = "length", .form = F::amount, .dimension = D::length, .low = low_of(limits::side),
        .high = high_of(limits::side), .help = "Longer or x side of a rectangular vessel, inside."},
    Key{.section = "vessel", .name = "width", .form = F::amount, .dimension = D::length, .low = low_of(limits::side),
        .high = high_of(limits::side), .help = "Other side of a rectangular vessel, inside."},
    Key{.section = "vessel", .name = "height", .form = F::amount, .dimension = D::length, .low = low_of(limits::height),
        .high = high_of(limits::height), .need = N::required, .help = "From the base to the brim."},
    Key{.section = "vessel", .name = "fill_height", .form = F::amount, .dimension = D::length,
        .low = low_of(limits::fill_height),
        .high = high_of(limits::fill_height), .need = N::worked_out, .standard = "height",
        .source = "chosen: filled to the brim",
        .help = "Material on the first day; at most `height`."},
    Key{.section = "vessel", .name = "wall", .form = F::word, .choices = "open|closed", .need = N::has_default,
        .standard = "open", .source = "chosen", .help = "Open: mesh and breathable cloth. Closed: no air passes."},
    Key{.section = "vessel", .name = "panel_width", .form = F::amount, .dimension = D::length, .low = from("0.3 m"),
        .high = to("4 m"), .need = N::worked_out, .standard = "height", .source = "chosen",
        .help = "Width of the mesh the cage is cut from; at least `height`."}, 

    Key{.section = "vessel.channels", .name = "diameter", .form = F::amount, .dimension = D::length,
        .low = low_of(limits::channel_diameter), .high = high_of(limits::channel_diameter), .need = N::required,
        .help = "Outside of the pipe that forms it."},
    Key{.section = "vessel.channels", .name = "count", .form = F::whole, .low = low_of(limits::channels),
        .high = high_of(limits::channels),
        .need = N::has_default, .standard = "0", .source = "chosen", .help = "How many stand evenly on a ring."},
    Key{.section = "vessel.channels", .name = "radius", .form = F::amount, .dimension = D::length,
        .low = low_of(limits::ring_radius), .high = high_of(limits::ring_radius),
        .help = "Of the ring, to the middles of its channels. Give this or `hoop`."},
    Key{.section = "vessel.channels", .name = "hoop", .form = F::amount, .dimension = D::length, .low = above("0 m"),
        .high = to("20 m"), .help = "Inside diameter of a hoop that the ring of pipes is tied into."},
    Key{.section = "vessel.channels", .name = "first_angle", .form = F::amount, .dimension = D::angle,
        .low = from("-360 deg"), .high = to("360 deg"), .need = N::has_default, .standard = "0 deg",
        .source = "chosen", .help = "Where the ring starts, anticlockwise from the x side."},
    Key{.section = "vessel.channels", .name = "centre", .form = F::flag, .need = N::has_default, .standard = "false",
        .source = "chosen", .help = "One more in the middle."},
    Key{.section = "vessel.channels", .name = "grid", .form = F::whole_pair, .low = low_of(limits::grid_lines),
        .high = high_of(limits::grid_lines),
        .help = "Rectangular vessels: so many along the length and along the width, each in the middle of its field."},
    Key{.section = "vessel.channels", .name = "at", .form = F::positions, .dimension = D::length,
        .low = low_of(limits::channel_place), .high = high_of(limits::channel_place),
        .help = "More channels at these places, x and y from the middle of the vessel."}, 

    Key{.section = "vessel.base", .name = "open", .form = F::flag, .need = N::has_default, .standard = "true",
        .source = "chosen", .help = "Slatted, with air below."},
    Key{.section = "vessel.base", .name = "gap", .form = F::amount, .dimension = D::length, .low = from("0 m"),
        .high = to("1 m"), .need = N::has_default, .standard = "100 mm", .source = "chosen",
        .help = "Free height under an open base."},
    Key{.section = "vessel.base", .name = "slats", .form = F::whole, .low = from("0"), .high = to("100"),
        .need = N::worked_out, .standard = "as many as leave gaps as wide as themselves", .source = "chosen",
        .help = "Slats laid evenly. 0: a deck or pallet that is bought, its boards not laid out here."},
    Key{.section = "vessel.base", .name = "slat_width", .form = F::amount, .dimension = D::length,
        .low = from("10 mm"), .high = to("0.5 m"), .need = N::has_default, .standard = "89 mm",
        .source = "chosen: 3 1/2 in, a common board", .help = "Width of a slat."},
    Key{.section = "vessel.base", .name = "slats_run", .form = F::word, .choices = "along|across",
        .need = N::has_default, .standard = "along", .source = "chosen",
        .help = "Along the length (x), or across it."}, 

    Key{.section = "vessel.mesh", .name = "wire", .form = F::amount, .dimension = D::length, .low = from("0.5 mm"),
        .high = to("12 mm"), .need = N::required, .help = "Diameter of the wires that run around."},
    Key{.section = "vessel.mesh", .name = "spacing", .form = F::amount, .dimension = D::length, .low = from("5 mm"),
        .high = to("0.4 m"), .need = N::required, .help = "From one such wire to the next."},
    Key{.section = "vessel.mesh", .name = "allowed_stress", .form = F::amount, .dimension = D::pressure,
        .low = from("20 MPa"), .high = to("800 MPa"), .need = N::has_default, .standard = "120 MPa",
        .source = "chosen: about half the yield of mild steel",
        .help = "Of the wire and its welds; ask the maker of the mesh."}, 

    Key{.section = "vessel.lining", .name = "flap", .form = F::amount, .dimension = D::length, .low = from("0 m"),
        .high = to("1 m"), .need = N::has_default, .standard = "6 in", .source = practice,
        .help = "Overlap of the cloth over its joint."},
    Key{.section = "vessel.lining", .name = "fold", .form = F::amount, .dimension = D::length, .low = from("0 m"),
        .high = to("0.5 m"), .need = N::has_default, .standard = "6 in", .source = practice,
        .help = "Cloth folded over at the top and at the bottom, each."}, 

    Key{.section = "water", .name = "by", .form = F::word, .choices = "line|hand", .need = N::has_default,
        .standard = "line", .source = "chosen",
        .help = "A line with holes on a timer, or can or hose by hand: then `water.line` and `water.supply` may be left "
                "out."},
    Key{.section = "water", .name = "can", .form = F::amount, .dimension = D::volume, .low = from("0.5 L"),
        .high = to("200 L"), .need = N::has_default, .standard = "10 L", .source = "chosen",
        .help = "By hand: what one can holds. With a hose, time how long it takes to fill one."},
    Key{.section = "water", .name = "application_efficiency", .form = F::amount, .dimension = D::fraction,
        .low = from("10 %"), .high = to("100 %"), .need = N::has_default, .standard = "80 %", .source = "chosen",
        .help = "Share of the water that gets into the heap."},
    Key{.section = "water", .name = "leaching", .form = F::amount, .dimension = D::fraction, .low = from("0 %"),
        .high = to("80 %"), .need = N::has_default, .standard = "10 %", .source = "chosen",
        .help = "Share of the water meant to drain and carry salts off."},
    Key{.section = "water", .name = "drinking_water", .form = F::flag, .need = N::has_default, .standard = "true",
        .source = "chosen: the careful side",
        .help = "Whether the line hangs on a drinking-water supply, which then needs a back-flow preventer."},
    Key{.section = "water", .name = "timer_step", .form = F::amount, .dimension = D::duration, .low = from("1 s"),
        .high = to("15 min"), .need = N::has_default, .standard = "1 min", .source = "chosen",
        .help = "Shortest step the timer can be set by; run times of the water programme are whole steps."},

    Key{.section = "water.line", .name = "inside_diameter", .form = F::amount, .dimension = D::length,
        .low = from("2 mm"), .high = to("100 mm"), .need = N::required, .help = "Of the pipe."},
    Key{.section = "water.line", .name = "length", .form = F::amount, .dimension = D::length, .low = from("0.2 m"),
        .high = to("200 m"), .need = N::worked_out, .standard = "once around the first vessel", .source = "chosen",
        .help = "Of the line with holes."},
    Key{.section = "water.line", .name = "hole", .form = F::amount, .dimension = D::length, .low = from("0.2 mm"),
        .high = to("10 mm"), .need = N::required, .help = "Diameter of a hole."},
    Key{.section = "water.line", .name = "spacing", .form = F::amount, .dimension = D::length, .low = from("10 mm"),
        .high = to("2 m"), .need = N::required, .help = "From hole to hole."},
    Key{.section = "water.line", .name = "discharge_coefficient", .form = F::number, .low = from("0.4"),
        .high = to("1"), .need = N::has_default, .standard = "0.62",
        .source = "sharp-edged orifice, hydraulics textbooks, from memory", .help = "Of a hole."},
    Key{.section = "water.line", .name = "roughness", .form = F::amount, .dimension = D::length, .low = from("0 mm"),
        .high = to("1 mm"), .need = N::has_default, .standard = "0.0015 mm",
        .source = "drawn tubing, Moody 1944, from memory", .help = "Of the pipe's inside."},
    Key{.section = "water.line", .name = "ring", .form = F::flag, .need = N::has_default, .standard = "false",
        .source = "chosen", .help = "Closed into a ring, so that water comes from both sides."},
    Key{.section = "water.line", .name = "sprays", .form = F::whole, .low = from("0"), .high = to("50"),
        .need = N::has_default, .standard = "0", .source = "chosen", .help = "Small sprays over the top."},
    Key{.section = "water.line", .name = "spray_flow", .form = F::amount, .dimension = D::flow,
        .low = above("0 L/min"), .high = to("60 L/min"), .help = "Of one spray; needed when there are sprays."},
    Key{.section = "water.line", .name = "spray_pressure", .form = F::amount, .dimension = D::pressure,
        .low = from("10 kPa"), .high = to("1 MPa"), .need = N::has_default, .standard = "1 bar", .source = "chosen",
        .help = "Pressure at which a spray gives that flow."},

    Key{.section = "water.supply", .name = "pressure", .form = F::amount, .dimension = D::pressure,
        .low = from("1 kPa"), .high = to("2 MPa"), .need = N::required,
        .help = "At the inlet with nothing running, after the regulator."},
    Key{.section = "water.supply", .name = "before_regulator", .form = F::amount, .dimension = D::pressure,
        .low = from("1 kPa"), .high = to("2 MPa"),
        .help = "Highest standing pressure before the regulator; at least `pressure`. Left out: to be measured."},
    Key{.section = "water.supply", .name = "flow", .form = F::amount, .dimension = D::flow, .low = above("0 L/min"),
        .high = to("1000 L/min"), .need = N::required, .help = "The most the source gives."},
    Key{.section = "water.supply", .name = "conductivity", .form = F::amount, .dimension = D::conductivity,
        .low = from("0 dS/m"), .high = to("10 dS/m"), .need = N::has_default, .standard = "0.5 dS/m",
        .source = "chosen", .help = "Salts of the water."},
};
// clang-format on

}  // namespace

std::span<const Key> vessel_keys() noexcept { return rows; }

}  // namespace stillheap::site
