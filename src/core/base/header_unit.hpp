#pragma once
#include <string>
#include <string_view>

namespace stillheap {

/// What a column's header may say its unit is: the text in brackets or parentheses at its end, else what stands behind
/// its last blank or underscore: "Tair [degF]", "Core (degF)", "core_degF". Empty when there is none. Whether that text
/// is a unit is the caller's to find out. A single letter counts in brackets only: "Sensor F" may be the sixth.
[[nodiscard]] std::string header_unit(std::string_view header);

}  // namespace stillheap
