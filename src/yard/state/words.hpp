#pragma once
#include <string>

#include "core/quantity/quantity.hpp"
#include "yard/insight/phrase.hpp"
#include "yard/record/moment.hpp"

/// The edge where a statement's numbers get the reader's units and its moments the reader's clock.
namespace stillheap::yard {

struct Reader {
  UnitSystem units = UnitSystem::metric;
  std::string zone = "UTC";
};

/// "core: 72 degC, 2026-05-03 16:05" for a fill of that moment. Shares are written in percent.
[[nodiscard]] std::string words(const insight::Phrase& phrase, const Reader& reader, record::Instant filled_at);

}  // namespace stillheap::yard
