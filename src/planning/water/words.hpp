#pragma once
#include <string>

#include "core/quantity/quantity.hpp"
#include "planning/water/programme.hpp"

/// The water programme in words, the same on every sheet, list and page.
namespace stillheap::water {

/// What is set on the timer or carried in one run: "3 min", "1 min 30 s", "2 cans"; "off" or "none" without runs.
[[nodiscard]] std::string run_text(const Programme& programme, const Row& row);

/// "daily", "every 3 days"; without runs the reason: "none: frost".
[[nodiscard]] std::string rhythm_text(const Row& row);

/// What one run lets out, to two digits: nobody measures it closer. "10 L"
[[nodiscard]] std::string run_water_text(const Row& row, UnitSystem units);

/// Both in one: "3 min every 2 days, 12 L a run", or the reason why there is none.
[[nodiscard]] std::string setting_text(const Programme& programme, const Row& row, UnitSystem units);

}  // namespace stillheap::water
