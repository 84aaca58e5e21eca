#include "plan/progress.hpp"

#include "base/error.hpp"

namespace stillheap::plan {

Progress part_of(const Progress& whole, double from, double to) {
  if (!whole) return [](double, const std::string&) { return true; };
  return [whole, from, to](double share, const std::string& what) { return whole(from + share * (to - from), what); };
}

void tell(const Progress& progress, double share, const std::string& what) {
  if (!progress || progress(share, what)) return;
  throw RunError("", "stopped on request", "nothing was written");
}

}  // namespace stillheap::plan
