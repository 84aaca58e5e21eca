#pragma once
#include <functional>
#include <memory>

#include "planning/plan/programmes.hpp"
#include "yard/record/due.hpp"

namespace stillheap::yard {

/// Whether an answer may take a draft forecast.
enum class Patience {
  waits,  ///< seconds, for each programme that nobody asked for yet
  none    ///< meanwhile nothing is asked
};

/// What the readings of a fill taught, for its own programme (learned/learned.hpp).
using OwnOf = std::function<forecast::OwnReadings(const record::Fill& fill, const vessel::Design& design)>;

/// What the water programmes of a site ask of each vessel of the record. A vessel without a design of the site gets no
/// answer, nor does a site that cannot be planned. `programmes` is kept and asked only for vessels that hold a fill.
[[nodiscard]] record::WaterLookup water_lookup(std::shared_ptr<plan::Programmes> programmes, const std::string& zone,
                                               Patience patience, OwnOf own = {});

}  // namespace stillheap::yard
