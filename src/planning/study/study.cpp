#include "planning/study/study.hpp"

#include <algorithm>

#include "core/base/whole_file.hpp"
#include "model/forecast/ensemble.hpp"
#include "planning/site/parse_toml.hpp"
#include "planning/study/study_file.hpp"

namespace stillheap::study {
namespace {

constexpr const char* ways = "grid, list or quasi-random";

toml::table parse_file(const std::filesystem::path& file) {
  if (!std::filesystem::is_regular_file(file))
    throw InputError(file.string(), "is not a file that can be read", "name a study file; see docs/studies.md");
  return site::parse_toml(file, read_whole_file(file));
}

Way read_way(Reading& reading, const toml::table& root) {
  const toml::node* node = root.get("way");
  if (node == nullptr) return Way::grid;
  const std::string word = node->value_exact<std::string>().value_or("");
  for (const Way way : {Way::grid, Way::list, Way::quasi_random}) {
    if (word == name_of(way)) return way;
  }
  refuse(reading, *node, "way", "= " + written(*node) + " is not a way to vary", std::string("allowed: ") + ways);
  return Way::grid;
}

int read_whole(Reading& reading, const toml::table& root, const std::string& key, int least, int most, int standard) {
  const toml::node* node = root.get(key);
  if (node == nullptr) return standard;
  const auto value = node->value_exact<std::int64_t>();
  if (value && *value >= least && *value <= most) return static_cast<int>(*value);
  refuse(reading, *node, key, "= " + written(*node) + " is not a whole number in its range",
         "allowed: " + std::to_string(least) + " to " + std::to_string(most));
  return standard;
}

/// Tables below one another until one has what is looked for: [vary.vessel.diameter] is [vary."vessel.diameter"].
template <class Use>
void walk(const toml::table& table, const std::string& path, const Use& use) {
  std::vector<std::pair<std::string, const toml::node*>> below;
  for (const auto& [name, node] : table)
    below.emplace_back((path.empty() ? "" : path + '.') + std::string(name.str()), &node);
  // The library keeps names by the alphabet; people mean the order they wrote.
  std::stable_sort(below.begin(), below.end(), [](const auto& a, const auto& b) {
    const auto& one = a.second->source().begin;
    const auto& other = b.second->source().begin;
    return std::pair(one.line, one.column) < std::pair(other.line, other.column);
  });
  for (const auto& [key, node] : below) {
    if (!use(key, *node) && node->is_table()) walk(*node->as_table(), key, use);
  }
}

/// Where a key stands already, among those varied or set; empty: nowhere.
std::string named_at(const Study& study, const std::string& key) {
  for (const Axis& one : study.axes)
    if (one.key == key) return one.where;
  for (const site::Setting& one : study.fixed)
    if (one.key == key) return one.where;
  return "";
}

/// False when the key stands twice: one of its values would be taken and the other forgotten.
bool is_first(Reading& reading, const Study& study, const std::string& table, const std::string& key,
              const toml::node& node) {
  const std::string before = named_at(study, key);
  if (before.empty()) return true;
  refuse(reading, node, table + '.' + key, "stands at " + before + " already", "vary a key or set it, once");
  return false;
}

void read_axes(Reading& reading, const toml::table& root, Study& study) {
  const toml::table* vary = root.get_as<toml::table>("vary");
  if (vary == nullptr || vary->empty()) {
    refuse(reading, root, "vary", "is missing", "give [vary.\"vessel.diameter\"] and list = [...] below it");
    return;
  }
  walk(*vary, "", [&](const std::string& key, const toml::node& node) {
    const toml::table* table = node.as_table();
    if (table == nullptr) {
      refuse(reading, node, "vary." + key, "= " + written(node) + " is not a table",
             "write [vary.\"" + key + "\"] and list = [...] below it");
      return true;
    }
    const bool leaf = table->empty() || table->contains("list") || table->contains("from") || table->contains("to") ||
                      site::find_named_key(key).key != nullptr;
    if (!leaf) return false;
    std::optional<Axis> axis = read_axis(reading, key, *table, study.way);
    if (axis && is_first(reading, study, "vary", key, *table)) study.axes.push_back(*std::move(axis));
    return true;
  });
}

void read_fixed(Reading& reading, const toml::table& root, Study& study) {
  const toml::node* node = root.get("set");
  if (node == nullptr) return;
  if (!node->is_table()) return refuse(reading, *node, "set", "= " + written(*node) + " is not a table", "write [set]");
  walk(*node->as_table(), "", [&](const std::string& key, const toml::node& value) {
    const bool known = site::find_named_key(key).key != nullptr;
    if (!known && value.is_table()) return false;
    if (known) {
      if (is_first(reading, study, "set", key, value))
        study.fixed.push_back({key, written(value), place(reading, value)});
    } else {
      refuse(reading, value, "set." + key, "is not a key of a site file", site::key_hint(key));
    }
    return true;
  });
}

void read_site_path(Reading& reading, const toml::table& root, Study& study) {
  const toml::node* node = root.get("site");
  const std::string named = node == nullptr ? "" : node->value_exact<std::string>().value_or("");
  if (node == nullptr || named.empty()) {
    refuse(reading, node == nullptr ? root : *node, "site", node == nullptr ? "is missing" : "is not a text in quotes",
           "name the site file that is varied, or its folder, seen from the study's folder");
    return;
  }
  study.site = reading.file.parent_path() / named;
  if (std::filesystem::is_directory(study.site)) study.site /= "site.toml";
  if (!std::filesystem::is_regular_file(study.site)) {
    refuse(reading, *node, "site", "= " + written(*node) + " is not there (looked for " + study.site.string() + ')',
           "name a site file or a folder with site.toml");
  } else {
    study.site_text = site::read_site_text(study.site);
  }
}

void refuse_unknown(Reading& reading, const toml::table& root) {
  const std::vector<std::string> known{"site", "way", "count", "seed", "impossible", "vary", "set"};
  for (const auto& [name, node] : root) {
    if (std::find(known.begin(), known.end(), name.str()) == known.end()) {
      refuse(reading, node, std::string(name.str()), "is not a key of a study",
             "allowed: site, way, count, seed, impossible, [vary...], [set]");
    }
  }
}

void check_together(Reading& reading, const toml::table& root, const Study& study) {
  if (study.way == Way::quasi_random && !root.contains("count"))
    refuse(reading, root, "count", "is missing", "a quasi-random study says how many cases it draws");
  if (study.way != Way::quasi_random && root.contains("count")) {
    refuse(reading, *root.get("count"), "count", "belongs to a quasi-random study",
           "leave it out, or write way = \"quasi-random\"");
  }
  const auto sizes = [&](const Axis& axis) { return axis.values.size(); };
  if (study.way == Way::list && !study.axes.empty() &&
      std::adjacent_find(study.axes.begin(), study.axes.end(),
                         [&](const Axis& a, const Axis& b) { return sizes(a) != sizes(b); }) != study.axes.end()) {
    refuse(reading, root, "vary", "has lists of different lengths",
           "way = \"list\" takes them side by side: make them equal");
  }
  double cases = 1.0;
  for (const Axis& axis : study.axes) cases *= std::max<double>(1.0, static_cast<double>(axis.values.size()));
  if (study.way == Way::grid && cases > most_cases) {
    refuse(reading, root, "vary", "makes more than " + std::to_string(most_cases) + " cases",
           "vary fewer values, or write way = \"quasi-random\" and a count");
  }
}

bool read_leave_out(Reading& reading, const toml::table& root) {
  const toml::node* node = root.get("impossible");
  if (node == nullptr) return false;
  const std::string word = node->value_exact<std::string>().value_or("");
  if (word != "refuse" && word != "leave out") {
    refuse(reading, *node, "impossible", "= " + written(*node) + " is not one of the words",
           "allowed: \"refuse\" (the study) or \"leave out\" (the case)");
  }
  return word == "leave out";
}

/// Values of case `row` by the share of the way along each axis.
Case drawn(const Study& study, int number, const std::vector<double>& shares) {
  Case one{number, {}};
  for (std::size_t a = 0; a < study.axes.size(); ++a) {
    const Axis& axis = study.axes[a];
    if (axis.range) {
      one.values.push_back(value_at(*axis.range, shares[a]));
      continue;
    }
    const auto place = static_cast<std::size_t>(shares[a] * static_cast<double>(axis.values.size()));
    one.values.push_back(axis.values[std::min(place, axis.values.size() - 1)]);
  }
  return one;
}

Case crossed(const Study& study, int number) {
  Case one{number, std::vector<std::string>(study.axes.size())};
  auto rest = static_cast<std::size_t>(number - 1);
  for (std::size_t a = study.axes.size(); a-- > 0;) {
    const std::vector<std::string>& values = study.axes[a].values;
    one.values[a] = values[study.way == Way::grid ? rest % values.size() : rest];
    if (study.way == Way::grid) rest /= values.size();
  }
  return one;
}

}  // namespace

const char* name_of(Way way) noexcept {
  switch (way) {
    case Way::grid:
      return "grid";
    case Way::list:
      return "list";
    case Way::quasi_random:
      return "quasi-random";
  }
  return "";
}

std::string place(const Reading& reading, const toml::node& node) {
  return reading.file.string() + ':' + std::to_string(std::max<int>(1, static_cast<int>(node.source().begin.line)));
}

void refuse(Reading& reading, const toml::node& node, const std::string& key, const std::string& what,
            const std::string& mend) {
  reading.problems.push_back({place(reading, node) + ": " + key, what, mend});
}

Study read_study(const std::filesystem::path& file) {
  const toml::table root = parse_file(file);
  Reading reading{file, {}};
  refuse_unknown(reading, root);
  Study study;
  study.file = file;
  read_site_path(reading, root, study);
  study.way = read_way(reading, root);
  study.count = read_whole(reading, root, "count", 1, most_cases, 0);
  study.seed = static_cast<std::uint64_t>(read_whole(reading, root, "seed", 0, 1000000000, 1));
  study.leave_out_impossible = read_leave_out(reading, root);
  read_axes(reading, root, study);
  read_fixed(reading, root, study);
  check_together(reading, root, study);
  if (!reading.problems.empty()) throw InputError(reading.problems);
  return study;
}

std::vector<Case> cases_of(const Study& study) {
  std::vector<Case> cases;
  if (study.way == Way::quasi_random) {
    for (const auto& shares : forecast::even_points(study.axes.size(), study.count, study.seed))
      cases.push_back(drawn(study, static_cast<int>(cases.size()) + 1, shares));
    return cases;
  }
  std::size_t count = study.way == Way::grid ? 1 : study.axes.front().values.size();
  if (study.way == Way::grid)
    for (const Axis& axis : study.axes) count *= axis.values.size();
  for (std::size_t i = 0; i < count; ++i) cases.push_back(crossed(study, static_cast<int>(i) + 1));
  return cases;
}

site::Site site_of(const Study& study, const Case& one) {
  std::vector<site::Setting> settings = study.fixed;
  for (std::size_t a = 0; a < study.axes.size(); ++a)
    settings.push_back({study.axes[a].key, one.values[a], study.axes[a].where});
  return site::read_site(study.site, settings, study.site_text);
}

std::string words_of(const Study& study, const Case& one) {
  std::string words;
  for (std::size_t a = 0; a < study.axes.size(); ++a)
    words += (a == 0 ? "" : ", ") + study.axes[a].key + " = " + one.values[a];
  return words;
}

}  // namespace stillheap::study
