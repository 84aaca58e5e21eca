#include <array>

#include "planning/site/key.hpp"

namespace stillheap::site {
namespace {

using D = Dimension;
using F = Form;
using N = Need;

// Two or three lines a key, by hand: the formatter would give every field its own line.
// clang-format off
constexpr std::array rows{
    Key{.section = "loads", .name = "pressure_ratio", .form = F::number, .low = from("0.2"), .high = to("1"),
        .need = N::has_default, .standard = "0.5",
        .source = "chosen; EN 1991-4 takes 1.1 (1 - sin phi), 0.5 at 33 degrees of inner friction",
        .help = "Sideways over downward pressure in the filling."},
    Key{.section = "loads", .name = "wall_friction", .form = F::number, .low = from("0"), .high = to("1"),
        .need = N::has_default, .standard = "0.4", .source = "chosen",
        .help = "Of the filling on the lined wall. It only lowers the value shown beside the one that is judged."},
    Key{.section = "loads", .name = "wire_safety", .form = F::number, .low = from("1"), .high = to("10"),
        .need = N::has_default, .standard = "1.5", .source = "chosen: ties and welds are weaker than the wire",
        .help = "Allowed stress over stress that is wanted in a wire of the cage."},
    Key{.section = "loads", .name = "lean", .form = F::amount, .dimension = D::fraction, .low = from("0 %"),
        .high = to("10 %"), .need = N::has_default, .standard = "2 %", .source = "chosen: one in fifty",
        .help = "How far out of plumb a vessel may stand before it is set right, sideways over up."},
    Key{.section = "loads", .name = "bearer_width", .form = F::amount, .dimension = D::length, .low = from("10 mm"),
        .high = to("1 m"), .need = N::has_default, .standard = "45 mm", .source = "chosen",
        .help = "Width of a bearer where it lies on the ground."},
    Key{.section = "loads", .name = "ground_stiffness", .form = F::amount, .dimension = D::pressure,
        .low = from("0.1 MPa"), .high = to("1000 MPa"),
        .help = "Young's modulus of the ground from a soil engineer; left out, its settling is not worked out."},

    Key{.section = "stock", .name = "for", .form = F::word, .choices = "mesh|cloth|lining|base_cloth|form|slat|board|line",
        .need = N::required,
        .help = "What is cut from it. \"cloth\": lining, base and cover together; \"lining\": cover too; "
                "\"slat\": slats and bearers of its width; \"board\": boards and posts of a closed wall."},
    Key{.section = "stock", .name = "length", .form = F::amount, .dimension = D::length, .low = from("0.1 m"),
        .high = to("500 m"), .need = N::required, .help = "Of one panel, roll, board, pipe or coil."},
    Key{.section = "stock", .name = "width", .form = F::amount, .dimension = D::length, .low = from("5 mm"),
        .high = to("20 m"),
        .help = "Of panel, roll or board, outside of a pipe; needed for mesh and cloth, elsewhere left out for any."},
    Key{.section = "stock", .name = "price", .form = F::amount, .dimension = D::money_per_piece, .low = from("0 each"),
        .help = "Of a whole one; left out, worked out by `prices`."},
    Key{.section = "stock", .name = "at_hand", .form = F::whole, .low = from("1"), .high = to("1000"),
        .help = "So many lie in the yard, cost nothing, and no more are bought; left out: bought as needed."},
    Key{.section = "stock", .name = "saw_cut", .form = F::amount, .dimension = D::length, .low = from("0 mm"),
        .high = to("20 mm"), .need = N::worked_out, .standard = "3 mm for pipes and boards, 0 for the rest",
        .source = "chosen", .help = "Lost at each cut."},
    Key{.section = "stock", .name = "by_length", .form = F::flag, .need = N::has_default, .standard = "false",
        .source = "chosen", .help = "Paid by the length taken off it, not as a whole."},
    Key{.section = "stock", .name = "compare", .form = F::flag, .need = N::has_default, .standard = "false",
        .source = "chosen", .help = "Only weighed against the others in the table of other sizes, not cut."},

    Key{.section = "supply", .name = "vessel", .form = F::text, .need = N::worked_out, .standard = "the first vessel",
        .source = "chosen", .help = "Name of the vessel that stands at every place."},
    Key{.section = "supply", .name = "wanted", .form = F::months, .dimension = D::volume, .low = from("0 m3"),
        .high = to("10000 m3"),
        .help = "Finished compost wanted in each month, half of it in each half. Give this, or a yearly volume."},
    Key{.section = "supply", .name = "wanted_a_year", .form = F::amount, .dimension = D::volume, .low = above("0 m3"),
        .high = to("100000 m3"), .need = N::worked_out, .standard = "goal.compost", .source = "site file",
        .help = "Finished compost wanted in a year, where `wanted` is left out."},
    Key{.section = "supply", .name = "by_month", .form = F::months, .dimension = D::fraction, .low = from("0 %"),
        .high = to("100 %"), .need = N::worked_out, .standard = "the same in every month", .source = "chosen",
        .help = "Shares of the yearly volume wanted in each month. Must add up to 100 % within 1 %."},
    Key{.section = "supply", .name = "places", .form = F::whole, .low = from("1"), .high = to("200"),
        .help = "Vessels the yard has room for; left out: as many as it takes."},
    Key{.section = "supply", .name = "harvest_after", .form = F::amount, .dimension = D::duration, .low = from("30 d"),
        .high = to("1000 d"), .need = N::worked_out, .standard = "the late end of the forecast's harvest window",
        .source = "chosen", .help = "From filling to harvest. Needed for a yard plan without a forecast (`sheets`)."},
    Key{.section = "supply", .name = "rest", .form = F::amount, .dimension = D::duration, .low = from("0 d"),
        .high = to("365 d"), .need = N::has_default, .standard = "7 d", .source = "chosen",
        .help = "From harvest until the place can be filled again."},
    Key{.section = "supply", .name = "yield", .form = F::amount, .dimension = D::volume, .low = above("0 m3"),
        .high = to("1000 m3"), .need = N::worked_out, .standard = "the forecast's finished volume, middle",
        .source = "chosen",
        .help = "Finished compost of one filling, less what is mixed into the next. Needed as `harvest_after`."},
    Key{.section = "supply", .name = "store", .form = F::amount, .dimension = D::duration, .low = from("0 d"),
        .high = to("1000 d"), .need = N::has_default, .standard = "180 d", .source = "chosen",
        .help = "How long finished compost may wait, kept moist and breathing."},
    Key{.section = "supply", .name = "store_room", .form = F::amount, .dimension = D::volume, .low = from("0 m3"),
        .high = to("10000 m3"), .help = "Room for finished compost that waits; left out: enough."},
    Key{.section = "supply", .name = "hours", .form = F::amount, .dimension = D::duration, .low = from("0 h"),
        .high = to("20000 h"),
        .help = "What all people together can work here in each half-month; left out: no ceiling."},
    Key{.section = "supply", .name = "hours_by_month", .form = F::months, .dimension = D::duration,
        .low = from("0 h"), .high = to("20000 h"),
        .help = "The same for each month: hours in each of its halves, instead of `hours`."},
    Key{.section = "supply", .name = "fill_in_cold", .form = F::flag, .need = N::has_default, .standard = "false",
        .source = "chosen: soaking and filling below it freeze hands, hoses and heap",
        .help = "Whether vessels are filled in half-months whose mean air is below 5 degC too."},
};
// clang-format on

}  // namespace

std::span<const Key> workshop_keys() noexcept { return rows; }

}  // namespace stillheap::site
