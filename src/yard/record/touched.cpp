#include "yard/record/touched.hpp"

#include <array>

#include "yard/record/load.hpp"

namespace stillheap::record {
namespace {

constexpr std::array other_tables{"vessels", "fills", "lots", "lot_uses", "lab_tests"};

std::int64_t last_row(Store::Connection& connection, const std::string& table) {
  Query query(connection, "SELECT coalesce(max(row), 0) FROM " + table);
  return query->executeStep() ? query->getColumn(0).getInt64() : 0;
}

/// A correction touches the fill it names and the fills that earlier statements named.
constexpr const char* by_readings = R"(
SELECT f.id FROM fills AS f WHERE f.row IN (
  SELECT s.fill FROM readings AS r JOIN series AS s ON s.row = r.series WHERE r.row > ?1
  UNION SELECT s.fill FROM readings AS r JOIN readings AS o ON o.row = r.revises
    JOIN series AS s ON s.row = o.series WHERE r.row > ?1
  UNION SELECT s.fill FROM readings AS r JOIN readings AS o ON o.revises = r.revises
    JOIN series AS s ON s.row = o.series WHERE r.row > ?1))";

constexpr const char* by_events = R"(
SELECT f.id FROM fills AS f WHERE f.row IN (
  SELECT e.fill FROM events AS e WHERE e.row > ?1
  UNION SELECT o.fill FROM events AS e JOIN events AS o ON o.row = e.revises WHERE e.row > ?1
  UNION SELECT o.fill FROM events AS e JOIN events AS o ON o.revises = e.revises WHERE e.row > ?1))";

void collect(Store::Connection& connection, const char* sql, std::int64_t after, std::set<std::string>& fills) {
  Query query(connection, sql);
  query->bind(1, after);
  while (query->executeStep()) fills.insert(id_of(query->getColumn(0)));
}

}  // namespace

Waterline waterline(const Store& store) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    Waterline line{last_row(connection, "readings"), last_row(connection, "events"), 0};
    for (const char* table : other_tables) line.others += last_row(connection, table);  // rows only ever grow
    return line;
  });
}

Touched touched_since(const Store& store, const Waterline& then) {
  const Waterline line = waterline(store);
  return guarded(store.file(), [&] {
    Touched touched;
    touched.all = line.others != then.others;
    if (line.readings > then.readings) collect(store.connection(), by_readings, then.readings, touched.fills);
    if (line.events > then.events) collect(store.connection(), by_events, then.events, touched.fills);
    return touched;
  });
}

}  // namespace stillheap::record
