#include "planning/plan/progress.hpp"

namespace stillheap::plan {

Progress part_of(const Progress& whole, double from, double to) {
  if (!whole) return [](double, const std::string&) { return true; };
  return [whole, from, to](double share, const std::string& what) { return whole(from + share * (to - from), what); };
}

bool tell(const Progress& progress, double share, const std::string& what) {
  return !progress || progress(share, what);
}

}  // namespace stillheap::plan
