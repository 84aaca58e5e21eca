#include "planning/supply/places.hpp"

namespace stillheap::supply {
std::vector<Stay> stays_of(const Wish& wish, const YardPlan& plan, int first_part) {
  const Lags lags = lags_of(wish);
  const int n = parts(wish.year);
  std::vector<Stay> year;
  for (int ahead = 0; ahead < n; ++ahead) {
    const int part = part_after(wish.year, first_part, ahead);
    for (int k = 0; k < plan.fills[part]; ++k)
      year.push_back({0, ahead, ahead + lags.harvest[part], ahead + lags.free[part], 0});
  }
  if (year.empty()) return year;
  int years_back = 0;
  for (const Stay& one : year) years_back = std::max(years_back, (one.free - one.fill) / n + 1);
  std::vector<Stay> stays;
  const int count = static_cast<int>(year.size());
  for (int back = -years_back; back <= 0; ++back) {
    for (int k = 0; k < count; ++k) {
      Stay one = year[k];
      one.year = back;
      for (int* part : {&one.fill, &one.harvest, &one.free}) *part += back * n;
      const int turn = back * count + k;
      one.place = (turn % plan.places + plan.places) % plan.places;
      if (one.free > 0) stays.push_back(one);
    }
  }
  return stays;
}

}  // namespace stillheap::supply
