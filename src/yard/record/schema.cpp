#include "yard/record/schema.hpp"

#include <array>
#include <vector>

namespace stillheap::record {
namespace {

std::string with_name(std::string text, const std::string& table) {
  for (std::size_t at = text.find("{t}"); at != std::string::npos; at = text.find("{t}", at)) {
    text.replace(at, 3, table);
  }
  return text;
}

/// Facts stay as they are. The third guard holds off INSERT OR REPLACE, which passes the second one by.
constexpr const char* guards = R"(
CREATE TRIGGER {t}_never_changed BEFORE UPDATE ON {t}
  BEGIN SELECT RAISE(ABORT, 'entries of {t} are never changed: add a correction'); END;
CREATE TRIGGER {t}_never_deleted BEFORE DELETE ON {t}
  BEGIN SELECT RAISE(ABORT, 'entries of {t} are never deleted: withdraw them'); END;
CREATE TRIGGER {t}_never_replaced BEFORE INSERT ON {t}
  WHEN EXISTS (SELECT 1 FROM {t} WHERE row = NEW.row OR {key})
  BEGIN SELECT RAISE(ABORT, 'this entry of {t} is there already'); END;
)";

std::string guarded_by(const std::string& table, const std::string& key) {
  std::string text = guards;
  text.replace(text.find("{key}"), 5, key);
  return with_name(text, table);
}

/// A table of entries: what all of them carry, then its own columns. `revises` is the row of the thing's first
/// statement; the highest row of a thing is what stands now.
std::string entries(const std::string& table, const std::string& columns) {
  const std::string head = R"(
CREATE TABLE {t} (
  row INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  revises INTEGER REFERENCES {t}(row),
  reason TEXT CHECK (reason <> ''),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  noted_by TEXT NOT NULL CHECK (noted_by <> ''),
  noted_s INTEGER NOT NULL,
  zone TEXT NOT NULL CHECK (zone <> ''),
  stored_s INTEGER NOT NULL DEFAULT (unixepoch()),
)";
  const std::string tail = R"(,
  CHECK ((revises IS NULL) = (reason IS NULL)),
  CHECK (withdrawn = 0 OR revises IS NOT NULL)
) STRICT;
CREATE INDEX {t}_revises ON {t}(revises) WHERE revises IS NOT NULL;
CREATE TRIGGER {t}_revise_the_first BEFORE INSERT ON {t}
  WHEN (SELECT revises FROM {t} WHERE row = NEW.revises) IS NOT NULL
  BEGIN SELECT RAISE(ABORT, 'a correction of {t} names the first statement'); END;
CREATE VIEW current_{t} AS
  SELECT coalesce(s.revises, s.row) AS thing, s.* FROM {t} AS s
  WHERE s.withdrawn = 0 AND NOT EXISTS
    (SELECT 1 FROM {t} AS n WHERE n.revises = coalesce(s.revises, s.row) AND n.row > s.row);
)";
  return with_name(head + columns + tail, table) + guarded_by(table, "id = NEW.id");
}

std::string vessels_and_fills() {
  return entries("people", R"(
  initials TEXT NOT NULL CHECK (initials <> ''),
  name TEXT NOT NULL)") +
         entries("vessels", R"(
  name TEXT NOT NULL CHECK (name <> ''),
  design TEXT NOT NULL,
  note TEXT NOT NULL)") +
         entries("lots", R"(
  name TEXT NOT NULL CHECK (name <> ''),
  feedstock TEXT NOT NULL,
  supplier TEXT NOT NULL,
  received_s INTEGER NOT NULL,
  mass_wet_kg REAL CHECK (mass_wet_kg > 0),
  note TEXT NOT NULL)") +
         entries("fills", R"(
  vessel INTEGER NOT NULL REFERENCES vessels(row),
  batch TEXT NOT NULL CHECK (batch <> ''),
  filled_s INTEGER NOT NULL,
  volume_m3 REAL CHECK (volume_m3 > 0),
  moisture_wet REAL CHECK (moisture_wet BETWEEN 0 AND 1),
  carbon_to_nitrogen REAL CHECK (carbon_to_nitrogen > 0),
  note TEXT NOT NULL)") +
         "CREATE INDEX fills_vessel ON fills(vessel, filled_s);" + entries("lot_uses", R"(
  fill INTEGER NOT NULL REFERENCES fills(row),
  lot INTEGER NOT NULL REFERENCES lots(row),
  mass_wet_kg REAL NOT NULL CHECK (mass_wet_kg > 0))") +
         "CREATE INDEX lot_uses_fill ON lot_uses(fill);";
}

/// A series is one measure at one place of one fill: readings name it by a small number, and the last reading of
/// each is one step in an index.
std::string readings() {
  return entries("csv_sources", R"(
  name TEXT NOT NULL CHECK (name <> ''),
  mapping TEXT NOT NULL)") +
         R"(
CREATE TABLE measures (key TEXT PRIMARY KEY, unit TEXT NOT NULL) STRICT;
INSERT INTO measures VALUES ('temperature', 'degC'), ('moisture', 'kg/kg wet'), ('oxygen', 'm3/m3'),
  ('carbon_dioxide', 'm3/m3'), ('conductivity', 'S/m'), ('acidity', 'pH');
CREATE TABLE series (
  row INTEGER PRIMARY KEY,
  fill INTEGER NOT NULL REFERENCES fills(row),
  measure TEXT NOT NULL REFERENCES measures(key),
  place_key TEXT NOT NULL,
  place TEXT NOT NULL,
  angle_rad REAL,
  radius_m REAL,
  depth_m REAL,
  height_m REAL,
  UNIQUE (fill, measure, place_key)
) STRICT;
)" + guarded_by("series", "(fill = NEW.fill AND measure = NEW.measure AND place_key = NEW.place_key)") +
         entries("readings", R"(
  series INTEGER NOT NULL REFERENCES series(row),
  at_s INTEGER NOT NULL,
  value REAL NOT NULL,
  source INTEGER REFERENCES csv_sources(row),
  written TEXT NOT NULL)") +
         "CREATE INDEX readings_series ON readings(series, at_s);";
}

std::string events() {
  return R"(
CREATE TABLE event_kinds (key TEXT PRIMARY KEY) STRICT;
INSERT INTO event_kinds VALUES ('forms_out'), ('sprinkled'), ('covered'), ('channel_cleared'), ('worms_in'),
  ('sampled'), ('cured'), ('harvested'), ('emptied'), ('other');
)" + entries("events", R"(
  fill INTEGER NOT NULL REFERENCES fills(row),
  kind TEXT NOT NULL REFERENCES event_kinds(key),
  at_s INTEGER NOT NULL,
  volume_m3 REAL CHECK (volume_m3 > 0),
  mass_kg REAL CHECK (mass_kg > 0),
  duration_s REAL CHECK (duration_s > 0),
  note TEXT NOT NULL)") +
         "CREATE INDEX events_fill ON events(fill, kind, at_s);";
}

std::string tests_and_spreading() {
  return entries("lab_tests", R"(
  fill INTEGER REFERENCES fills(row),
  lot INTEGER REFERENCES lots(row),
  key TEXT NOT NULL CHECK (key <> ''),
  value REAL NOT NULL,
  unit TEXT NOT NULL,
  laboratory TEXT NOT NULL,
  method TEXT NOT NULL,
  sampled_s INTEGER NOT NULL,
  note TEXT NOT NULL,
  CHECK ((fill IS NULL) <> (lot IS NULL)))") +
         "CREATE INDEX lab_tests_fill ON lab_tests(fill);" + entries("spreadings", R"(
  fill INTEGER NOT NULL REFERENCES fills(row),
  at_s INTEGER NOT NULL,
  place TEXT NOT NULL CHECK (place <> ''),
  volume_m3 REAL CHECK (volume_m3 > 0),
  area_m2 REAL CHECK (area_m2 > 0),
  note TEXT NOT NULL)") +
         "CREATE INDEX spreadings_fill ON spreadings(fill);";
}

std::string photos() {
  return entries("photos", R"(
  fill INTEGER NOT NULL REFERENCES fills(row),
  taken_s INTEGER NOT NULL,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  media_type TEXT NOT NULL,
  bytes INTEGER NOT NULL CHECK (bytes > 0),
  note TEXT NOT NULL)") +
         "CREATE INDEX photos_fill ON photos(fill);";
}

std::string due_days() {
  return entries("due_days", R"(
  vessel TEXT NOT NULL,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  latest_date TEXT NOT NULL,
  what TEXT NOT NULL CHECK (what <> ''))");
}

/// All that insight reads of a reading, so that a year of a fill is read from the index alone.
constexpr const char* wide_index = R"(
DROP INDEX readings_series;
CREATE INDEX readings_series ON readings(series, at_s, value, withdrawn, revises);
)";

constexpr const char* lots_index = "CREATE INDEX IF NOT EXISTS lot_uses_lot ON lot_uses(lot);";

}  // namespace

std::span<const Migration> migrations() {
  static const std::vector<Migration> steps{
      {"people, vessels, lots and fills", vessels_and_fills()},
      {"readings and the loggers they come from", readings()},
      {"events", events()},
      {"laboratory tests and spreading", tests_and_spreading()},
      {"photos", photos()},
      {"days on which a plan sets work", due_days()},
      {"readings of a series out of their index", wide_index},
      {"uses of a lot out of an index", lots_index},
  };
  return steps;
}

std::span<const char* const> entry_tables() noexcept {
  static constexpr std::array tables{"people",   "vessels", "lots",      "fills",      "lot_uses", "csv_sources",
                                     "readings", "events",  "lab_tests", "spreadings", "photos",   "due_days"};
  return tables;
}

}  // namespace stillheap::record
