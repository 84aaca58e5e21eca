#include <array>
#include <cctype>
#include <map>
#include <string>

#include "present/draw/canvas.hpp"

namespace stillheap::sheet {

std::string with_stable_ids(std::string_view svg) {
  constexpr std::array<std::string_view, 3> names{"surface", "image", "source-"};
  std::map<std::string, std::string, std::less<>> renamed;
  std::string out;
  out.reserve(svg.size());
  // Ids stand behind a quote (where they are given) or a hash (where they are used); base64 data have neither.
  for (std::size_t i = 0; i < svg.size(); ++i) {
    out += svg[i];
    if (svg[i] != '"' && svg[i] != '#') continue;
    for (const std::string_view name : names) {
      if (svg.substr(i + 1, name.size()) != name) continue;
      std::size_t end = i + 1 + name.size();
      while (end < svg.size() && std::isdigit(static_cast<unsigned char>(svg[end])) != 0) ++end;
      if (end == i + 1 + name.size()) continue;
      const std::string old(svg.substr(i + 1, end - i - 1));
      const auto [entry, fresh] = renamed.try_emplace(old);
      if (fresh) entry->second = std::string(name) + std::to_string(renamed.size());
      out += entry->second;
      i = end - 1;
      break;
    }
  }
  return out;
}

}  // namespace stillheap::sheet
