#include "core/base/delimited.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>

namespace stillheap {
namespace {

/// Reads a quoted field whose opening quote is at `at`; leaves `at` behind the closing one.
std::optional<std::string> quoted(std::string_view line, std::size_t& at) {
  std::string field;
  for (++at; at < line.size(); ++at) {
    if (line[at] != '"') {
      field += line[at];
    } else if (at + 1 < line.size() && line[at + 1] == '"') {
      field += '"';
      ++at;
    } else {
      ++at;
      return field;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const std::string_view blanks = " \t\r";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::optional<std::vector<std::string>> split_record(std::string_view line, char delimiter) {
  std::vector<std::string> fields;
  std::size_t at = 0;
  while (true) {
    const std::size_t start = std::min(line.find_first_not_of(' ', at), line.size());
    if (start < line.size() && line[start] == '"') {
      at = start;
      std::optional<std::string> field = quoted(line, at);
      if (!field) return std::nullopt;
      at = std::min(line.find_first_not_of(" \r", at), line.size());
      if (at < line.size() && line[at] != delimiter) return std::nullopt;
      fields.push_back(std::move(*field));
    } else {
      const std::size_t end = std::min(line.find(delimiter, at), line.size());
      fields.emplace_back(trimmed(line.substr(at, end - at)));
      at = end;
    }
    if (at >= line.size()) return fields;
    ++at;
  }
}

char delimiter_of(std::string_view header) {
  char best = ',';
  std::ptrdiff_t most = 0;
  for (const char candidate : {',', ';', '\t'}) {
    bool inside = false;
    std::ptrdiff_t count = 0;
    for (const char c : header) {
      if (c == '"') inside = !inside;
      if (c == candidate && !inside) ++count;
    }
    if (count > most) {
      most = count;
      best = candidate;
    }
  }
  return best;
}

std::optional<double> number_of(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0.0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc{} || result.ptr != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::vector<std::string> lines_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in || std::filesystem::is_directory(file)) {
    throw InputError(file.string(), "cannot be read", "give the path of a readable file");
  }
  std::vector<std::string> lines;
  std::string line;
  while (std::getline(in, line)) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (lines.empty() && line.starts_with("\xEF\xBB\xBF")) line.erase(0, 3);
    lines.push_back(line);
  }
  return lines;
}

void FileProblems::add(std::size_t line, std::string_view field, std::string what, std::string mend) {
  ++count_;
  if (kept_.size() >= most) return;
  std::string where = file_;
  if (line > 0) where.append(":").append(std::to_string(line));
  if (!field.empty()) where.append(": ").append(field);
  kept_.push_back({std::move(where), std::move(what), std::move(mend)});
}

void FileProblems::throw_if_any() const {
  if (count_ == 0) return;
  std::vector<Problem> problems = kept_;
  if (count_ > kept_.size()) {
    problems.push_back(
        {file_, std::to_string(count_ - kept_.size()) + " more problems are not shown", "mend these first"});
  }
  throw InputError(std::move(problems));
}

}  // namespace stillheap
