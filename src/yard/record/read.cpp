#include "yard/record/read.hpp"

#include <algorithm>

#include "yard/record/load.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

/// Readings come in order of time, everything else as it was stored.
template <class Entry>
std::string in_order() {
  if constexpr (std::same_as<Entry, Reading> || std::same_as<Entry, Event> || std::same_as<Entry, Spreading>) {
    return " ORDER BY at_s, t.row";
  } else if constexpr (std::same_as<Entry, Photo>) {
    return " ORDER BY taken_s, t.row";
  } else if constexpr (std::same_as<Entry, LabTest>) {
    return " ORDER BY sampled_s, t.row";
  } else {
    return " ORDER BY coalesce(t.revises, t.row)";
  }
}

/// Not taken out of its vessel until ?2.
std::string still_in() {
  return " AND NOT EXISTS (SELECT 1 FROM current_events AS e WHERE e.fill = t.thing AND e.at_s <= ?2 AND e.kind IN " +
         kinds_that_end_a_fill() + ")";
}

std::vector<Reading> last_of_thing(Store::Connection& connection, Row fill, Instant until) {
  std::vector<Reading> last;
  Query series(connection, "SELECT row FROM series WHERE fill = ? ORDER BY measure, place_key");
  series->bind(1, fill);
  const std::string one =
      select<Reading>(true, "WHERE t.series = ?1 AND t.at_s <= ?2 ORDER BY t.at_s DESC, t.row DESC LIMIT 1");
  while (series->executeStep()) {
    for (Reading& reading :
         load_all<Reading>(connection, one, {series->getColumn(0).getInt64(), until.time_since_epoch().count()})) {
      last.push_back(std::move(reading));
    }
  }
  return last;
}

std::map<EventKind, Event> last_events(Store::Connection& connection, Row fill, Instant until) {
  std::map<EventKind, Event> last;
  const std::string one = select<Event>(
      true, "WHERE t.fill = ?1 AND t.kind = ?2 AND t.at_s <= ?3 ORDER BY t.at_s DESC, t.row DESC LIMIT 1");
  for (const EventInfo& kind : event_kinds()) {
    Query query(connection, one);
    query->bind(1, fill);
    query->bind(2, std::string(kind.key));
    query->bind(3, static_cast<std::int64_t>(until.time_since_epoch().count()));
    if (query->executeStep()) last.emplace(kind.kind, load<Event>(*query));
  }
  return last;
}

}  // namespace

std::string id_of(const SQLite::Column& column) {
  if (column.isNull()) return {};
  IdBytes bytes{};
  std::copy_n(static_cast<const std::uint8_t*>(column.getBlob()), bytes.size(), bytes.begin());
  return id_text(bytes);
}

const std::string& kinds_that_end_a_fill() {
  static const std::string list = [] {
    std::string text;
    for (const EventInfo& one : event_kinds()) {
      if (ends_fill(one.kind)) text += (text.empty() ? "('" : ", '") + std::string(one.key) + '\'';
    }
    return text + ')';
  }();
  return list;
}

void Loader::refer(const char*, std::string& id, const char*, bool) { id = id_of(next()); }

std::string mark_columns(const std::string& table) {
  // The statement a correction was made on is the one before it about the same thing.
  return "t.id, t.noted_by, t.noted_s, t.zone, t.reason, t.withdrawn, t.stored_s, "
         "CASE WHEN t.revises IS NOT NULL THEN (SELECT p.id FROM " +
         table +
         " AS p WHERE (p.row = t.revises OR p.revises = t.revises) AND p.row < t.row ORDER BY p.row DESC LIMIT 1) END, "
         "CASE WHEN t.revises IS NOT NULL THEN (SELECT p.id FROM " +
         table + " AS p WHERE p.row = t.revises) ELSE t.id END";
}

void load_mark(SQLite::Statement& statement, EntryMetadata& mark) {
  mark.id = id_of(statement.getColumn(0));
  mark.by = statement.getColumn(1).getString();
  mark.noted_at = Instant{std::chrono::seconds{statement.getColumn(2).getInt64()}};
  mark.zone = statement.getColumn(3).getString();
  mark.reason = statement.getColumn(4).getString();
  mark.withdrawn = statement.getColumn(5).getInt() != 0;
  mark.stored_at = Instant{std::chrono::seconds{statement.getColumn(6).getInt64()}};
  mark.corrects = id_of(statement.getColumn(7));
  mark.thing = id_of(statement.getColumn(8));
}

Row thing_of(Store::Connection& connection, const char* table, const std::string& id) {
  const std::optional<IdBytes> bytes = id_bytes(id);
  if (!bytes) return 0;
  Query query(connection, "SELECT coalesce(revises, row) FROM " + std::string(table) + " WHERE id = ?");
  query->bind(1, bytes->data(), static_cast<int>(bytes->size()));
  return query->executeStep() ? query->getColumn(0).getInt64() : 0;
}

template <class Entry>
std::vector<Entry> all(const Store& store) {
  return guarded(store.file(),
                 [&] { return load_all<Entry>(store.connection(), select<Entry>(true, in_order<Entry>())); });
}

template <class Entry>
std::vector<Entry> history(const Store& store, const std::string& id) {
  return guarded(store.file(), [&] {
    const Row thing = thing_of(store.connection(), Kind<Entry>::table, id);
    return load_all<Entry>(store.connection(),
                           select<Entry>(false, "WHERE t.row = ?1 OR t.revises = ?1 ORDER BY t.row"), {thing});
  });
}

template <class Entry>
std::optional<Entry> current(const Store& store, const std::string& id) {
  return guarded(store.file(), [&]() -> std::optional<Entry> {
    const Row thing = thing_of(store.connection(), Kind<Entry>::table, id);
    // By row, not by the view's thing: that one is no index.
    const auto found =
        load_all<Entry>(store.connection(), select<Entry>(true, "WHERE t.row = ?1 OR t.revises = ?1"), {thing});
    return found.empty() ? std::nullopt : std::optional<Entry>{found.front()};
  });
}

template <class Entry>
std::vector<Entry> of_fill(const Store& store, const std::string& fill_id) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    const Row fill = thing_of(connection, "fills", fill_id);
    return load_all<Entry>(connection, select<Entry>(true, "WHERE fill = ?" + in_order<Entry>()), {fill});
  });
}

std::vector<Reading> readings_between(const Store& store, const std::string& fill_id, Instant begin, Instant end,
                                      std::optional<Measure> measure) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    const Row fill = thing_of(connection, "fills", fill_id);
    std::string tail = "WHERE s.fill = ?1 AND t.at_s >= ?2 AND t.at_s < ?3";
    if (measure) tail += " AND s.measure = '" + std::string(info(*measure).key) + "'";
    return load_all<Reading>(connection, select<Reading>(true, tail + in_order<Reading>()),
                             {fill, begin.time_since_epoch().count(), end.time_since_epoch().count()});
  });
}

std::vector<Reading> correcting_readings(const Store& store, const std::string& fill_id) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    // The plus keeps the planner at the index of corrections, which are few, and away from all readings of the fill.
    const std::string tail = "WHERE +s.fill = ? AND t.revises IS NOT NULL AND t.revises > 0";
    return load_all<Reading>(connection, select<Reading>(true, tail + in_order<Reading>()),
                             {thing_of(connection, "fills", fill_id)});
  });
}

std::vector<Reading> last_readings(const Store& store, const std::string& fill_id) {
  return guarded(store.file(), [&] {
    return last_of_thing(store.connection(), thing_of(store.connection(), "fills", fill_id), end_of_time);
  });
}

double used_of_lot_kg(const Store& store, const std::string& lot_id, const std::string& but) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    Query query(connection, "SELECT total(mass_wet_kg) FROM current_lot_uses WHERE lot = ?1 AND thing <> ?2");
    query->bind(1, thing_of(connection, "lots", lot_id));
    query->bind(2, thing_of(connection, "lot_uses", but));
    (void)query->executeStep();
    return query->getColumn(0).getDouble();
  });
}

std::vector<VesselGlance> yard(const Store& store, Instant until) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    const std::string fill_of = select<Fill>(true, "WHERE t.vessel = ?1 AND t.filled_s <= ?2" + still_in() +
                                                       " ORDER BY t.filled_s DESC, t.row DESC LIMIT 1");
    std::vector<VesselGlance> glances;
    for (Vessel& vessel : load_all<Vessel>(connection, select<Vessel>(true, "ORDER BY t.name"))) {
      VesselGlance glance;
      const Row thing = thing_of(connection, "vessels", vessel.mark.id);
      for (Fill& fill : load_all<Fill>(connection, fill_of, {thing, until.time_since_epoch().count()})) {
        const Row fill_thing = thing_of(connection, "fills", fill.mark.id);
        glance.last = last_of_thing(connection, fill_thing, until);
        glance.events = last_events(connection, fill_thing, until);
        glance.fill = std::move(fill);
      }
      glance.vessel = std::move(vessel);
      glances.push_back(std::move(glance));
    }
    return glances;
  });
}

std::vector<VesselFill> fills_of(const Store& store, const std::string& vessel_id) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    const Row vessel = thing_of(connection, "vessels", vessel_id);
    const std::string end = select<Event>(
        true, "WHERE t.fill = ?1 AND t.kind IN " + kinds_that_end_a_fill() + " ORDER BY t.at_s, t.row LIMIT 1");
    std::vector<VesselFill> fills;
    for (Fill& fill : load_all<Fill>(
             connection, select<Fill>(true, "WHERE t.vessel = ?1 ORDER BY t.filled_s DESC, t.row DESC"), {vessel})) {
      const auto ended = load_all<Event>(connection, end, {thing_of(connection, "fills", fill.mark.id)});
      fills.push_back({std::move(fill), ended.empty() ? std::nullopt : std::optional<Event>{ended.front()}});
    }
    return fills;
  });
}

std::map<std::string, long long> counts(const Store& store) {
  return guarded(store.file(), [&] {
    std::map<std::string, long long> found;
    for (const char* table : entry_tables()) {
      Query query(store.connection(), "SELECT count(*) FROM " + std::string(table));
      (void)query->executeStep();
      found[table] = query->getColumn(0).getInt64();
    }
    return found;
  });
}

template std::vector<Person> all<Person>(const Store&);
template std::vector<Vessel> all<Vessel>(const Store&);
template std::vector<Lot> all<Lot>(const Store&);
template std::vector<Fill> all<Fill>(const Store&);
template std::vector<LotUse> all<LotUse>(const Store&);
template std::vector<Reading> all<Reading>(const Store&);
template std::vector<Event> all<Event>(const Store&);
template std::vector<LabTest> all<LabTest>(const Store&);
template std::vector<Spreading> all<Spreading>(const Store&);
template std::vector<Photo> all<Photo>(const Store&);
template std::vector<CsvSource> all<CsvSource>(const Store&);
template std::vector<DueDay> all<DueDay>(const Store&);

template std::vector<Person> history<Person>(const Store&, const std::string&);
template std::vector<Vessel> history<Vessel>(const Store&, const std::string&);
template std::vector<Lot> history<Lot>(const Store&, const std::string&);
template std::vector<Fill> history<Fill>(const Store&, const std::string&);
template std::vector<LotUse> history<LotUse>(const Store&, const std::string&);
template std::vector<Reading> history<Reading>(const Store&, const std::string&);
template std::vector<Event> history<Event>(const Store&, const std::string&);
template std::vector<LabTest> history<LabTest>(const Store&, const std::string&);
template std::vector<Spreading> history<Spreading>(const Store&, const std::string&);
template std::vector<Photo> history<Photo>(const Store&, const std::string&);
template std::vector<CsvSource> history<CsvSource>(const Store&, const std::string&);
template std::vector<DueDay> history<DueDay>(const Store&, const std::string&);

template std::optional<Person> current<Person>(const Store&, const std::string&);
template std::optional<Vessel> current<Vessel>(const Store&, const std::string&);
template std::optional<Lot> current<Lot>(const Store&, const std::string&);
template std::optional<Fill> current<Fill>(const Store&, const std::string&);
template std::optional<LotUse> current<LotUse>(const Store&, const std::string&);
template std::optional<Reading> current<Reading>(const Store&, const std::string&);
template std::optional<Event> current<Event>(const Store&, const std::string&);
template std::optional<LabTest> current<LabTest>(const Store&, const std::string&);
template std::optional<Spreading> current<Spreading>(const Store&, const std::string&);
template std::optional<Photo> current<Photo>(const Store&, const std::string&);
template std::optional<CsvSource> current<CsvSource>(const Store&, const std::string&);
template std::optional<DueDay> current<DueDay>(const Store&, const std::string&);

template std::vector<LotUse> of_fill<LotUse>(const Store&, const std::string&);
template std::vector<Reading> of_fill<Reading>(const Store&, const std::string&);
template std::vector<Event> of_fill<Event>(const Store&, const std::string&);
template std::vector<LabTest> of_fill<LabTest>(const Store&, const std::string&);
template std::vector<Spreading> of_fill<Spreading>(const Store&, const std::string&);
template std::vector<Photo> of_fill<Photo>(const Store&, const std::string&);

}  // namespace stillheap::record
