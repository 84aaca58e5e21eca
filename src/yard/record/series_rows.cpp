#include "yard/record/series_rows.hpp"

#include <algorithm>
#include <limits>
#include <unordered_map>

#include "yard/record/load.hpp"

namespace stillheap::record {
namespace {

/// A statement about a reading, as the index has it.
struct Stated {
  Row row = 0;
  Row thing = 0;  ///< row of the first statement
  Instant at{};
  double value = 0.0;
  bool withdrawn = false;
};

std::vector<Stated> statements_of(Store::Connection& connection, Row series, Instant begin, Instant end) {
  Query query(connection,
              "SELECT row, coalesce(revises, row), at_s, value, withdrawn FROM readings "
              "WHERE series = ?1 AND at_s >= ?2 AND at_s < ?3 ORDER BY at_s");
  query->bind(1, series);
  query->bind(2, static_cast<std::int64_t>(begin.time_since_epoch().count()));
  query->bind(3, static_cast<std::int64_t>(end.time_since_epoch().count()));
  std::vector<Stated> found;
  while (query->executeStep()) {
    found.push_back({query->getColumn(0).getInt64(), query->getColumn(1).getInt64(),
                     Instant{std::chrono::seconds{query->getColumn(2).getInt64()}}, query->getColumn(3).getDouble(),
                     query->getColumn(4).getInt() != 0});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Stated& a, const Stated& b) { return a.at != b.at ? a.at < b.at : a.row < b.row; });
  return found;
}

/// The latest correction of each reading whose first statement lies between the rows, wherever the correction put it.
std::unordered_map<Row, Row> corrections(Store::Connection& connection, Row first, Row last) {
  Query query(connection, "SELECT revises, row FROM readings WHERE revises IS NOT NULL AND revises BETWEEN ?1 AND ?2");
  query->bind(1, first);
  query->bind(2, last);
  std::unordered_map<Row, Row> latest;
  while (query->executeStep()) {
    Row& row = latest[query->getColumn(0).getInt64()];
    row = std::max(row, static_cast<Row>(query->getColumn(1).getInt64()));
  }
  return latest;
}

struct Found {
  SeriesRows rows;
  std::vector<Stated> stated;
};

std::vector<Found> all_series(Store::Connection& connection, Row fill, Instant begin, Instant end) {
  Query query(connection,
              "SELECT row, measure, place, angle_rad, radius_m, depth_m, height_m FROM series WHERE fill = ? ORDER BY "
              "row");
  query->bind(1, fill);
  std::vector<Found> all;
  while (query->executeStep()) {
    Found one;
    one.rows.measure = measure_of(query->getColumn(1).getString()).value();
    Loader loader(*query, 2);
    loader.text("place", one.rows.place.name);
    loader.maybe("angle_rad", one.rows.place.angle_rad);
    loader.maybe("radius_m", one.rows.place.radius_m);
    loader.maybe("depth_m", one.rows.place.depth_m);
    loader.maybe("height_m", one.rows.place.height_m);
    one.stated = statements_of(connection, query->getColumn(0).getInt64(), begin, end);
    all.push_back(std::move(one));
  }
  return all;
}

/// Leaves out what was corrected or withdrawn.
SeriesRows standing(Found found, const std::unordered_map<Row, Row>& latest) {
  SeriesRows rows = std::move(found.rows);
  rows.at.reserve(found.stated.size());
  rows.value.reserve(found.stated.size());
  rows.row.reserve(found.stated.size());
  for (const Stated& one : found.stated) {
    const auto corrected = latest.find(one.thing);
    if (one.withdrawn || (corrected != latest.end() && corrected->second > one.row)) continue;
    rows.at.push_back(one.at);
    rows.value.push_back(one.value);
    rows.row.push_back(one.row);
  }
  return rows;
}

}  // namespace

std::vector<SeriesRows> series_rows(const Store& store, const std::string& fill_id, Instant begin, Instant end) {
  return guarded(store.file(), [&] {
    Store::Connection& connection = store.connection();
    std::vector<Found> all = all_series(connection, thing_of(connection, "fills", fill_id), begin, end);
    Row first = std::numeric_limits<Row>::max();
    Row last = 0;
    for (const Found& one : all) {
      for (const Stated& stated : one.stated) {
        first = std::min(first, stated.thing);
        last = std::max(last, stated.thing);
      }
    }
    const auto latest = corrections(connection, first, last);
    std::vector<SeriesRows> kept;
    for (Found& one : all) {
      SeriesRows rows = standing(std::move(one), latest);
      if (!rows.at.empty()) kept.push_back(std::move(rows));
    }
    std::stable_sort(kept.begin(), kept.end(),
                     [](const SeriesRows& a, const SeriesRows& b) { return a.at.front() < b.at.front(); });
    return kept;
  });
}

std::vector<std::string> reading_ids(const Store& store, std::span<const std::int64_t> rows) {
  return guarded(store.file(), [&] {
    Query query(store.connection(), "SELECT id FROM readings WHERE row = ?");
    std::vector<std::string> ids;
    ids.reserve(rows.size());
    for (const std::int64_t row : rows) {
      query->bind(1, row);
      ids.push_back(query->executeStep() ? id_of(query->getColumn(0)) : std::string{});
      query->reset();
    }
    return ids;
  });
}

}  // namespace stillheap::record
