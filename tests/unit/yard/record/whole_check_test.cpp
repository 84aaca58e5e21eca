#include "yard/record/whole_check.hpp"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <algorithm>
#include <thread>

#include "yard.hpp"

namespace stillheap::record {
namespace {

using test::Yard;

void add_readings(Yard& yard, int count) {
  Transaction together(yard.store);
  for (int i = 0; i < count; ++i) {
    Reading one = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
    one.at += std::chrono::minutes{i};
    (void)add(yard.store, one);
  }
  together.commit();
}

/// A copy of a yard with readings, in one plain file, with two of its pages overwritten.
void write_damaged(const std::filesystem::path& file) {
  {
    Yard yard;
    add_readings(yard, 2000);
    backup(yard.store, file);
  }
  std::fstream out(file, std::ios::in | std::ios::out | std::ios::binary);
  out.seekp(40 * 4096);
  out << std::string(8192, '\x5a');
}

TEST(WholeCheck, FindsASoundStoreWholeWhileItIsInUse) {
  Yard yard;
  add_readings(yard, 500);
  const std::atomic<bool> stop{false};
  const WholeCheck found = check_whole(yard.folder.store(), stop);
  EXPECT_EQ(found.state, Soundness::whole) << found.damage.size();
  EXPECT_LE(found.began, found.ended);
  (void)add(yard.store, test::reading(yard.fill_id, 51.0, "2025-03-04T08:00Z"));
}

TEST(WholeCheck, FindsDamageAndSaysWhichAndHowToRestore) {
  const test::Folder folder;
  write_damaged(folder.store());
  const std::atomic<bool> stop{false};
  const WholeCheck found = check_whole(folder.store(), stop);
  EXPECT_EQ(found.state, Soundness::damaged);
  ASSERT_FALSE(found.damage.empty());
  EXPECT_NE(words(found, "UTC").find("damaged"), std::string::npos);
  EXPECT_NE(words(found, "UTC").find(found.damage.front()), std::string::npos);
  const auto steps = steps_to_restore(folder.store());
  EXPECT_TRUE(std::any_of(steps.begin(), steps.end(),
                          [](const std::string& one) { return one.find("last backup") != std::string::npos; }));
}

TEST(WholeCheck, FindsARowThatRefersToNothing) {
  Yard yard;
  {
    // as another program could write it, with foreign keys off
    sqlite3* raw = nullptr;
    ASSERT_EQ(sqlite3_open(yard.folder.store().c_str(), &raw), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(raw,
                           "INSERT INTO events (id, noted_by, noted_s, zone, fill, kind, at_s, note) "
                           "VALUES (randomblob(16), 'x', 1, 'UTC', 999, 'sprinkled', 1, '')",
                           nullptr, nullptr, nullptr),
              SQLITE_OK);
    sqlite3_close(raw);
  }
  const std::atomic<bool> stop{false};
  const WholeCheck found = check_whole(yard.folder.store(), stop);
  ASSERT_EQ(found.state, Soundness::damaged);
  EXPECT_EQ(found.damage.front(), "a row of events refers to nothing");
}

TEST(WholeCheck, IsStoppedAndThenSaysNothingOfTheStore) {
  Yard yard;
  add_readings(yard, 20000);
  const std::atomic<bool> stop{true};
  const WholeCheck found = check_whole(yard.folder.store(), stop);
  EXPECT_EQ(found.state, Soundness::stopped);
  EXPECT_TRUE(found.damage.empty());
}

TEST(WholeCheck, IsRememberedBesideTheStore) {
  Yard yard;
  EXPECT_EQ(kept_check(yard.folder.store()).state, Soundness::unchecked);
  WholeCheck found;
  found.state = Soundness::damaged;
  found.began = test::at("2025-03-05T08:00Z");
  found.ended = test::at("2025-03-05T08:01Z");
  found.damage = {"row 7 missing from index"};
  keep_check(yard.folder.store(), found);
  const WholeCheck again = kept_check(yard.folder.store());
  EXPECT_EQ(again.state, Soundness::damaged);
  EXPECT_EQ(again.began, found.began);
  EXPECT_EQ(again.ended, found.ended);
  EXPECT_EQ(again.damage, found.damage);
  EXPECT_EQ(words(again, "Europe/Paris"), "store is damaged, found on 2025-03-05 09:01: row 7 missing from index");
  (void)yard.folder.write("site.records.check.json", "{");
  EXPECT_EQ(kept_check(yard.folder.store()).state, Soundness::unchecked);
}

}  // namespace
}  // namespace stillheap::record
