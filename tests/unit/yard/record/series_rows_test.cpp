#include "yard/record/series_rows.hpp"

#include <gtest/gtest.h>

#include <map>

#include "yard.hpp"
#include "yard/record/touched.hpp"

namespace stillheap::record {
namespace {

using test::Yard;

Reading corrected(const Reading& old, const std::string& id, double value) {
  Reading one = old;
  one.mark = test::by("ab");
  one.mark.corrects = id;
  one.mark.reason = "slip";
  one.value = value;
  return one;
}

/// Everything of the fill by place: what of_fill says, and what series_rows says.
std::map<std::string, std::vector<std::pair<Instant, double>>> slowly(const Yard& yard) {
  std::map<std::string, std::vector<std::pair<Instant, double>>> all;
  for (const Reading& one : of_fill<Reading>(yard.store, yard.fill_id)) {
    all[one.place.name].emplace_back(one.at, one.value);
  }
  return all;
}
std::map<std::string, std::vector<std::pair<Instant, double>>> quickly(const Yard& yard) {
  std::map<std::string, std::vector<std::pair<Instant, double>>> all;
  const Instant never = test::at("2100-01-01T00:00Z");
  for (const SeriesRows& rows : series_rows(yard.store, yard.fill_id, Instant{}, never)) {
    for (std::size_t i = 0; i < rows.at.size(); ++i) all[rows.place.name].emplace_back(rows.at[i], rows.value[i]);
  }
  return all;
}

TEST(SeriesRows, SayWhatTheReadingsSayThroughCorrections) {
  Yard yard;
  std::vector<std::pair<Reading, std::string>> noted;
  for (int hour = 0; hour < 40; ++hour) {
    Reading one = test::reading(yard.fill_id, 40.0 + hour, "2025-03-05T08:00Z", hour % 3 == 0 ? "wall" : "core");
    one.at += std::chrono::hours{40 - hour};
    noted.emplace_back(one, add(yard.store, one).id);
  }
  const std::string again = add(yard.store, corrected(noted[4].first, noted[4].second, 61.0)).id;
  (void)add(yard.store, corrected(noted[4].first, again, 62.0));
  Reading moved = corrected(noted[7].first, noted[7].second, 47.0);
  moved.place.name = "north wall";
  (void)add(yard.store, moved);
  Reading gone = corrected(noted[9].first, noted[9].second, 49.0);
  gone.mark.withdrawn = true;
  (void)add(yard.store, gone);
  EXPECT_EQ(quickly(yard), slowly(yard));
  EXPECT_EQ(quickly(yard).size(), 3U);
}

TEST(SeriesRows, KeepToTheSpanAndTheOrderOfFirstReading) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-06T08:00Z", "core"));
  (void)add(yard.store, test::reading(yard.fill_id, 51.0, "2025-03-05T08:00Z", "wall"));
  (void)add(yard.store, test::reading(yard.fill_id, 52.0, "2025-03-07T08:00Z", "core"));
  const auto rows = series_rows(yard.store, yard.fill_id, test::at("2025-03-05T08:00Z"), test::at("2025-03-07T08:00Z"));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].place.name, "wall");
  EXPECT_EQ(rows[1].value, std::vector<double>{50.0});
}

TEST(Touched, NamesTheFillsThatSomethingNewIsSaidOf) {
  Yard yard;
  const std::string second = add(yard.store, test::vessel("north 2")).id;
  const std::string other = add(yard.store, test::fill(second, "2026-2")).id;
  const Reading first = test::reading(yard.fill_id, 50.0, "2025-03-06T08:00Z");
  const std::string id = add(yard.store, first).id;
  const Waterline then = waterline(yard.store);
  EXPECT_TRUE(touched_since(yard.store, then).fills.empty());
  EXPECT_FALSE(touched_since(yard.store, then).all);
  (void)add(yard.store, test::event(other, EventKind::sprinkled, "2025-03-06T09:00Z"));
  EXPECT_EQ(touched_since(yard.store, then).fills, std::set<std::string>{other});
  Reading moved = corrected(first, id, 50.0);
  moved.fill_id = other;
  const Waterline before = waterline(yard.store);
  (void)add(yard.store, moved);
  EXPECT_EQ(touched_since(yard.store, before).fills, (std::set<std::string>{yard.fill_id, other}));
  (void)add(yard.store, test::vessel("north 3"));
  EXPECT_TRUE(touched_since(yard.store, before).all);
}

}  // namespace
}  // namespace stillheap::record
