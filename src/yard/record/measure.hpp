#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/quantity/quantity.hpp"

/// What can be read off a heap, and what can happen to one.
namespace stillheap::record {

enum class Measure { temperature, moisture, oxygen, carbon_dioxide, conductivity, acidity };

/// One row a measure: what its number means and which numbers can be.
struct MeasureInfo {
  Measure measure;
  std::string_view key;                ///< as stored and written: "temperature"
  std::string_view unit;               ///< of the stored number: "degC", "1", "S/m", "pH"
  std::string_view csv_unit;           ///< tail of a column's name: "degc", "wet", "volume", "s_m", "ph"
  double least, most;                  ///< of the stored number; outside it an entry is refused
  std::optional<Dimension> dimension;  ///< none for pH, which is a plain number
  double usual_least, usual_most;      ///< outside it a value is unlikely: asked back before it is stored
  std::string_view of;                 ///< what a share is of: " of wet mass"; empty for the rest
};

[[nodiscard]] std::span<const MeasureInfo> measures() noexcept;
[[nodiscard]] const MeasureInfo& info(Measure measure) noexcept;
/// Nothing when no measure is called that.
[[nodiscard]] std::optional<Measure> measure_of(std::string_view key) noexcept;

/// Reads "131 degF", "62 %", "2.1 dS/m", "7.4" into the stored unit. Throws InputError with `where` when the text or
/// the number cannot be.
[[nodiscard]] double parse_value(Measure measure, std::string_view text, std::string_view where);

/// Writes a stored number for people: "55 degC", "62 %", "pH 7.4".
[[nodiscard]] std::string value_text(Measure measure, double value, UnitSystem system);

/// What is usual: "-20 degC to 80 degC", "10 % to 90 % of wet mass".
[[nodiscard]] std::string usual_text(Measure measure, UnitSystem system);

/// What can be, in both systems of units, since a refusal does not know the yard: "-45 degC to 110 degC (-49 degF to
/// 230 degF)".
[[nodiscard]] std::string allowed_text(Measure measure);

/// What happened to a fill. That it was filled is the Fill itself and its filled_at.
enum class EventKind {
  forms_out,        ///< the temporary pipes were pulled
  sprinkled,        ///< volume_m3 or duration_s
  covered,          ///< cover laid on or changed
  channel_cleared,  ///< a channel was opened again
  worms_in,         ///< mass_kg
  sampled,          ///< taken for a laboratory
  cured,            ///< judged ready by the maker
  harvested,        ///< volume_m3 or mass_kg
  emptied,          ///< taken out for another reason
  other             ///< the note says what
};

/// Whether the heap is out of its vessel after it.
[[nodiscard]] constexpr bool ends_fill(EventKind kind) noexcept {
  return kind == EventKind::harvested || kind == EventKind::emptied;
}

/// Every kind with its word ("forms out") and key ("forms_out").
struct EventInfo {
  EventKind kind;
  std::string_view key;
  std::string_view words;
};
[[nodiscard]] std::span<const EventInfo> event_kinds() noexcept;
[[nodiscard]] const EventInfo& info(EventKind kind) noexcept;
[[nodiscard]] std::optional<EventKind> event_kind_of(std::string_view key) noexcept;

}  // namespace stillheap::record
