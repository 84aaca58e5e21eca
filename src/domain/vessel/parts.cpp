#include "domain/vessel/parts.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

// Two cuts closer than this are the same cut.
constexpr double same_cut_m = 5e-4;

bool is_round(const Design& design) { return design.footprint == Footprint::round; }

int pieces_at_spacing(double length_m, double spacing_m) {
  return static_cast<int>(std::ceil(length_m / spacing_m - 1e-9)) + 1;
}

void add_cage(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  const double height = design.panel_width_m > 0.0 ? design.panel_width_m : design.height_m;
  const int joints = is_round(design) ? 1 : 4;
  if (is_round(design)) {
    pieces.push_back(
        {"welded wire mesh, one panel, joined edge to edge", "cage", 1, perimeter_m(design), height, 0.0, "mesh"});
  } else {
    const bool square = std::abs(design.length_m - design.width_m) < same_cut_m;
    pieces.push_back({"welded wire mesh panel", square ? "cage, all sides" : "cage, long sides", square ? 4 : 2,
                      std::max(design.length_m, design.width_m), height, 0.0, "mesh"});
    if (!square) {
      pieces.push_back({"welded wire mesh panel", "cage, short sides", 2, std::min(design.length_m, design.width_m),
                        height, 0.0, "mesh"});
    }
  }
  pieces.push_back({"wire tie", is_round(design) ? "joint of the cage" : "corners of the cage",
                    joints * pieces_at_spacing(height, allowances.tie_spacing_m), 0.0, 0.0, 0.0, "tie"});
}

void add_cloths(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  pieces.push_back({"breathable cloth, folded over at top and bottom, flap over its joint", "lining", 1,
                    perimeter_m(design) + design.lining_overlap_m, design.height_m + 2.0 * design.lining_fold_m, 0.0,
                    "lining"});
  const double more = 2.0 * allowances.cloth_beyond_m;
  const double length = (is_round(design) ? design.diameter_m : design.length_m) + more;
  const double width = (is_round(design) ? design.diameter_m : design.width_m) + more;
  const char* const base_use = design.base_open ? "on the base, cut open under each channel" : "on the base";
  pieces.push_back({"breathable cloth", base_use, 1, length, width, 0.0, "base_cloth"});
  pieces.push_back({"breathable cloth", "cover on top", 1, length, width, 0.0, "base_cloth"});
}

void add_forms(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  const std::size_t first = pieces.size();
  for (const Channel& channel : design.channels) {
    const auto same =
        std::find_if(pieces.begin() + static_cast<std::ptrdiff_t>(first), pieces.end(),
                     [&](const Piece& p) { return std::abs(p.diameter_m - channel.diameter_m) < same_cut_m; });
    if (same != pieces.end()) {
      ++same->count;
    } else {
      pieces.push_back({"smooth pipe, straight, pulled after filling", "form of a channel", 1,
                        design.height_m + allowances.form_handhold_m, 0.0, channel.diameter_m, "form"});
    }
  }
}

void add_slats(const Design& design, std::vector<Piece>& pieces) {
  const std::size_t first = pieces.size();
  for (const Slat& slat : design.slats) {
    const double length = distance_m(slat.from, slat.to);
    const auto same =
        std::find_if(pieces.begin() + static_cast<std::ptrdiff_t>(first), pieces.end(), [&](const Piece& p) {
          return std::abs(p.length_m - length) < same_cut_m && std::abs(p.width_m - slat.width_m) < same_cut_m;
        });
    if (same != pieces.end()) {
      ++same->count;
    } else {
      pieces.push_back({"slat", "base", 1, length, slat.width_m, 0.0, "slat"});
    }
  }
}

void add_base(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  if (!design.base_open) return;
  const double x = is_round(design) ? design.diameter_m : design.length_m;
  const double y = is_round(design) ? design.diameter_m : design.width_m;
  if (design.slats.empty()) {
    pieces.push_back({"slatted deck that carries the full weight, open under each channel", "base", 1, x, y, 0.0, ""});
  }
  add_slats(design, pieces);
  if (design.base_gap_m <= 0.0) return;
  // Bearers cross the slats: along y under slats that run along x.
  bool slats_along_x = true;
  if (!design.slats.empty()) {
    const Slat& slat = design.slats.front();
    slats_along_x = std::abs(slat.to.x_m - slat.from.x_m) >= std::abs(slat.to.y_m - slat.from.y_m);
  }
  pieces.push_back({"bearer, on edge, as wide as the gap under the base is high", "under the base",
                    pieces_at_spacing(slats_along_x ? x : y, allowances.bearer_spacing_m), slats_along_x ? y : x,
                    design.base_gap_m, 0.0, "slat"});
}

void add_water(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  pieces.push_back(
      {"water line with emitter holes", "around the top, inside the wall", 1, perimeter_m(design), 0.0, 0.0, "line"});
  pieces.push_back({"small spray", "over the top",
                    std::max(1, static_cast<int>(std::ceil(material_area_m2(design) / allowances.area_per_spray_m2))),
                    0.0, 0.0, 0.0, "spray"});
  pieces.push_back({"tee that closes the line into a ring", "water line", 1, 0.0, 0.0, 0.0, "fitting"});
  pieces.push_back({"shut-off valve", "water line", 1, 0.0, 0.0, 0.0, "fitting"});
}

}  // namespace

std::vector<Piece> pieces_of(const Design& design, const Allowances& allowances) {
  std::vector<Piece> pieces;
  add_cage(design, allowances, pieces);
  add_cloths(design, allowances, pieces);
  add_forms(design, allowances, pieces);
  add_base(design, allowances, pieces);
  add_water(design, allowances, pieces);
  return pieces;
}

}  // namespace stillheap::vessel
