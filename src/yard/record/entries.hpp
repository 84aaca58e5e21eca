#pragma once
#include <optional>
#include <string>

#include "yard/record/measure.hpp"
#include "yard/record/moment.hpp"

/// What the store keeps: one plain struct a kind of entry. Numbers are SI, moments UTC.
namespace stillheap::record {

/// What every entry carries. Nothing stored is ever changed: a correction is a new entry that names the one it stands
/// for, and both stay.
struct EntryMetadata {
  std::string id;          ///< UUID of this statement, made by whoever notes it; empty: the store makes one
  std::string by;          ///< initials
  Instant noted_at{};      ///< when it was written down; 0: the store takes its clock
  std::string zone;        ///< IANA zone or offset it was noted in; empty: UTC
  std::string corrects;    ///< id of the statement this one replaces; empty: a first statement
  std::string reason;      ///< why; given exactly with `corrects`
  bool withdrawn = false;  ///< a correction that takes the entry back altogether
  Instant stored_at{};     ///< set on reading: when the store took it
  /// Set on reading: id of the first statement, the same through all corrections. Other entries refer to this one;
  /// the id of a correction is understood too.
  std::string thing;
};

struct Person {
  EntryMetadata mark;
  std::string initials;
  std::string name;
};

/// A vessel that stands in the yard.
struct Vessel {
  EntryMetadata mark;
  std::string name;    ///< as on its label; one current vessel a name
  std::string design;  ///< name of its design in the site file; may be empty
  std::string note;
};

/// A delivery of feedstock.
struct Lot {
  EntryMetadata mark;
  std::string name;
  std::string feedstock;  ///< id of the site file; may be empty
  std::string supplier;
  Instant received_at{};
  std::optional<double> mass_wet_kg;
  std::string note;
};

/// A vessel filled once: the batch everything else speaks of.
struct Fill {
  EntryMetadata mark;
  std::string vessel_id;
  std::string batch;  ///< name of the batch; one current fill a name
  Instant filled_at{};
  std::optional<double> volume_m3;
  std::optional<double> moisture_wet;        ///< after soaking
  std::optional<double> carbon_to_nitrogen;  ///< of the blend, from total carbon
  std::string note;
};

/// How much of a lot went into a fill.
struct LotUse {
  EntryMetadata mark;
  std::string fill_id;
  std::string lot_id;
  double mass_wet_kg = 0.0;
};

/// Where a probe stands in the heap. Any part may be missing; two places are one when name and rounded numbers
/// (1 mm, 0.1 deg) agree.
struct Place {
  std::string name;                 ///< "core", "north wall"
  std::optional<double> angle_rad;  ///< in plan, from east, counter-clockwise
  std::optional<double> radius_m;   ///< from the middle
  std::optional<double> depth_m;    ///< below the top of the heap
  std::optional<double> height_m;   ///< above its base
  bool operator==(const Place&) const = default;
};

/// "core, 457 mm deep": a place in words. "not noted" when nothing is known of it.
[[nodiscard]] std::string words(const Place& place, UnitSystem system);

struct Reading {
  EntryMetadata mark;
  std::string fill_id;
  Measure measure = Measure::temperature;
  double value = 0.0;  ///< degC; kg/kg wet; m3/m3; S/m; pH
  Instant at{};
  Place place;
  std::string source;   ///< name of the logger's CsvSource; empty: by hand
  std::string written;  ///< as the hand wrote it, "131 degF"; may be empty
};

struct Event {
  EntryMetadata mark;
  std::string fill_id;
  EventKind kind = EventKind::other;
  Instant at{};
  std::optional<double> volume_m3;
  std::optional<double> mass_kg;
  std::optional<double> duration_s;
  std::string note;
};

/// One value of a laboratory, in its own unit and basis ("mg/kg dry"), as insight::check_quality takes it.
struct LabTest {
  EntryMetadata mark;
  std::string fill_id;  ///< of a fill or of a lot, one of the two
  std::string lot_id;
  std::string key;  ///< "arsenic"
  double value = 0.0;
  std::string unit;
  std::string laboratory;
  std::string method;
  Instant sampled_at{};
  std::string note;
};

/// Finished compost brought out.
struct Spreading {
  EntryMetadata mark;
  std::string fill_id;
  Instant at{};
  std::string where;
  std::optional<double> volume_m3;
  std::optional<double> area_m2;
  std::string note;
};

/// A photo; its bytes are a file in the folder beside the database, called after their hash.
struct Photo {
  EntryMetadata mark;
  std::string fill_id;
  Instant taken_at{};
  std::string sha256;      ///< of the bytes, 64 hexadecimal digits
  std::string media_type;  ///< "image/jpeg", "image/png", "image/webp"
  long long bytes = 0;
  std::string note;
};

/// How the file of one logger is read, kept under the logger's name. See csv_mapping.hpp for the text.
struct CsvSource {
  EntryMetadata mark;
  std::string name;
  std::string mapping;  ///< JSON
};

/// Work that a plan sets for a day. Done when an event says so, or withdrawn.
struct DueDay {
  EntryMetadata mark;
  std::string vessel;       ///< name of the design or vessel; empty: the whole yard
  std::string date;         ///< ISO
  std::string latest_date;  ///< ISO, end of the band; empty when sharp
  std::string what;
};

}  // namespace stillheap::record
