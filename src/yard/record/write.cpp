#include "yard/record/write.hpp"

#include <utility>

#include "yard/record/contents.hpp"
#include "yard/record/references.hpp"
#include "yard/record/series.hpp"
#include "yard/record/when.hpp"

namespace stillheap::record {
namespace {

using Connection = Store::Connection;

/// Names an entry may carry only once among those that stand.
template <class Entry>
constexpr const char* sole_name() {
  if constexpr (std::same_as<Entry, Person>) return "initials";
  if constexpr (std::same_as<Entry, Fill>) return "batch";
  if constexpr (std::same_as<Entry, Vessel> || std::same_as<Entry, Lot> || std::same_as<Entry, CsvSource>)
    return "name";
  return nullptr;
}

void throw_if_any(Problems problems) {
  if (!problems.empty()) throw InputError(std::move(problems));
}

template <class Entry>
std::optional<Entry> statement(Connection& connection, const std::string& id) {
  const IdBytes bytes = id_bytes(id).value();
  Query query(connection, select<Entry>(false, "WHERE t.id = ?"));
  query->bind(1, bytes.data(), static_cast<int>(bytes.size()));
  if (!query->executeStep()) return std::nullopt;
  return load<Entry>(*query);
}

template <class Entry>
Entry latest_of(Connection& connection, Row thing) {
  Query query(connection, select<Entry>(false, "WHERE t.row = ?1 OR t.revises = ?1 ORDER BY t.row DESC LIMIT 1"));
  query->bind(1, thing);
  (void)query->executeStep();
  return load<Entry>(*query);
}

/// Whether an entry that is there already says what this one says. A withdrawal has nothing to say but why.
template <class Entry>
bool same(const Entry& there, const Entry& given) {
  const bool same_mark = there.mark.by == given.mark.by && there.mark.reason == given.mark.reason &&
                         there.mark.withdrawn == given.mark.withdrawn && there.mark.zone == given.mark.zone;
  if (!same_mark || given.mark.withdrawn) return same_mark;
  Entry rounded = given;  // a place is kept as its first reading gave it
  if constexpr (std::same_as<Entry, Reading>) {
    if (place_key(there.place) == place_key(given.place)) rounded.place = there.place;
  }
  return contents(there) == contents(rounded);
}

template <class Entry>
void check_correction(Connection& connection, const Entry& entry, Row thing) {
  if (thing == 0) {
    throw InputError(std::string(Kind<Entry>::word) + ": corrects",
                     "= \"" + entry.mark.corrects + "\" is not in the records",
                     "name the entry that is to be corrected");
  }
  const EntryMetadata latest = latest_of<Entry>(connection, thing).mark;
  if (id_bytes(latest.id) == id_bytes(entry.mark.corrects)) return;
  throw InputError(std::string(Kind<Entry>::word) + ": corrects",
                   "has been corrected already by " + latest.by + " at " + to_utc_text(latest.stored_at),
                   "look at that one, and correct it if it is wrong (" + latest.id + ")");
}

template <class Entry>
void check_name(Connection& connection, const Entry& entry, Row thing, Problems& problems) {
  if constexpr (sole_name<Entry>() != nullptr) {
    const std::string column = sole_name<Entry>();
    std::string name;
    for (const auto& [key, text] : contents(entry)) {
      if (key == column) name = text;
    }
    Query query(connection, "SELECT 1 FROM current_" + std::string(Kind<Entry>::table) + " WHERE " + column +
                                " = ?1 AND thing <> ?2");
    query->bind(1, name);
    query->bind(2, thing);
    if (query->executeStep()) {
      problems.push_back({std::string(Kind<Entry>::word) + ": " + column, "= \"" + name + "\" is taken",
                          "choose another, or correct the one that is there"});
    }
  }
}

void check_vessel_is_free(Connection& connection, const Fill& fill, Row thing, Problems& problems) {
  Query query(connection,
              "SELECT t.batch FROM current_fills AS t WHERE t.vessel = ?1 AND t.thing <> ?2 AND NOT EXISTS "
              "(SELECT 1 FROM current_events AS e WHERE e.fill = t.thing AND e.kind IN " +
                  kinds_that_end_a_fill() + ")");
  query->bind(1, thing_of(connection, "vessels", fill.vessel_id));
  query->bind(2, thing);
  if (!query->executeStep()) return;
  problems.push_back({"fill: vessel", "still holds batch \"" + query->getColumn(0).getString() + "\"",
                      "note first when that one was harvested or emptied"});
}

template <class Entry>
void collect(Values& values, Connection&, const Entry& entry) {
  visit(entry, values);
}

void collect(Values& values, Connection& connection, const Reading& reading) {
  values.whole("series", series_of(connection, reading));
  values.instant("at_s", reading.at);
  values.number("value", reading.value);
  values.named("source", reading.source, "csv_sources");
  values.text("written", reading.written);
}

template <class Entry>
void insert(Connection& connection, const Entry& entry, Row thing) {
  Values values(connection);
  collect(values, connection, entry);
  std::string sql =
      "INSERT INTO " + std::string(Kind<Entry>::table) + " (id, revises, reason, withdrawn, noted_by, noted_s, zone";
  std::string marks = "?, ?, ?, ?, ?, ?, ?";
  for (const std::string& column : values.columns()) {
    sql += ", " + column;
    marks += ", ?";
  }
  Query query(connection, sql + ") VALUES (" + marks + ")");
  const IdBytes bytes = id_bytes(entry.mark.id).value();
  query->bind(1, bytes.data(), static_cast<int>(bytes.size()));
  if (thing != 0) {
    query->bind(2, thing);
    query->bind(3, entry.mark.reason);
  }
  query->bind(4, entry.mark.withdrawn ? 1 : 0);
  query->bind(5, entry.mark.by);
  query->bind(6, static_cast<std::int64_t>(entry.mark.noted_at.time_since_epoch().count()));
  query->bind(7, entry.mark.zone);
  values.bind_all(*query, 8);
  query->exec();
}

template <class Entry>
void normalise(Entry& entry) {
  EntryMetadata& mark = entry.mark;
  if (mark.id.empty()) mark.id = new_id();
  if (const auto bytes = id_bytes(mark.id)) mark.id = id_text(*bytes);
  if (mark.zone.empty()) mark.zone = "UTC";
  if (mark.noted_at == Instant{}) mark.noted_at = now();
}

template <class Entry>
Stored add_within(Connection& connection, Entry entry) {
  normalise(entry);
  Problems problems;
  check(entry.mark, Kind<Entry>::word, problems);
  throw_if_any(problems);
  if (!entry.mark.withdrawn) visit(entry, Resolve(connection, Kind<Entry>::word, problems));
  throw_if_any(problems);
  if (const auto there = statement<Entry>(connection, entry.mark.id)) {
    if (same(*there, entry)) return {Outcome::known, there->mark.id};
    throw InputError(std::string(Kind<Entry>::word) + ": id", "= " + entry.mark.id + " stands for another entry",
                     "give each entry an id of its own");
  }
  Row thing = 0;
  if (!entry.mark.corrects.empty()) {
    thing = thing_of(connection, Kind<Entry>::table, entry.mark.corrects);
    check_correction(connection, entry, thing);
  }
  if (entry.mark.withdrawn) {
    const EntryMetadata mark = entry.mark;
    entry = latest_of<Entry>(connection, thing);
    entry.mark = mark;
  } else {
    check(entry, problems);
    visit(std::as_const(entry), Standing(connection, Kind<Entry>::word, problems));
    check_name(connection, entry, thing, problems);
    if constexpr (requires { check_when(connection, entry, thing, problems); })
      check_when(connection, entry, thing, problems);
    if constexpr (std::same_as<Entry, Fill>) check_vessel_is_free(connection, entry, thing, problems);
    throw_if_any(problems);
  }
  if constexpr (std::same_as<Entry, Reading>) {
    const std::string duplicate = thing == 0 ? find_duplicate(connection, entry) : std::string{};
    if (!duplicate.empty()) return {Outcome::duplicate, duplicate};
  }
  insert(connection, entry, thing);
  return {Outcome::stored, entry.mark.id};
}

}  // namespace

template <class Entry>
Stored add(Store& store, const Entry& entry) {
  return guarded(store.file(), [&] {
    Transaction together(store);
    Stored stored = add_within(store.connection(), entry);
    together.commit();
    return stored;
  });
}

template Stored add<Person>(Store&, const Person&);
template Stored add<Vessel>(Store&, const Vessel&);
template Stored add<Lot>(Store&, const Lot&);
template Stored add<Fill>(Store&, const Fill&);
template Stored add<LotUse>(Store&, const LotUse&);
template Stored add<Reading>(Store&, const Reading&);
template Stored add<Event>(Store&, const Event&);
template Stored add<LabTest>(Store&, const LabTest&);
template Stored add<Spreading>(Store&, const Spreading&);
template Stored add<Photo>(Store&, const Photo&);
template Stored add<CsvSource>(Store&, const CsvSource&);
template Stored add<DueDay>(Store&, const DueDay&);

}  // namespace stillheap::record
