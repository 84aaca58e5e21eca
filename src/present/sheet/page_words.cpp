#include <algorithm>

#include "present/sheet/pages.hpp"

namespace stillheap::sheet {

std::string vessel_title(const vessel::Design& design) {
  if (design.count <= 1) return design.name;
  return design.name + ", " + std::to_string(design.count) + " alike";
}

std::vector<std::string> cautions_at(const plan::Plan& plan, const std::vector<std::string_view>& places,
                                     const std::string& fallback) {
  std::vector<std::string> texts;
  for (const plan::Caution& caution : plan.cautions) {
    if (std::find(places.begin(), places.end(), caution.place) != places.end()) texts.push_back(caution.text);
  }
  if (texts.empty()) texts.push_back(fallback);
  return texts;
}

}  // namespace stillheap::sheet
