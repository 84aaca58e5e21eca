#pragma once
#include <limits>
#include <string>
#include <vector>

#include "planning/supply/year.hpp"

namespace stillheap::supply {

/// A raw material with a season. Materials without one are taken to be there whenever they are wanted.
struct Season {
  std::string id;
  std::string name;
  double per_fill_m3 = 0.0;       ///< loose, as delivered, that one filling takes
  std::vector<double> arises_m3;  ///< in each part of the year
  double keeps_days = 0.0;        ///< how long it may lie before it is filled in; 0: only in the part it arises in
};

/// Work at one vessel that falls some days after its filling; all people's hours together.
struct Job {
  std::string what;
  double after_days = 0.0;
  double hours = 0.0;
};

struct Work {
  std::vector<Job> jobs;
  double harvest_hours = 0.0;
  double daily_hours = 0.0;  ///< at each vessel from filling to harvest, every day
};

/// What is asked of the yard in a year that is like the one before and the one after. Lists hold one value a part.
struct Wish {
  Year year = half_months();
  std::vector<double> wanted_m3;
  double yield_m3 = 0.0;      ///< finished compost of one filling
  double harvest_days = 0.0;  ///< from filling to harvest
  double rest_days = 0.0;     ///< from harvest until the place may be filled again
  std::vector<bool> may_fill;
  int most_places = 0;                                        ///< 0: as many as it takes
  double store_days = 0.0;                                    ///< how long finished compost may wait
  double store_m3 = std::numeric_limits<double>::infinity();  ///< room for what waits at the end of a part
  std::vector<Season> seasons;
  std::vector<double> most_hours;  ///< of all people; empty: no ceiling
  Work work;
};

/// Parts from a filling to its harvest, to the place's next filling, and how long its compost may wait; for a filling
/// (a harvest) of each part.
struct Lags {
  std::vector<int> harvest, free, store;
};
[[nodiscard]] Lags lags_of(const Wish& wish);

/// Throws InputError (where = "yard plan") when lists do not fit the year or an amount is not a number or below
/// nothing.
void check(const Wish& wish);

}  // namespace stillheap::supply
