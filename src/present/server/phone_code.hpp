#pragma once
#include <string>

namespace stillheap::server {

/// An address as a QR code for a terminal: two rows of modules a line, black on white by the terminal's own codes
/// whatever its colours, with the four white modules around it that cameras want. Empty when the text is too long.
[[nodiscard]] std::string phone_code(const std::string& address);

}  // namespace stillheap::server
