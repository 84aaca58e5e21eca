#pragma once
#include <string>
#include <string_view>

namespace stillheap {

/// What a terminal may show of a text that came from a file: line ends stay; other control signs, which could move the
/// cursor or change the window's title, and bytes that are no UTF-8 come as "\\x1b". Cut after `most` bytes.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = 20000);

}  // namespace stillheap
