#include "yard/record/check.hpp"

#include <cmath>
#include <string_view>

#include "core/base/date.hpp"
#include "core/base/delimited.hpp"
#include "core/quantity/both.hpp"
#include "core/quantity/rounding.hpp"
#include "domain/limits/limits.hpp"
#include "yard/record/fields.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::record {
namespace {

constexpr std::size_t most_text = 4000;
constexpr std::size_t most_mapping = 64000;
constexpr std::size_t most_name = 80;
constexpr std::size_t most_initials = 12;
constexpr Instant earliest{std::chrono::sys_days{std::chrono::year{1990} / 1 / 1}};  // chosen: before any logger file

/// What every field must be, whatever the kind.
class FieldCheck {
 public:
  FieldCheck(const char* word, Problems& problems) : word_(word), problems_(problems) {}
  void text(const char* column, const std::string& value) {
    const std::size_t most = std::string_view(column) == "mapping" ? most_mapping : most_text;
    if (value.size() > most) add(column, "is too long", "give at most " + std::to_string(most) + " bytes");
    if (!is_plain_text(value)) add(column, "holds signs that are no text", "write it in UTF-8 without control signs");
  }
  void instant(const char* column, Instant value) {
    if (value == Instant{}) return add(column, "is missing", "give the date and time");
    if (value >= earliest && value <= now() + std::chrono::days{1}) return;
    add(column, "= " + to_utc_text(value) + " is not a time that can have been noted",
        "give a time from 1990 to now; is the clock of this device right?");
  }
  void number(const char* column, double value) {
    if (!std::isfinite(value)) add(column, "is no number", "give a number");
  }
  void maybe(const char* column, const std::optional<double>& value) {
    if (value) number(column, *value);
  }
  void count(const char*, long long) {}
  void measure(const char*, Measure) {}
  void event(const char*, EventKind) {}
  void refer(const char*, const std::string&, const char*, bool) {}
  void named(const char* column, const std::string& value, const char*) { text(column, value); }

 private:
  void add(const char* column, const std::string& what, const std::string& mend) {
    problems_.push_back({std::string(word_) + ": " + column, what, mend});
  }
  const char* word_;
  Problems& problems_;
};

template <class Entry>
void check_fields(const Entry& one, Problems& problems) {
  visit(one, FieldCheck(Kind<Entry>::word, problems));
}

/// Signs without a shape of their own by which two names look alike or read backwards: zero-width space and joint,
/// marks and overrides of direction. Source: Unicode Standard Annex #9 (directions); the others chosen.
constexpr std::string_view hidden_signs[] = {"\u200b", "\u200e", "\u200f", "\u2060", "\ufeff", "\u202a", "\u202b",
                                             "\u202c", "\u202d", "\u202e", "\u2066", "\u2067", "\u2068", "\u2069"};

void need_name(const std::string& name, const std::string& where, Problems& problems) {
  if (trimmed(name).empty()) problems.push_back({where, "is missing", "give a name"});
  if (name.size() > most_name || name.find_first_of("\r\n\t") != std::string::npos) {
    problems.push_back({where, "is no name", "give one line of at most " + std::to_string(most_name) + " bytes"});
  }
  for (const std::string_view sign : hidden_signs) {
    if (name.find(sign) == std::string::npos) continue;
    problems.push_back({where, "holds signs that nobody sees", "write it without them"});
    return;
  }
}

void need_above_zero(const std::optional<double>& value, const std::string& where, Problems& problems) {
  if (value && !(*value > 0.0)) problems.push_back({where, "is not above zero", "leave it out when it is not known"});
}

void need_share(const std::optional<double>& value, const std::string& where, Problems& problems) {
  if (value && !(*value >= 0.0 && *value <= 1.0)) problems.push_back({where, "is not a share", "give 0 to 100 %"});
}

void need_within(const std::optional<double>& value, const limits::Limit& limit, const std::string& where,
                 Problems& problems) {
  if (!value || limits::holds(limit, *value)) return;
  const std::string text = quantity::in_both([&](UnitSystem system) {
    return limit.dimension ? quantity::format(*value, *limit.dimension, system) : quantity::to_text(*value, 6);
  });
  problems.push_back({where, "= " + text + " cannot be", "give " + limits::allowed_in_both(limit)});
}

void need_date(const std::string& text, const std::string& where, Problems& problems) {
  const std::optional<date::Day> day = date::parse_iso(text);
  if (day && limits::holds(limits::year, date::year_of(*day))) return;
  problems.push_back(
      {where, "= \"" + text + "\"", "give a date as 2026-05-03, of the years " + limits::allowed(limits::year)});
}

/// What a laboratory can have found: shares of the mass in parts, nothing below none but a difference of temperatures.
void need_lab_value(const LabTest& one, Problems& problems) {
  const bool difference = one.unit == "K";
  const double most = one.unit.starts_with("mg/kg") ? 1e6 : one.unit.starts_with("%") ? 1000.0 : 1e12;  // chosen
  if (one.value >= (difference ? -100.0 : 0.0) && one.value <= most) return;
  problems.push_back({"laboratory test: value", "= " + quantity::to_text(one.value, 6) + ' ' + one.unit + " cannot be",
                      difference ? "give a difference from -100 K on" : "give 0 or more, as the laboratory wrote it"});
}

}  // namespace

bool is_plain_text(std::string_view text) noexcept {
  std::size_t at = 0;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  while (at < text.size()) {
    const unsigned first = byte(at);
    if (first < 0x80) {
      if ((first < 0x20 && first != '\n' && first != '\t' && first != '\r') || first == 0x7F) return false;
      ++at;
      continue;
    }
    const std::size_t length = first >= 0xF0 && first <= 0xF4  ? 4
                               : first >= 0xE0 && first < 0xF0 ? 3
                               : first >= 0xC2 && first < 0xE0 ? 2
                                                               : 0;
    if (length == 0 || at + length > text.size()) return false;
    unsigned code = first & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
      if ((byte(at + i) & 0xC0U) != 0x80U) return false;
      code = (code << 6U) | (byte(at + i) & 0x3FU);
    }
    const bool overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
    if (overlong || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return false;
    at += length;
  }
  return true;
}

void check(const EntryMetadata& mark, const char* word, Problems& problems) {
  const std::string where = std::string(word) + ": ";
  if (mark.noted_at < earliest || mark.noted_at > now() + std::chrono::days{1}) {
    problems.push_back({where + "noted_at_s", "is not a time at which anything can have been noted",
                        "give a time from 1990 to now; is the clock of this device right?"});
  }
  if (!id_bytes(mark.id))
    problems.push_back({where + "id", "= \"" + mark.id + "\" is no UUID", "give 8-4-4-4-12 hexadecimal digits"});
  if (mark.by.empty() || mark.by.size() > most_initials || !is_plain_text(mark.by)) {
    problems.push_back({where + "by", "are not initials", "say who notes this, in 1 to 12 letters"});
  }
  if (!is_zone(mark.zone)) {
    problems.push_back({where + "zone", "= \"" + mark.zone + "\" is not known",
                        "give an IANA zone (\"Europe/Paris\") or an offset (\"+02:00\")"});
  }
  if (mark.corrects.empty() != mark.reason.empty()) {
    problems.push_back({where + "reason", mark.reason.empty() ? "is missing" : "stands without the entry it is about",
                        "a correction names the entry it is for, and says why"});
  }
  if (mark.withdrawn && mark.corrects.empty()) {
    problems.push_back({where + "withdrawn", "stands without the entry it is about", "name the entry to withdraw"});
  }
  if (mark.reason.size() > most_text || !is_plain_text(mark.reason)) {
    problems.push_back({where + "reason", "is no text", "say why in a few plain words"});
  }
}

void check(const Person& one, Problems& problems) {
  check_fields(one, problems);
  if (one.initials.empty() || one.initials.size() > most_initials) {
    problems.push_back({"person: initials", "are missing or too long", "give 1 to 12 letters"});
  }
}

void check(const Vessel& one, Problems& problems) {
  check_fields(one, problems);
  need_name(one.name, "vessel: name", problems);
}

void check(const Lot& one, Problems& problems) {
  check_fields(one, problems);
  need_name(one.name, "lot: name", problems);
  need_within(one.mass_wet_kg, limits::lot_mass, "lot: mass", problems);
}

void check(const Fill& one, Problems& problems) {
  check_fields(one, problems);
  need_name(one.batch, "fill: batch", problems);
  need_within(one.volume_m3, limits::fill_volume, "fill: volume", problems);
  need_share(one.moisture_wet, "fill: moisture", problems);
  need_above_zero(one.carbon_to_nitrogen, "fill: C:N", problems);
}

void check(const LotUse& one, Problems& problems) {
  check_fields(one, problems);
  need_within(one.mass_wet_kg, limits::lot_mass, "use of a lot: mass", problems);
}

void check(const Reading& one, Problems& problems) {
  check_fields(one, problems);
  const MeasureInfo& measure = info(one.measure);
  if (!(one.value >= measure.least && one.value <= measure.most)) {
    problems.push_back({"reading: " + std::string(measure.key), "= " + quantity::in_both([&](UnitSystem system) {
                                                                  return value_text(one.measure, one.value, system);
                                                                }) + " cannot be",
                        "give " + allowed_text(one.measure)});
  }
  need_within(one.place.radius_m, limits::probe_radius, "reading: radius", problems);
  need_within(one.place.depth_m, limits::probe_depth, "reading: depth", problems);
  need_within(one.place.height_m, limits::probe_height, "reading: height", problems);
  need_within(one.place.angle_rad, limits::probe_angle, "reading: angle", problems);
  if (one.place.name.size() > most_name) problems.push_back({"reading: place", "is too long", "give a short name"});
}

void check(const Event& one, Problems& problems) {
  check_fields(one, problems);
  need_within(one.volume_m3, limits::event_volume, "event: volume", problems);
  need_within(one.mass_kg, limits::event_mass, "event: mass", problems);
  need_within(one.duration_s, limits::event_duration, "event: duration", problems);
  if (one.kind == EventKind::other && one.note.empty()) {
    problems.push_back({"event: note", "is missing", "say what happened"});
  }
}

void check(const LabTest& one, Problems& problems) {
  check_fields(one, problems);
  need_name(one.key, "laboratory test: key", problems);
  need_lab_value(one, problems);
  if (one.fill_id.empty() == one.lot_id.empty()) {
    problems.push_back({"laboratory test", "is of no fill and no lot, or of both", "name one of the two"});
  }
}

void check(const Spreading& one, Problems& problems) {
  check_fields(one, problems);
  need_name(one.where, "spreading: place", problems);
  need_within(one.volume_m3, limits::fill_volume, "spreading: volume", problems);
  need_within(one.area_m2, limits::spread_area, "spreading: area", problems);
}

void check(const Photo& one, Problems& problems) {
  check_fields(one, problems);
  if (one.sha256.size() != 64 || one.sha256.find_first_not_of("0123456789abcdef") != std::string::npos) {
    problems.push_back({"photo: sha256", "is no hash", "give 64 hexadecimal digits in lower case"});
  }
  if (one.bytes <= 0) problems.push_back({"photo: bytes", "is not above zero", "give the size of the file"});
}

void check(const CsvSource& one, Problems& problems) {
  check_fields(one, problems);
  need_name(one.name, "source: name", problems);
}

void check(const DueDay& one, Problems& problems) {
  check_fields(one, problems);
  need_date(one.date, "due day: date", problems);
  if (!one.latest_date.empty()) need_date(one.latest_date, "due day: latest date", problems);
  if (one.what.empty()) problems.push_back({"due day: what", "is missing", "say what is due"});
}

}  // namespace stillheap::record
