#include "yard/state/water_due.hpp"

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "planning/water/words.hpp"
#include "yard/state/state.hpp"

namespace stillheap::yard {
namespace {

record::WaterAsked asked_of(const water::Programme& programme, date::Day day, UnitSystem units) {
  const water::Row* row = water::row_on(programme, day);
  if (row == nullptr || row->setting != water::Setting::runs) return {};
  return {row->every_days,
          std::string(programme.way.by_hand ? "water by hand: " : "sprinkle: ") + water::run_text(programme, *row) +
              ", " + water::run_water_text(*row, units),
          water::rhythm_text(*row) + " by the water programme", false};
}

/// For seconds; rather nothing than a rule of thumb meanwhile.
record::WaterAsked still_working() {
  record::WaterAsked asked;
  asked.waits = true;
  return asked;
}

}  // namespace

record::WaterLookup water_lookup(std::shared_ptr<plan::Programmes> programmes, const std::string& zone,
                                 Patience patience, OwnOf own) {
  return [programmes = std::move(programmes), zone, patience, own = std::move(own)](
             const record::VesselGlance& glance, date::Day day) -> std::optional<record::WaterAsked> {
    const site::Site& site = programmes->site();
    const vessel::Design* design = design_of(glance.vessel, &site);
    if (design == nullptr || !glance.fill) return std::nullopt;
    try {
      const plan::Filling filling{date::to_iso(record::local_day(glance.fill->filled_at, zone)),
                                  glance.fill->moisture_wet,
                                  own ? own(*glance.fill, *design) : forecast::OwnReadings{}};
      const water::Programme* programme =
          patience == Patience::waits ? &programmes->of(*design, filling) : programmes->ready(*design, filling);
      if (programme == nullptr) return still_working();
      return asked_of(*programme, day, site.units);
    } catch (const Error&) {
      return std::nullopt;  // a site that cannot be planned must not hide what else is due
    }
  };
}

}  // namespace stillheap::yard
