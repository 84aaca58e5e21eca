#pragma once
#include <memory>
#include <optional>
#include <string>

#include "core/base/error.hpp"
#include "planning/site/site.hpp"
#include "record_options.hpp"
#include "site_path.hpp"
#include "yard/state/water_due.hpp"

namespace stillheap::app {

/// The site of a yard; nothing while its file cannot be read: a slip in it must not hide what the readings say.
[[nodiscard]] inline std::optional<site::Site> site_of(const RecordOptions& options) {
  try {
    return site::read_site(site_file(options.site));
  } catch (const Error&) {
    return std::nullopt;
  }
}

[[nodiscard]] inline UnitSystem units_of(const std::optional<site::Site>& site) {
  return site ? site->units : UnitSystem::metric;
}

/// How often things are due, with the water programmes of the site, which are waited for.
[[nodiscard]] inline record::Rhythm rhythm_of(const std::optional<site::Site>& site, const std::string& zone) {
  record::Rhythm rhythm;
  if (site) rhythm.water = yard::water_lookup(std::make_shared<plan::Programmes>(*site), zone, yard::Patience::waits);
  return rhythm;
}

}  // namespace stillheap::app
