#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Sentences whose amounts stay SI numbers until someone reads them: the edge writes them in metric or US units and
/// moments in the reader's time zone.
namespace stillheap::insight {

/// What the number of a piece counts. The comment names its SI unit.
enum class Unit {
  words,             ///< no number: plain words
  temperature,       ///< degC
  temperature_step,  ///< K
  share,             ///< 1
  duration,          ///< s
  moment,            ///< s since filling
  length,            ///< m
  conductivity,      ///< S/m
  number             ///< 1, as it is
};

struct Piece {
  Piece(const char* text) : words(text) {}             // NOLINT(google-explicit-constructor): reads as a sentence
  Piece(std::string text) : words(std::move(text)) {}  // NOLINT(google-explicit-constructor)
  Piece(Unit kind, double amount) : si(amount), unit(kind) {}

  std::string words;
  double si = 0.0;
  Unit unit = Unit::words;
};

/// {"core read ", celsius(71.0), " on ", moment(3600.0)}
using Phrase = std::vector<Piece>;

[[nodiscard]] inline Piece celsius(double value_c) { return {Unit::temperature, value_c}; }
[[nodiscard]] inline Piece kelvin(double step_k) { return {Unit::temperature_step, step_k}; }
[[nodiscard]] inline Piece share(double part) { return {Unit::share, part}; }
[[nodiscard]] inline Piece lasting(double time_s) { return {Unit::duration, time_s}; }
[[nodiscard]] inline Piece moment(double time_s) { return {Unit::moment, time_s}; }
[[nodiscard]] inline Piece length(double length_m) { return {Unit::length, length_m}; }
[[nodiscard]] inline Piece conductivity(double value_s_m) { return {Unit::conductivity, value_s_m}; }
[[nodiscard]] inline Piece number(double value) { return {Unit::number, value}; }

void append(Phrase& phrase, const Phrase& more);

/// In SI, moments as "day 3.2 after filling": for tests and logs.
[[nodiscard]] std::string plain(const Phrase& phrase);

/// How much a statement presses, from least to most.
enum class Severity { note, due, warning, danger };
[[nodiscard]] std::string_view name_of(Severity weight) noexcept;

/// What a statement asks of the daily water.
enum class Watering { none, less, more };

/// One thing the readings say. It never stands without its reading and its rule.
struct Statement {
  std::string id;  ///< of the rule, a row of docs/rules.md: "too-hot"
  Severity weight = Severity::note;
  Phrase text;          ///< one or two plain sentences
  Phrase reading;       ///< what was read, where and when
  Phrase rule;          ///< the limit behind it
  std::string source;   ///< of the rule; or "chosen"; or "common practice, no source"
  std::string next;     ///< what to do; may be empty
  std::string caution;  ///< where it can hurt someone; may be empty
  double time_s = 0.0;  ///< since filling: the moment the statement speaks of
  Watering watering = Watering::none;
  std::string water{};  ///< what it asks of the water, not yet in `next`: the adviser says it once or not at all
};

}  // namespace stillheap::insight
