#include "yard/state/words.hpp"

#include <chrono>
#include <cmath>

#include "core/quantity/retold.hpp"
#include "core/quantity/rounding.hpp"

namespace stillheap::yard {
namespace {

using insight::Piece;
using insight::Unit;

/// To a tenth: a probe tells no more, and three digits would make 99.95 degF into 100.
std::string temperature_text(double celsius, UnitSystem units) {
  const bool us = units == UnitSystem::us;
  const double shown = std::round((us ? celsius * 1.8 + 32.0 : celsius) * 10.0) / 10.0;
  return quantity::to_text(shown, 5) + (us ? " degF" : " degC");
}

/// "2026-03-04 08:00"
std::string moment_text(record::Instant at, const std::string& zone) {
  std::string text = record::to_local_text(at, zone).substr(0, 16);
  if (text.size() > 10) text[10] = ' ';
  return text;
}

std::string piece_text(const Piece& piece, const Reader& reader, record::Instant filled_at) {
  switch (piece.unit) {
    case Unit::words:
      return quantity::retold(piece.words, reader.units);
    case Unit::temperature:
      return temperature_text(piece.si, reader.units);
    case Unit::temperature_step:
      return quantity::format(piece.si, Dimension::temperature_step, reader.units);
    case Unit::share:
      return quantity::to_text(100.0 * piece.si, 3) + " %";
    case Unit::duration:
      return quantity::format(piece.si, Dimension::duration, reader.units);
    case Unit::moment:
      return moment_text(filled_at + std::chrono::seconds{std::llround(piece.si)}, reader.zone);
    case Unit::length:
      return quantity::format(piece.si, Dimension::length, reader.units);
    case Unit::conductivity:
      return quantity::format(piece.si, Dimension::conductivity, reader.units);
    case Unit::number:
      return quantity::to_text(piece.si, 6);
  }
  return "";
}

}  // namespace

std::string words(const insight::Phrase& phrase, const Reader& reader, record::Instant filled_at) {
  std::string text;
  for (const Piece& piece : phrase) text += piece_text(piece, reader, filled_at);
  return text;
}

}  // namespace stillheap::yard
