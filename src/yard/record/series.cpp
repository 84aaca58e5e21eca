#include "yard/record/series.hpp"

#include <cmath>

#include "yard/record/load.hpp"

namespace stillheap::record {
namespace {

void bind_maybe(SQLite::Statement& statement, int at, const std::optional<double>& value) {
  if (value) statement.bind(at, *value);
}

}  // namespace

std::string place_key(const Place& place) {
  constexpr double deg_per_rad = 57.295779513082320877;
  std::string key;
  for (const char one : place.name) {
    if (one == '|' || one == '\\') key += '\\';  // "core|d500" is a name, not the core at half a metre
    key += one;
  }
  const auto add = [&key](const char* mark, const std::optional<double>& value, double scale) {
    if (value) key += std::string("|") + mark + std::to_string(std::llround(*value * scale));
  };
  add("a", place.angle_rad, 10.0 * deg_per_rad);
  add("r", place.radius_m, 1000.0);
  add("d", place.depth_m, 1000.0);
  add("h", place.height_m, 1000.0);
  return key;
}

Row find_series(Store::Connection& connection, const Reading& reading) {
  Query query(connection, "SELECT row FROM series WHERE fill = ? AND measure = ? AND place_key = ?");
  query->bind(1, thing_of(connection, "fills", reading.fill_id));
  query->bind(2, std::string(info(reading.measure).key));
  query->bind(3, place_key(reading.place));
  return query->executeStep() ? query->getColumn(0).getInt64() : 0;
}

Row series_of(Store::Connection& connection, const Reading& reading) {
  if (const Row found = find_series(connection, reading)) return found;
  Query insert(connection,
               "INSERT INTO series (fill, measure, place_key, place, angle_rad, radius_m, depth_m, height_m) "
               "VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
  insert->bind(1, thing_of(connection, "fills", reading.fill_id));
  insert->bind(2, std::string(info(reading.measure).key));
  insert->bind(3, place_key(reading.place));
  insert->bind(4, reading.place.name);
  bind_maybe(*insert, 5, reading.place.angle_rad);
  bind_maybe(*insert, 6, reading.place.radius_m);
  bind_maybe(*insert, 7, reading.place.depth_m);
  bind_maybe(*insert, 8, reading.place.height_m);
  insert->exec();
  return connection.database.getLastInsertRowid();
}

std::string find_duplicate(Store::Connection& connection, const Reading& reading) {
  Query query(connection, "SELECT t.id FROM current_readings AS t WHERE t.series = ? AND t.at_s = ? AND t.value = ?");
  query->bind(1, find_series(connection, reading));
  query->bind(2, std::int64_t{reading.at.time_since_epoch().count()});
  query->bind(3, reading.value);
  return query->executeStep() ? id_of(query->getColumn(0)) : std::string{};
}

}  // namespace stillheap::record
