#pragma once
#include <string>
#include <vector>

#include "domain/vessel/design.hpp"

namespace stillheap::vessel {

/// A line of the shopping list or cut list. Lengths in metres; unused ones are 0.
struct Piece {
  std::string what;  ///< generic description: "welded wire mesh, cut to a panel"
  std::string use;   ///< "cage"
  int count = 0;     ///< for one vessel
  double length_m = 0.0;
  double width_m = 0.0;
  double diameter_m = 0.0;
  std::string price_key;  ///< which price of the site file values it: mesh, lining, base_cloth, form, slat,
                          ///< board, tie, line, spray, fitting; empty: none
};

/// Allowances of the cut list. Common practice without source, or chosen.
struct Allowances {
  double cloth_beyond_m = 0.305;   ///< base and cover cloth reach this far past the wall: a foot
  double form_handhold_m = 0.3;    ///< forms stand this far above the brim, to be pulled (chosen)
  double tie_spacing_m = 0.15;     ///< of mesh ties along a joint (chosen)
  double wall_board_m = 0.15;      ///< width of a board of a closed straight wall (chosen)
  double post_spacing_m = 0.8;     ///< at most, between its posts; designed locally for the push (chosen)
  double area_per_spray_m2 = 0.3;  ///< of the top a small spray wets (chosen: three or four over 1.2 m)
};

/// Everything one vessel is made of, cut sizes included. Round cages are one panel, joined edge to edge;
/// rectangular ones two long and two short panels tied at four corners; both as high as the brim. A closed straight
/// wall is boards on posts instead, without ties and lining; a closed round one a stiff sheet without a price. Bearers
/// are those of the design (base.hpp). A vessel over an open base whose slats are not laid out gets one line for the
/// deck as a whole, without a price.
[[nodiscard]] std::vector<Piece> pieces_of(const Design& design, const Allowances& allowances = {});

}  // namespace stillheap::vessel
