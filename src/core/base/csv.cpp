#include "core/base/csv.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>

namespace stillheap::csv {
namespace {

bool is_number(std::string_view text) {
  double value = 0.0;
  // from_chars knows no plus sign, and neither "+1" nor "+SUM(1)" should pass as a number then.
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() && std::isfinite(value);
}

bool may_run_as_formula(std::string_view text) {
  return !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos && !is_number(text);
}

}  // namespace

std::string cell(std::string_view text) {
  std::string safe = may_run_as_formula(text) ? "'" : "";
  safe += text;
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char c : safe) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string cell(double value) {
  if (!std::isfinite(value)) return "";
  char text[40];
  std::snprintf(text, sizeof text, "%.10g", value);
  return text;
}

std::string row(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += ',';
    line += cells[i];
  }
  return line + "\r\n";
}

}  // namespace stillheap::csv
