#pragma once
#include <string>
#include <vector>

#include "draw.hpp"
#include "model/forecast/result.hpp"

namespace stillheap::sweep {

enum class End { finished, stopped, refused };

/// How one case went.
struct Verdict {
  End end = End::finished;
  std::string reason;               ///< of a stop or refusal, days and numbers taken out
  std::vector<std::string> faults;  ///< empty: as it should be
  forecast::Conservation worst;     ///< of all days
  double hottest_c = -300.0, coldest_c = 300.0;
  double below_air_k = 0.0;    ///< how far a cell came below the coldest air of the run
  double above_floor_k = 0.0;  ///< least distance from the physical floor, see floor_c
  double cpu_s = 0.0;
  int cells = 0, steps = 0;
};

/// The coldest that material can get, degC: the colder, over all weather of the run, of the wet bulb and of what a
/// face radiates itself down to under the sky; not above the coldest air or the filling. A wet face in wind nears the
/// first, a dry one in still air the second; with both at work it lies between them, for each pulls towards its own.
[[nodiscard]] double floor_c(const forecast::Request& request);

/// Runs a case step by step and looks at every cell after every step.
[[nodiscard]] Verdict judge(const Case& one);

}  // namespace stillheap::sweep
