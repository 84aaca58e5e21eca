#include <algorithm>
#include <numeric>

#include "planning/site/document.hpp"

namespace stillheap::site {
namespace {

/// Fewest single letters to insert, delete or exchange. Source: Levenshtein 1966.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t exchange = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, exchange});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest(std::string_view mistyped, const std::vector<std::string>& known) {
  constexpr std::size_t longest =
      80;  // chosen: nothing known is half as long, and the search takes length times length
  if (mistyped.size() > longest) return {};
  std::string best;
  std::size_t least = std::max<std::size_t>(2, mistyped.size() / 3) + 1;  // farther than that is another word
  for (const std::string& word : known) {
    const std::size_t apart = distance(mistyped, word);
    if (apart >= least) continue;
    least = apart;
    best = word;
  }
  return best;
}

}  // namespace stillheap::site
