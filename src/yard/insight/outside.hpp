#pragma once
#include <optional>
#include <vector>

#include "domain/rules/self_heating.hpp"

namespace stillheap::insight {

/// What is known of the weather a heap stands in. Empty: nothing, and rules that need it fall back or stay silent.
struct Outside {
  /// A heap without heat of its own, one a day since filling: the outside air as slowly as a heap follows it.
  std::vector<rules::HeatDay> twin;
  std::optional<double> today_c;          ///< daily mean
  std::optional<double> coldest_ahead_c;  ///< coldest daily mean of the next `rules::worms::frost_free_days`
};

}  // namespace stillheap::insight
