#include <algorithm>
#include <cctype>

#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

/// A finding without its numbers: what makes two of them the same kind.
std::string kind_of(const Warning& warning) {
  std::string kind = warning.where + "|" + warning.what;
  std::erase_if(kind, [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0 || c == '.'; });
  return kind;
}

/// Each kind of finding once; the list with the sources has them all.
std::vector<std::string> lines_of(const plan::Plan& plan) {
  // One kind of vessel need not be named on every line.
  const std::string kind_name = plan.vessels.size() == 1 ? plan.vessels.front().design.name + ": " : "";
  std::vector<std::string> kinds;
  for (const Warning& warning : plan.warnings) kinds.push_back(kind_of(warning));
  std::vector<std::string> lines;
  for (auto kind = kinds.begin(); kind != kinds.end(); ++kind) {
    if (std::find(kinds.begin(), kind, *kind) != kind) continue;
    const Warning& warning = plan.warnings[static_cast<std::size_t>(kind - kinds.begin())];
    const auto more = std::count(kind + 1, kinds.end(), *kind);
    const std::string where =
        warning.where.starts_with(kind_name) ? warning.where.substr(kind_name.size()) : warning.where;
    lines.push_back((where.empty() ? "" : where + ": ") + warning.what +
                    (more > 0 ? "; and " + std::to_string(more) + " more like it" : ""));
  }
  return lines;
}

}  // namespace

void findings_box(Flow& flow, const plan::Plan& plan, const std::string& heading) {
  if (const auto lines = lines_of(plan); !lines.empty()) flow.caution_box(heading, lines, 9.5, false);
}

void findings_page(Flow& flow, const plan::Plan& plan) {
  if (plan.warnings.empty()) return;
  flow.start_sheet("Before you build", plan.site.name);
  findings_box(flow, plan, "What the drawings do not settle");
  flow.paragraph("Found without a forecast: what heat, air and moisture do is not judged here.", style::note);
}

}  // namespace stillheap::sheet
