#pragma once
#include <string>
#include <string_view>
#include <vector>

/// Comma-separated values by RFC 4180, safe to open in a spreadsheet.
namespace stillheap::csv {

/// One cell of text. Quoted when it holds a comma, a quote or a line break; a cell that a spreadsheet would run
/// as a formula (first character = + - @, tab or carriage return) and that is no number gets an apostrophe first.
[[nodiscard]] std::string cell(std::string_view text);

/// A number with up to 10 significant digits, point as decimal sign; empty when not finite.
[[nodiscard]] std::string cell(double value);

/// Cells joined into one line, with its line end (CRLF as the RFC asks).
[[nodiscard]] std::string row(const std::vector<std::string>& cells);

}  // namespace stillheap::csv
