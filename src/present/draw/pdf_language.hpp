#pragma once
#include <string>
#include <string_view>

namespace stillheap::sheet {

/// A PDF as cairo writes it, with an update at its end (ISO 32000-1, 7.5.6) that names the language of its text (RFC
/// 3066 tag, 14.9.2) and, where it has a title, lets viewers show that instead of the file's name (12.2): what readers
/// that read aloud need and cairo 1.16 has no call for. The same text where it is built otherwise.
[[nodiscard]] std::string with_language(std::string pdf, std::string_view language);

}  // namespace stillheap::sheet
