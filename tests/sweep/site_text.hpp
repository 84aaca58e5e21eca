#pragma once
#include <string>

#include "dice.hpp"

namespace stillheap::sweep {

/// A random site file. Each value lies in its own range; together they may clash, and the reader then refuses it.
[[nodiscard]] std::string site_text(Dice& dice);

}  // namespace stillheap::sweep
