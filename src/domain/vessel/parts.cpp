#include "domain/vessel/parts.hpp"

#include <algorithm>
#include <cmath>

#include "domain/vessel/base.hpp"

namespace stillheap::vessel {
namespace {

// Two cuts closer than this are the same cut.
constexpr double same_cut_m = 5e-4;

bool is_round(const Design& design) { return design.footprint == Footprint::round; }

void add_mesh(const Development& flat, bool round, std::vector<Piece>& pieces) {
  for (std::size_t i = 0; i < flat.panels.size(); ++i) {
    const FlatPanel& panel = flat.panels[i];
    const char* const use = round              ? "cage"
                            : panel.count == 4 ? "cage, all sides"
                            : i == 0           ? "cage, long sides"
                                               : "cage, short sides";
    pieces.push_back({round ? "welded wire mesh, one panel, joined edge to edge" : "welded wire mesh panel", use,
                      panel.count, panel.length_m, panel.height_m, 0.0, "mesh"});
  }
  pieces.push_back({"wire tie", round ? "joint of the cage" : "corners of the cage",
                    flat.joints * static_cast<int>(flat.tie_heights_m.size()), 0.0, 0.0, 0.0, "tie"});
}

void add_boards(const Development& flat, std::vector<Piece>& pieces) {
  for (std::size_t i = 0; i < flat.panels.size(); ++i) {
    const FlatPanel& panel = flat.panels[i];
    const char* const use = panel.count == 4 ? "wall, all sides" : i == 0 ? "wall, long sides" : "wall, short sides";
    pieces.push_back(
        {"board of the wall", use, panel.count * flat.boards_a_side, panel.length_m, flat.board_m, 0.0, "board"});
  }
  pieces.push_back({"post, upright outside the boards, on firm ground", "wall, corners and between", flat.posts,
                    flat.post_length_m, 0.0, 0.0, "board"});
}

void add_cage(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  const Development flat = development_of(design, allowances);
  if (design.wall == Wall::open) {
    add_mesh(flat, is_round(design), pieces);
  } else if (is_round(design)) {
    pieces.push_back({"stiff tight sheet, bent round and joined, or a tank without floor", "wall", 1,
                      flat.panels.front().length_m, flat.panels.front().height_m, 0.0, ""});
  } else {
    add_boards(flat, pieces);
  }
}

void add_cloths(const Design& design, const Allowances& allowances, std::vector<Piece>& pieces) {
  const Development flat = development_of(design, allowances);
  if (flat.lining_length_m > 0.0) {
    pieces.push_back({"breathable cloth, folded over at top and bottom, flap over its joint", "lining", 1,
                      flat.lining_length_m, flat.lining_height_m, 0.0, "lining"});
  }
  const double more = 2.0 * allowances.cloth_beyond_m;
  const double length = (is_round(design) ? design.diameter_m : design.length_m) + more;
  const double width = (is_round(design) ? design.diameter_m : design.width_m) + more;
  const char* const base_use = design.base_open ? "on the base, cut open under each channel" : "on the base";
  pieces.push_back({"breathable cloth", base_use, 1, length, width, 0.0, "base_cloth"});
  pieces.push_back({"breathable cloth", "cover on top", 1, length, width, 0.0, "lining"});
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
                        form_length_m(design, allowances), 0.0, channel.diameter_m, "form"});
    }
  }
}

/// Adds one of a cut size to those already there from `first` on.
void add_cut(const Piece& piece, std::size_t first, std::vector<Piece>& pieces) {
  const auto same =
      std::find_if(pieces.begin() + static_cast<std::ptrdiff_t>(first), pieces.end(), [&](const Piece& p) {
        return p.what == piece.what && std::abs(p.length_m - piece.length_m) < same_cut_m &&
               std::abs(p.width_m - piece.width_m) < same_cut_m &&
               std::abs(p.diameter_m - piece.diameter_m) < same_cut_m;
      });
  if (same != pieces.end()) {
    ++same->count;
  } else {
    pieces.push_back(piece);
  }
}

/// What stands under the channels: seats where the slats alone would not do, and a stop for each form.
void add_under_channels(const Design& design, std::vector<Piece>& pieces) {
  const std::size_t first = pieces.size();
  for (const Seat& seat : seats_of(design)) {
    add_cut({"seat board with the form's hole, rot-resistant, screwed under the slats", "under a channel", 1,
             std::max(seat.board.width_m(), seat.board.height_m()),
             std::min(seat.board.width_m(), seat.board.height_m()), 0.0, ""},
            first, pieces);
  }
  for (const Channel& channel : design.channels) {
    add_cut({"galvanised rod, stapled across a hole under the deck", "stop of a form", 1,
             channel.diameter_m + 2.0 * stop_rod_beyond_m, 0.0, stop_rod_m, ""},
            first, pieces);
  }
}

void add_base(const Design& design, std::vector<Piece>& pieces) {
  if (!design.base_open) return;
  if (design.slats.empty()) {
    pieces.push_back({"slatted deck that carries the full weight, open under each channel", "base", 1,
                      is_round(design) ? design.diameter_m : design.length_m,
                      is_round(design) ? design.diameter_m : design.width_m, 0.0, ""});
  }
  const std::size_t slats = pieces.size();
  for (const Slat& slat : design.slats) {
    add_cut({"slat", "base", 1, distance_m(slat.from, slat.to), slat.width_m, 0.0, "slat"}, slats, pieces);
  }
  const std::size_t bearers = pieces.size();
  for (const Slat& bearer : design.bearers) {
    add_cut({"bearer, on edge, as wide as the gap under the base is high", "under the base", 1,
             distance_m(bearer.from, bearer.to), design.base_gap_m, 0.0, "slat"},
            bearers, pieces);
  }
  add_under_channels(design, pieces);
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
  add_base(design, pieces);
  add_water(design, allowances, pieces);
  return pieces;
}

}  // namespace stillheap::vessel
