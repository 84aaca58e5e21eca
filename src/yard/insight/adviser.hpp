#pragma once
#include <optional>
#include <string>
#include <vector>

#include "yard/insight/readiness.hpp"

/// One voice: what is most pressing speaks, and silences what would fight it.
namespace stillheap::insight {

/// All that would be said of a heap at one moment.
struct Advice {
  std::vector<Statement> alerts;  ///< most pressing first
  Readiness worms, harvest;
  std::optional<std::string> no_sprinkling;  ///< why the day's sprinkling is not asked for
  bool hands_off = false;                    ///< a danger: no other work at the heap is asked for
};

/// Settles it. Fire silences all other work; of water, the most pressing alert alone says more or less (fire, soaked,
/// uneven, dry, too hot, short of air, in this order); worms wait while any of these stands, the harvest while it is
/// too hot; and nothing asks for water while it is frozen, but a fire does.
void settle(Advice& advice, bool frozen);

}  // namespace stillheap::insight
