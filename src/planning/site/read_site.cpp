#include <algorithm>

#include "core/base/whole_file.hpp"
#include "core/quantity/retold.hpp"
#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

/// Line of a problem, from "yard.toml:14: key", so that problems come in the order of the file.
int line_of(const Problem& problem, std::size_t file_size) {
  int line = 0;
  for (std::size_t i = file_size + 1; i < problem.where.size(); ++i) {
    if (problem.where[i] < '0' || problem.where[i] > '9') break;
    line = 10 * line + (problem.where[i] - '0');
  }
  return line;
}

void note_lines(const Section& section, std::map<std::string, int, std::less<>>& lines) {
  if (!section.present) return;
  lines.emplace(section.path, section.line);
  for (const auto& [name, one] : section.values) {
    if (one.given) lines.emplace(section.path + '.' + name, one.line);
  }
}

std::map<std::string, int, std::less<>> lines_of(const Document& document) {
  std::map<std::string, int, std::less<>> lines;
  for (const auto& [schema, blocks] : document.blocks) {
    for (const Block& block : blocks) {
      note_lines(block.own, lines);
      for (const auto& [below, section] : block.parts) note_lines(section, lines);
    }
  }
  return lines;
}

}  // namespace

std::string where(const Site& site, std::string_view path) {
  const std::string file = site.file.string();
  for (std::string_view place = path;; place = place.substr(0, place.rfind('.'))) {
    const auto found = site.lines.find(place);
    if (found != site.lines.end()) return file + ':' + std::to_string(found->second) + ": " + std::string(path);
    if (place.find('.') == std::string_view::npos) return file + ": " + std::string(path);
  }
}

Site read_site(const std::filesystem::path& file) { return read_site(file, {}); }

std::string read_site_text(const std::filesystem::path& file) {
  if (!std::filesystem::is_regular_file(file)) {
    throw InputError(file.string(), "is not a file that can be read",
                     "name a site file; \"stillheap init DIR\" writes one to start from");
  }
  return read_whole_file(file);
}

Site read_site(const std::filesystem::path& file, const std::vector<Setting>& settings,
               const std::optional<std::string>& text) {
  Reader reader;
  reader.report.file = file;
  reader.report.text = text;
  reader.report.settings = settings;
  const Document document = read_document(reader.report);
  Site site;
  site.file = file;
  build_yard(reader, document, site);
  build_weather(reader, document, site);
  build_feedstocks(reader, document, site);
  build_blend(reader, document, site);
  build_vessels(reader, document, site);
  build_work(reader, document, site);
  build_stock(reader, document, site);
  build_supply(reader, document, site);
  build_loads(reader, document, site);
  build_water(reader, document, site);
  build_forecast(reader, document, site);
  std::vector<Problem>& problems = reader.report.problems;
  const std::size_t size = file.string().size();
  std::stable_sort(problems.begin(), problems.end(),
                   [size](const Problem& a, const Problem& b) { return line_of(a, size) < line_of(b, size); });
  // What is allowed stands in SI in the tables of keys; what was written is told as it was written.
  for (Problem& one : problems) one.mend = quantity::retold(one.mend, reader.units);
  if (!problems.empty()) throw InputError(problems);
  for (Assumption& one : reader.defaults) {  // values are told as they are noted; their sources cite in SI
    one.source = quantity::retold(one.source, reader.units);
    site.defaults.push_back(std::move(one));
  }
  site.lines = lines_of(document);
  return site;
}

}  // namespace stillheap::site
