#pragma once
#include <memory>
#include <optional>
#include <string>

#include "core/base/error.hpp"
#include "planning/site/site.hpp"
#include "record_options.hpp"
#include "site_path.hpp"
#include "yard/learned/learned.hpp"
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

/// How often things are due, with the water programmes of the site, which are waited for. The store must outlive it.
[[nodiscard]] inline record::Rhythm rhythm_of(const std::optional<site::Site>& site, const record::Store& store,
                                              const std::string& zone) {
  record::Rhythm rhythm;
  if (!site) return rhythm;
  const auto programmes = std::make_shared<plan::Programmes>(*site);
  const auto own = std::make_shared<yard::OwnLookup>(store.file(), programmes->site(), zone,
                                                     [&store](const auto& use) { use(store); });
  rhythm.water = yard::water_lookup(
      programmes, zone, yard::Patience::waits,
      [own](const record::Fill& fill, const vessel::Design& design) { return (*own)(fill, design); });
  return rhythm;
}

}  // namespace stillheap::app
