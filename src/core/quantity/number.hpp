#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillheap::quantity {

/// A number and the unit text behind it, as written: {12, "ft"}.
struct WrittenPart {
  double number = 0.0;
  std::string unit;
};

/// One spelling for signs that have several: "°C" -> "degC", "m³" -> "m3", runs of blanks -> one blank.
[[nodiscard]] std::string plain_spelling(std::string_view text);

/// Cuts "12 ft 6 1/2 in" into {12, "ft"}, {6.5, "in"}. A sign is read before the first number only.
/// Nothing when the text does not follow that pattern. Expects plain_spelling.
[[nodiscard]] std::optional<std::vector<WrittenPart>> split_parts(std::string_view text);

}  // namespace stillheap::quantity
