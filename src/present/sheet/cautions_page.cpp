#include <algorithm>
#include <cctype>

#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

std::string title_of(const std::string& place) {
  std::string title = place.empty() ? "at all times" : place;
  title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
  return title;
}

}  // namespace

void cautions_page(Flow& flow, const plan::Plan& plan) {
  flow.start_sheet("Cautions", "by place of work; everyone who works at the heap reads this");
  std::vector<std::string> places;
  for (const plan::Caution& caution : plan.cautions) {
    if (std::find(places.begin(), places.end(), caution.place) == places.end()) places.push_back(caution.place);
  }
  for (const std::string& place : places) {
    std::vector<std::string> lines;
    for (const plan::Caution& caution : plan.cautions) {
      if (caution.place != place) continue;
      lines.push_back(caution.source.empty() ? caution.text : caution.text + " [" + caution.source + "]");
    }
    flow.caution_box(title_of(place), lines, 11.0);
    flow.space(6.0);
  }
  flow.paragraph(
      "These cautions replace neither local codes nor licensed practice. Where they differ, the stricter holds.",
      style::card);
}

}  // namespace stillheap::sheet
