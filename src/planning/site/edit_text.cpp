#include "planning/site/edit_text.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "planning/site/parse_toml.hpp"

namespace stillheap::site {
namespace {

using Lines = std::vector<std::string>;

Lines lines_of(const std::string& text) {
  Lines lines;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t end = text.find('\n', from);
    lines.push_back(text.substr(from, end == std::string::npos ? std::string::npos : end - from));
    if (end == std::string::npos) break;
    from = end + 1;
  }
  return lines;
}

std::string text_of(const Lines& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) text += (i == 0 ? "" : "\n") + lines[i];
  return text;
}

/// Byte at which the column begins; columns count characters from 1.
std::size_t byte_of(const std::string& line, std::size_t column) {
  std::size_t byte = 0;
  for (std::size_t at = 1; at < column && byte < line.size(); ++at) {
    ++byte;
    while (byte < line.size() && (static_cast<unsigned char>(line[byte]) & 0xC0U) == 0x80U) ++byte;
  }
  return byte;
}

toml::table* block_in(toml::table& root, const std::string& top, const std::string& block) {
  if (toml::table* table = root.get_as<toml::table>(top)) return table;
  toml::array* all = root.get_as<toml::array>(top);
  if (all == nullptr) return nullptr;
  for (toml::node& one : *all) {
    toml::table* table = one.as_table();
    if (table != nullptr && (block.empty() || table->at_path("name").value_or(std::string{}) == block)) return table;
  }
  return nullptr;
}

void replace(Lines& lines, const toml::source_region& where, const std::string& value) {
  std::string& first = lines.at(where.begin.line - 1);
  const std::string& last = lines.at(where.end.line - 1);
  const std::string after = last.substr(byte_of(last, where.end.column));
  first = first.substr(0, byte_of(first, where.begin.column)) + value + after;
  lines.erase(lines.begin() + where.begin.line, lines.begin() + where.end.line);
}

void comment_out(Lines& lines, const toml::source_region& where) {
  for (std::size_t line = where.begin.line; line <= where.end.line; ++line) {
    lines.at(line - 1) = "# " + lines.at(line - 1);
  }
}

bool is_heading(const std::string& line) {
  const std::size_t at = line.find_first_not_of(" \t");
  return at != std::string::npos && line[at] == '[';
}

void insert(Lines& lines, std::size_t after, const std::string& line) {
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(std::min(after, lines.size())), line);
}

/// A section of its own behind the one whose heading stands in `line`; at the end when that has none.
void add_section(Lines& lines, std::size_t line, const Edit& edit) {
  std::size_t at = line;
  while (at < lines.size() && !is_heading(lines[at])) ++at;
  while (at > line && at > 0 && lines[at - 1].empty()) --at;
  insert(lines, at, "");
  insert(lines, at + 1, '[' + edit.section + ']');
  insert(lines, at + 2, edit.key + " = " + *edit.value);
}

void make(Lines& lines, const Edit& edit, const std::filesystem::path& file) {
  toml::table root = parse_toml(file, text_of(lines));
  const std::size_t point = edit.section.find('.');
  toml::table* top = block_in(root, edit.section.substr(0, point), edit.block);
  toml::table* table = top;
  if (top != nullptr && point != std::string::npos) table = top->get_as<toml::table>(edit.section.substr(point + 1));
  const toml::node* node = table == nullptr ? nullptr : table->get(edit.key);
  if (node != nullptr)
    return edit.value ? replace(lines, node->source(), *edit.value) : comment_out(lines, node->source());
  if (!edit.value) return;
  if (table != nullptr) return insert(lines, table->source().begin.line, edit.key + " = " + *edit.value);
  if (!edit.block.empty() && top == nullptr) {
    throw InputError(file.string(), "has no " + edit.section + " with the name \"" + edit.block + "\"",
                     "it may have been changed meanwhile: look at it and start the server again");
  }
  add_section(lines, top == nullptr ? lines.size() : top->source().begin.line, edit);
}

}  // namespace

std::string edited(std::string text, std::span<const Edit> edits, const std::filesystem::path& file) {
  Lines lines = lines_of(text);
  for (const Edit& one : edits) make(lines, one, file);
  return text_of(lines);
}

std::string with_blocks(const std::string& text, const std::string& section, std::span<const std::string> blocks,
                        const std::filesystem::path& file) {
  toml::table root = parse_toml(file, text);
  const toml::array* all = root.get_as<toml::array>(section);
  const toml::table* first = all == nullptr ? nullptr : all->get_as<toml::table>(0);
  const toml::table* last = all == nullptr ? nullptr : all->get_as<toml::table>(all->size() - 1);
  if (first == nullptr || last == nullptr) {
    throw InputError(file.string(), "has no [[" + section + "]]", "write one in the site file");
  }
  std::size_t end = last->source().begin.line;
  for (const auto& [key, node] : *last) end = std::max<std::size_t>(end, node.source().end.line);
  const Lines lines = lines_of(text);
  const auto at = [&](std::size_t line) { return lines.begin() + static_cast<std::ptrdiff_t>(line); };
  Lines made(lines.begin(), at(first->source().begin.line - 1));
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (i > 0) made.emplace_back();
    made.push_back("[[" + section + "]]");
    const Lines body = lines_of(blocks[i]);
    made.insert(made.end(), body.begin(), body.end());
  }
  made.insert(made.end(), at(end), lines.end());
  return text_of(made);
}

std::vector<DiffLine> differing_lines(const std::string& before, const std::string& after) {
  const Lines a = lines_of(before);
  const Lines b = lines_of(after);
  // longest common subsequence, from the end
  std::vector<std::vector<std::size_t>> common(a.size() + 1, std::vector<std::size_t>(b.size() + 1, 0));
  for (std::size_t i = a.size(); i-- > 0;) {
    for (std::size_t j = b.size(); j-- > 0;) {
      common[i][j] = a[i] == b[j] ? common[i + 1][j + 1] + 1 : std::max(common[i + 1][j], common[i][j + 1]);
    }
  }
  std::vector<DiffLine> found;
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < a.size() || j < b.size()) {
    if (i < a.size() && j < b.size() && a[i] == b[j]) {
      ++i, ++j;
    } else if (i < a.size() && (j == b.size() || common[i + 1][j] >= common[i][j + 1])) {
      found.push_back({'-', a[i++]});
    } else {
      found.push_back({'+', b[j++]});
    }
  }
  return found;
}

}  // namespace stillheap::site
