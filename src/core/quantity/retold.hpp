#pragma once
#include <string>
#include <string_view>

#include "core/quantity/quantity.hpp"

namespace stillheap::quantity {

/// A sentence with its metric amounts as this reader counts them: for the words of rules, sources and model notes,
/// which stand below the edge where units are chosen. US: "55 degC or more" -> "131 degF or more", "from 0.1 to 0.4 m"
/// -> "from 3.94 in to 15.7 in", "70 °C (158 °F)" -> "158 °F"; amounts of which the trade has no US unit ("85 s/m",
/// "400 Pa s/m") stay. Metric: the sentence as it is. Numbers without a unit of the table are never touched.
[[nodiscard]] std::string retold(std::string_view sentence, UnitSystem system);

}  // namespace stillheap::quantity
