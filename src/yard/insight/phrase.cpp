#include "yard/insight/phrase.hpp"

#include <cstdio>

namespace stillheap::insight {
namespace {

struct Suffix {
  const char* form;
  double scale;
};

/// In the order of Unit.
constexpr Suffix suffixes[] = {{"", 1.0},          {"%.4g degC", 1.0},       {"%.3g K", 1.0},
                               {"%.3g %%", 100.0}, {"%.3g h", 1.0 / 3600.0}, {"day %.3g after filling", 1.0 / 86400.0},
                               {"%.3g m", 1.0},    {"%.3g S/m", 1.0},        {"%.6g", 1.0}};

}  // namespace

void append(Phrase& phrase, const Phrase& more) { phrase.insert(phrase.end(), more.begin(), more.end()); }

std::string plain(const Phrase& phrase) {
  std::string text;
  for (const Piece& piece : phrase) {
    if (piece.unit == Unit::words) {
      text += piece.words;
      continue;
    }
    const Suffix& suffix = suffixes[static_cast<std::size_t>(piece.unit)];
    char line[64];
    std::snprintf(line, sizeof line, suffix.form, piece.si * suffix.scale);
    text += line;
  }
  return text;
}

std::string_view name_of(Severity weight) noexcept {
  constexpr std::string_view names[] = {"note", "due", "warning", "danger"};
  return names[static_cast<std::size_t>(weight)];
}

}  // namespace stillheap::insight
