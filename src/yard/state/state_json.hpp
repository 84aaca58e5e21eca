#pragma once
#include <nlohmann/json_fwd.hpp>

#include "yard/state/state.hpp"
#include "yard/state/today.hpp"
#include "yard/state/words.hpp"

/// States and tasks as JSON: sentences in the reader's units and zone, numbers in SI, moments in UTC.
namespace stillheap::yard {

/// {"id", "weight", "text", "reading", "rule", "source", "next", "caution", "at"}
[[nodiscard]] nlohmann::json to_json(const insight::Statement& statement, const Reader& reader,
                                     record::Instant filled_at);

/// {"phase", "alerts", "hygiene", "worms", "harvest", "tests", "salt"}
[[nodiscard]] nlohmann::json to_json(const VesselState& state, const Reader& reader);

/// {"weight", "vessel", "fill", "id", "what", "why", "rule", "source", "caution", "since", "entry"}
[[nodiscard]] nlohmann::json to_json(const Task& task);

}  // namespace stillheap::yard
