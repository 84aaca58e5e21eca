#include "planning/site/document.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "planning/site/parse_toml.hpp"
#include "planning/site/put_in.hpp"
#include "planning/site/site.hpp"
#include "planning/site/toml.hpp"
#include "planning/site/value.hpp"

namespace stillheap::site {
namespace {

int line_of(const toml::node& node) { return static_cast<int>(node.source().begin.line); }

std::string joined(const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : ", ") + word;
  return list;
}

std::vector<std::string> key_names(std::string_view section) {
  std::vector<std::string> names;
  for (const std::span<const Key> keys : all_keys()) {
    for (const Key& key : keys) {
      if (key.section == section) names.emplace_back(key.name);
    }
  }
  return names;
}

/// What may stand directly below a section ("" for the file itself).
std::vector<std::string> part_names(std::string_view section) {
  std::vector<std::string> names;
  const std::string prefix = section.empty() ? "" : std::string(section) + '.';
  for (const SectionKey& other : sections()) {
    if (!other.path.starts_with(prefix)) continue;
    const std::string_view rest = other.path.substr(prefix.size());
    if (rest.find('.') == std::string_view::npos) names.emplace_back(rest);
  }
  return names;
}

void refuse_unknown(Report& report, std::string_view section, const std::string& path, const std::string& name,
                    const toml::node& node) {
  std::vector<std::string> known = section.empty() ? std::vector<std::string>{} : key_names(section);
  const std::vector<std::string> parts = part_names(section);
  known.insert(known.end(), parts.begin(), parts.end());
  const std::string close = nearest(name, known);
  const std::string place = section.empty() ? "of a site file" : "of [" + std::string(section) + ']';
  add(report, line_of(node), path, "= " + written_text(node) + " is not a key " + place,
      (close.empty() ? "" : "did you mean \"" + close + "\"? ") + ("allowed: " + joined(known)));
}

/// Gives every key of the table a value, and tells which required ones are missing. A section that is missing
/// as a whole is told once, elsewhere.
void fill_absent(Report& report, Section& section) {
  for (const std::string& name : key_names(section.schema)) {
    if (section.values.contains(name)) continue;
    const Key& key = *find_key(section.schema, name);
    section.values[name] = default_value(key);
    if (key.need != Need::required || !section.present) continue;
    const std::string allowed = allowed_text(key);
    add(report, section.line, section.path + '.' + name, "is missing",
        "give " + form_text(key) + (allowed.empty() ? "" : "; allowed: " + allowed));
  }
}

/// Reads the keys of one table; tables below it are handed back.
std::vector<std::pair<std::string, const toml::table*>> read_section(Report& report, Section& section,
                                                                     const toml::table& table) {
  std::vector<std::pair<std::string, const toml::table*>> below;
  for (const auto& [toml_key, node] : table) {
    const std::string name(toml_key.str());
    const std::string path = section.path + '.' + name;
    const std::string part = section.schema + '.' + name;
    if (const Key* key = find_key(section.schema, name)) {
      section.values[name] = read_value(report, *key, path, node);
    } else if (find_section(part) == nullptr) {
      refuse_unknown(report, section.schema, path, name, node);
    } else if (node.is_table()) {
      below.emplace_back(part, node.as_table());
    } else {
      add(report, line_of(node), path, "= " + written_text(node) + " is not a section",
          "write [" + part + "] and its keys below");
    }
  }
  return below;
}

Block read_block(Report& report, const std::string& schema, const std::string& path, const toml::table* table) {
  const SectionKey& row = *find_section(schema);
  Block block;
  block.own = {schema, path, table == nullptr ? 1 : line_of(*table), table != nullptr, {}};
  for (const SectionKey& other : sections()) {
    if (!other.path.starts_with(schema + '.')) continue;
    const std::string part_path = path + std::string(other.path.substr(schema.size()));
    block.parts[std::string(other.path)] = {std::string(other.path), part_path, block.own.line, false, {}};
  }
  if (table != nullptr) {
    for (const auto& [part, below] : read_section(report, block.own, *table)) {
      Section& section = block.parts[part];
      section.present = true;
      section.line = line_of(*below);
      const auto too_deep = read_section(report, section, *below);
      for (const auto& [deeper, node] : too_deep) refuse_unknown(report, part, deeper, deeper, *node);
    }
  } else if (row.required) {
    add(report, 1, schema, "is missing", "add " + (row.repeated ? "[[" + schema + "]]" : '[' + schema + ']'));
  }
  fill_absent(report, block.own);
  for (auto& [part, section] : block.parts) {
    if (find_section(part)->required && !section.present && table != nullptr) {
      add(report, block.own.line, section.path, "is missing", "add [" + part + ']');
    }
    fill_absent(report, section);
  }
  return block;
}

std::vector<Block> read_blocks(Report& report, const SectionKey& row, const toml::node* node) {
  const std::string schema(row.path);
  if (node == nullptr) {
    if (!row.repeated) return {read_block(report, schema, schema, nullptr)};
    if (row.required) add(report, 1, schema, "is missing", "add at least one [[" + schema + "]]");
    return {};
  }
  if (!row.repeated) {
    if (node->is_table()) return {read_block(report, schema, schema, node->as_table())};
    add(report, line_of(*node), schema, "= " + written_text(*node) + " is not a section",
        "write [" + schema + "] once");
    return {read_block(report, schema, schema, nullptr)};
  }
  std::vector<Block> blocks;
  if (!node->is_array_of_tables()) {
    add(report, line_of(*node), schema, "= " + written_text(*node) + " is not a list of blocks",
        "write [[" + schema + "]] with two brackets, once for each");
    return blocks;
  }
  for (const toml::node& entry : *node->as_array()) {
    const toml::table& table = *entry.as_table();
    blocks.push_back(read_block(report, schema, block_path(schema, table, blocks.size() + 1), &table));
  }
  return blocks;
}

}  // namespace

void add(Report& report, int line, const std::string& path, std::string what, std::string mend) {
  const auto put = report.put_in.find(path);
  const std::string place =
      put != report.put_in.end() ? put->second : report.file.string() + ':' + std::to_string(line);
  report.problems.push_back({place + ": " + path, std::move(what), std::move(mend)});
}

Document read_document(Report& report) {
  toml::table root = parse_toml(report.file, report.text ? *report.text : read_site_text(report.file));
  put_in(report, root);
  for (const auto& [key, node] : root) {
    const std::string name(key.str());
    if (find_section(name) == nullptr) refuse_unknown(report, "", name, name, node);
  }
  Document document;
  for (const SectionKey& row : sections()) {
    if (row.path.find('.') != std::string_view::npos) continue;
    document.blocks[std::string(row.path)] = read_blocks(report, row, root.get(row.path));
  }
  return document;
}

}  // namespace stillheap::site
