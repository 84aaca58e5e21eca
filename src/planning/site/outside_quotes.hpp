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

}  // namespace stillheap::site
