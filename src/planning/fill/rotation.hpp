#pragma once
#include <vector>

#include "planning/fill/fill.hpp"

namespace stillheap::fill {

/// One lift of the fill in its turn. Times count from the first batch going into the bath.
struct LiftTurn {
  int lift = 0;  ///< 1 for the first
  int pails = 0;
  int pails_so_far = 0;   ///< this lift's included
  double height_m = 0.0;  ///< of the filling once the lift is spread, loose
  int first_batch = 0;    ///< soaked batches its pails come from, 1 for the first; 0: nothing is soaked
  int last_batch = 0;
  double start_s = 0.0;  ///< when the batches it needs are drained and the lift before is spread
  double end_s = 0.0;
};

/// Lift by lift, with baths that soak the next batches while the last ones are spread: a batch stays in its bath for
/// soaking and draining, and its pails can be carried after that. Batches are taken to be alike. Pace: the practice's
/// pails per person and hour. Empty when there is nothing to fill.
[[nodiscard]] std::vector<LiftTurn> rotation_of(const vessel::Design& design, const FillPlan& fill,
                                                const material::Bath& bath, const Practice& practice);

}  // namespace stillheap::fill
