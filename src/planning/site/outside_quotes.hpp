#pragma once
#include <optional>
#include <string_view>

namespace stillheap::site {

/// The first sign beyond ASCII that stands neither in quotes nor in a comment of a TOML text: none may. The TOML
/// library (3.3) asks such a sign whether it is white space in a way that the language does not define, so it must not
/// see it.
struct StraySign {
  int line = 1;
  std::string_view sign;  ///< its bytes in UTF-8
};
[[nodiscard]] std::optional<StraySign> find_stray_sign(std::string_view text) noexcept;

inline constexpr int most_levels = 16;  ///< chosen: a site file needs four

/// Where names or brackets are nested deeper than `most_levels`; the reader of TOML would follow them by
/// recursion. Outside quotes and remarks: dots that join the parts of one key, and brackets that are open at once. The
/// line from 1; nothing when all is flat enough.
[[nodiscard]] std::optional<int> find_too_deep(std::string_view text) noexcept;

}  // namespace stillheap::site
