#include "yard/insight/phrase.hpp"

#include "core/base/plain_number.hpp"

namespace stillheap::insight {
namespace {

struct Suffix {
  const char* before;
  const char* after;
  int digits;
  double scale;
};

/// In the order of Unit.
constexpr Suffix suffixes[] = {
    {"", "", 3, 1.0},     {"", " degC", 4, 1.0},       {"", " K", 3, 1.0},
    {"", " %", 3, 100.0}, {"", " h", 3, 1.0 / 3600.0}, {"day ", " after filling", 3, 1.0 / 86400.0},
    {"", " m", 3, 1.0},   {"", " S/m", 3, 1.0},        {"", "", 6, 1.0}};

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
    text += suffix.before + plain::to_text(piece.si * suffix.scale, suffix.digits) + suffix.after;
  }
  return text;
}

std::string_view name_of(Severity weight) noexcept {
  constexpr std::string_view names[] = {"note", "due", "warning", "danger"};
  return names[static_cast<std::size_t>(weight)];
}

}  // namespace stillheap::insight
