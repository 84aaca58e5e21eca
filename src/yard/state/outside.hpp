#pragma once
#include "planning/site/site.hpp"
#include "yard/insight/outside.hpp"
#include "yard/record/moment.hpp"

namespace stillheap::yard {

/// The weather of the site file as a heap without heat of its own follows it: a first-order lag of 7 days behind the
/// daily mean of the outside air. Chosen: out through 0.6 m conduction alone takes about 9 days (R^2 / (5.8 k / C), k
/// and C as in near_probe_m), moving air shortens it. The site's normals stand for the days themselves. Empty without a
/// site or when its weather cannot be read.
[[nodiscard]] insight::Outside outside_of(const site::Site* site, record::Instant filled_at, record::Instant at);

}  // namespace stillheap::yard
