#include "planning/fill/rotation.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::fill {

std::vector<LiftTurn> rotation_of(const vessel::Design& design, const FillPlan& fill, const material::Bath& bath,
                                  const Practice& practice) {
  std::vector<LiftTurn> turns;
  if (fill.pails <= 0 || practice.pails_a_lift <= 0) return turns;
  const int batches = fill.soak.too_wet_already ? 0 : fill.soak.batches;
  const double pails_a_batch = batches > 0 ? static_cast<double>(fill.pails) / batches : 0.0;
  const double cycle_s = bath.soak_s + bath.drain_s;
  const double pail_s = 3600.0 / (std::max(1, practice.people) * practice.pails_per_person_hour);
  constexpr double hair = 1e-9;  // of a batch: a lift that ends with a batch does not wait for the next
  double free_s = 0.0;
  for (int done = 0; done < fill.pails;) {
    LiftTurn turn;
    turn.lift = static_cast<int>(turns.size()) + 1;
    turn.pails = std::min(practice.pails_a_lift, fill.pails - done);
    if (batches > 0) {
      turn.first_batch = static_cast<int>(std::floor(done / pails_a_batch + hair)) + 1;
      turn.last_batch = std::min(batches, static_cast<int>(std::ceil((done + turn.pails) / pails_a_batch - hair)));
    }
    done += turn.pails;
    turn.pails_so_far = done;
    turn.height_m = design.fill_height_m * done / fill.pails;
    const int baths = std::max(1, practice.baths);
    turn.start_s = std::max(free_s, (turn.last_batch + baths - 1) / baths * cycle_s);
    turn.end_s = turn.start_s + turn.pails * pail_s;
    free_s = turn.end_s;
    turns.push_back(turn);
  }
  return turns;
}

}  // namespace stillheap::fill
