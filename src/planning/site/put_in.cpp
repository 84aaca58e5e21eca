#include "planning/site/put_in.hpp"

#include <optional>

#include "planning/site/outside_quotes.hpp"

namespace stillheap::site {
namespace {

std::string_view top_of(std::string_view path) { return path.substr(0, path.find('.')); }

std::string full_name(const Key& key) { return std::string(key.section) + '.' + std::string(key.name); }

/// What stands below the top section: "channels.radius" of "vessel.channels" and "radius".
std::string below_top(const Key& key) {
  const std::string_view top = top_of(key.section);
  const std::string_view rest = key.section.substr(top.size());
  return (rest.empty() ? "" : std::string(rest.substr(1)) + '.') + std::string(key.name);
}

/// The words after `text` when it begins with them and goes on after a point.
std::optional<std::string> after(std::string_view text, const std::string& begin) {
  if (!text.starts_with(begin + '.') || text.size() == begin.size() + 1) return std::nullopt;
  return std::string(text.substr(begin.size() + 1));
}

std::optional<std::string> block_meant(std::string_view written, const Key& key) {
  const std::string_view top = top_of(key.section);
  const SectionKey* section = find_section(top);
  if (section == nullptr || !section->repeated) return std::nullopt;
  const std::optional<std::string> rest = after(written, std::string(top));
  const std::string end = '.' + below_top(key);
  if (!rest || rest->size() <= end.size() || !rest->ends_with(end)) return std::nullopt;
  return rest->substr(0, rest->size() - end.size());
}

template <class Judge>
NamedKey first_key(const Judge& judge) {
  for (const std::span<const Key> keys : all_keys()) {
    for (const Key& key : keys) {
      NamedKey named = judge(key);
      if (named.key != nullptr) return named;
    }
  }
  return {};
}

void refuse(Report& report, const Setting& setting, const std::string& what, const std::string& mend) {
  report.problems.push_back({setting.where + ": " + setting.key, what, mend});
}

/// The value as a node of its own. Nothing when it is not TOML; that has been told then.
std::optional<toml::table> parsed(Report& report, const Setting& setting) {
  const std::string text = "value = " + setting.value;
  if (find_stray_sign(text)) {
    refuse(report, setting, "= " + setting.value + " has a sign outside quotes", "amounts and texts stand in quotes");
    return std::nullopt;
  }
  if (find_too_deep(text)) {
    refuse(report, setting, "is nested too deep", "write it as in a site file");
    return std::nullopt;
  }
  try {
    return toml::parse(text);
  } catch (const toml::parse_error& error) {
    refuse(report, setting, "= " + setting.value + " is not a value: " + std::string(error.description()),
           "write it as in a site file");
    return std::nullopt;
  }
}

/// The table of that name, made when it is not there; null when something else has the name.
toml::table* table_below(toml::table& table, std::string_view name) {
  if (table.get(name) == nullptr) table.insert(name, toml::table{});
  return table.get_as<toml::table>(name);
}

/// Puts one value below the top section's table.
bool put_below(Report& report, const Setting& setting, const NamedKey& named, toml::table& top,
               const std::string& path) {
  toml::table* table = &top;
  std::string where = path;
  const std::string_view section = named.key->section;
  if (const std::size_t point = section.find('.'); point != std::string_view::npos) {
    where += section.substr(point);
    table = table_below(top, section.substr(point + 1));
  }
  where += '.' + std::string(named.key->name);
  std::string name(named.key->name);
  if (table != nullptr && !named.share.empty()) {
    table = table_below(*table, named.key->name);
    name = named.share;
    where += '.' + name;
  }
  std::optional<toml::table> value = parsed(report, setting);
  if (table == nullptr || !value) return table != nullptr;
  value->get("value")->visit([&](auto& node) { table->insert_or_assign(name, std::move(node)); });
  report.put_in[where] = setting.where;
  return true;
}

void put_into_blocks(Report& report, const Setting& setting, const NamedKey& named, toml::table& root) {
  const std::string schema(top_of(named.key->section));
  toml::array* blocks = root.get_as<toml::array>(schema);
  bool found = false;
  for (std::size_t i = 0; blocks != nullptr && i < blocks->size(); ++i) {
    toml::table* table = blocks->get_as<toml::table>(i);
    if (table == nullptr) continue;
    const std::string path = block_path(schema, *table, i + 1);
    if (!named.block.empty() && path != schema + '.' + named.block) continue;
    found = put_below(report, setting, named, *table, path) || found;
  }
  if (!found) {
    refuse(report, setting, "names a block that the site file does not have",
           "write [[" + schema + "]] in the site file, or name one that is there");
  }
}

void put_one(Report& report, const Setting& setting, toml::table& root) {
  const NamedKey named = find_named_key(setting.key);
  if (named.key == nullptr) return refuse(report, setting, "is not a key of a site file", key_hint(setting.key));
  const std::string top(top_of(named.key->section));
  if (find_section(top)->repeated) return put_into_blocks(report, setting, named, root);
  toml::table* table = table_below(root, top);
  if (table == nullptr || !put_below(report, setting, named, *table, top))
    refuse(report, setting, "has no section to stand in", "write [" + top + "] in the site file");
}

}  // namespace

std::string block_path(const std::string& schema, const toml::table& table, std::size_t number) {
  for (const char* key : {"id", "name"}) {
    if (const auto name = table[key].value<std::string>(); name && !name->empty()) return schema + '.' + *name;
  }
  return schema + '.' + std::to_string(number);
}

void put_in(Report& report, toml::table& root) {
  for (const Setting& setting : report.settings) put_one(report, setting, root);
}

NamedKey find_named_key(std::string_view written) {
  NamedKey named = first_key([&](const Key& key) {
    return NamedKey{full_name(key) == written ? &key : nullptr, {}, {}};
  });
  if (named.key != nullptr) return named;
  named = first_key([&](const Key& key) {
    const std::optional<std::string> share = key.form == Form::shares ? after(written, full_name(key)) : std::nullopt;
    return NamedKey{share ? &key : nullptr, {}, share.value_or("")};
  });
  if (named.key != nullptr) return named;
  return first_key([&](const Key& key) {
    const std::optional<std::string> block = block_meant(written, key);
    return NamedKey{block ? &key : nullptr, block.value_or(""), {}};
  });
}

std::string key_hint(std::string_view written) {
  std::vector<std::string> known;
  for (const std::span<const Key> keys : all_keys()) {
    for (const Key& key : keys) known.push_back(full_name(key));
  }
  const std::string close = nearest(std::string(written), known);
  return (close.empty() ? "" : "did you mean \"" + close + "\"? ") +
         std::string(
             "write section and key of a site file, such as \"vessel.diameter\"; \"stillheap reference\" "
             "lists them");
}

}  // namespace stillheap::site
