#include <array>

#include "site/key.hpp"

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
        .high = to("10 %"), .need = N::has_default, .standard = "2 %", .source = "chosen: 20 mm in a metre",
        .help = "How far out of plumb a vessel may stand before it is set right, sideways over up."},
    Key{.section = "loads", .name = "bearer_width", .form = F::amount, .dimension = D::length, .low = from("10 mm"),
        .high = to("1 m"), .need = N::has_default, .standard = "45 mm", .source = "chosen",
        .help = "Width of a bearer where it lies on the ground."},
    Key{.section = "loads", .name = "ground_stiffness", .form = F::amount, .dimension = D::pressure,
        .low = from("0.1 MPa"), .high = to("1000 MPa"),
        .help = "Young's modulus of the ground from a soil engineer; left out, its settling is not worked out."},

    Key{.section = "stock", .name = "for", .form = F::word, .choices = "mesh|cloth|lining|base_cloth|form|slat|line",
        .need = N::required,
        .help = "What is cut from it. \"cloth\": lining, base and cover together; \"slat\": slats and bearers of its width."},
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
};
// clang-format on

}  // namespace

std::span<const Key> workshop_keys() noexcept { return rows; }

}  // namespace stillheap::site
