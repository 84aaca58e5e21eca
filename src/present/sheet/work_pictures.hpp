#pragma once
#include <functional>

#include "present/sheet/iso.hpp"

/// Small pictures of the work, all from the vessel's own measures.
namespace stillheap::sheet {

enum class Sign { none, arrow_up, turn, probe, level, shower, worms, fork };

/// What stands and lies there in one moment of the work.
struct Scene {
  bool base = true;
  bool base_cloth = false;
  double wall_share = 1.0;  ///< of the wall's height; 0: no wall yet
  bool lining = false;
  bool open_front = false;     ///< the front half of the wall taken off
  double fill_share = 0.0;     ///< of the fill height
  double forms_lift = -1.0;    ///< how far the forms are lifted, metres; below 0: no forms
  bool one_form_only = false;  ///< the other forms are out already
  bool line = false;
  bool cover = false;
  Sign sign = Sign::none;
};

using Picture = std::function<void(Canvas&, const Box&)>;

[[nodiscard]] Picture picture_of(const vessel::Design& design, const Scene& scene);
/// A bath with material soaking, and one draining above it.
[[nodiscard]] Picture bath_picture();
/// A clock's face, for the timer.
[[nodiscard]] Picture timer_picture();
/// A writing board, ticked.
[[nodiscard]] Picture notes_picture();
/// Forms lying clean in a rack.
[[nodiscard]] Picture rack_picture();
/// A sieve over a heap.
[[nodiscard]] Picture sieve_picture();

}  // namespace stillheap::sheet
