#pragma once
#include <array>
#include <optional>

#include "planning/site/site.hpp"
#include "yard/insight/outside.hpp"
#include "yard/record/moment.hpp"

namespace stillheap::yard {

/// Daily mean of the outside air through the year of the site's weather, degC.
using AirOfYear = std::array<double, 365>;

/// What stands round the heaps: the site file, and its air worked out once for all of them, which takes far longer than
/// a state does. Needs the site to live on.
struct Setting {
  /// Without a site, or when its weather cannot be read, without air; `check` tells what is wrong with it.
  Setting(const site::Site* the_site);  // NOLINT(google-explicit-constructor): a site is a setting
  const site::Site* site = nullptr;
  std::optional<AirOfYear> air_c;
};

/// The weather of the site file as a heap without heat of its own follows it: a first-order lag of 7 days behind the
/// daily mean of the outside air. Chosen: out through 0.6 m conduction alone takes about 9 days (R^2 / (5.8 k / C), k
/// and C as in near_probe_m), moving air shortens it. The site's normals stand for the days themselves. Empty without
/// air.
[[nodiscard]] insight::Outside outside_of(const Setting& setting, record::Instant filled_at, record::Instant at);

}  // namespace stillheap::yard
