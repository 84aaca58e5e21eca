#include "present/server/store_watch.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <chrono>

#include "core/base/error.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/store.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;

class WatchedStore : public testing::Test {
 protected:
  WatchedStore() : folder_(fs::path(testing::TempDir()) / ("watch-" + record::new_id())) {
    fs::create_directories(folder_);
    (void)record::Store::open(file());
  }
  ~WatchedStore() override { fs::remove_all(folder_); }
  [[nodiscard]] fs::path file() const { return folder_ / "site.records.sqlite"; }
  /// What a watch says once it has looked.
  static record::WholeCheck settled(const StoreWatch& watch) {
    for (int tries = 0; tries < 500 && watch.now().state == record::Soundness::checking; ++tries) {
      std::this_thread::sleep_for(std::chrono::milliseconds{10});
    }
    return watch.now();
  }

 private:
  fs::path folder_;
};

TEST_F(WatchedStore, IsFoundWholeAndMayBeWrittenTo) {
  const StoreWatch watch(file());
  EXPECT_EQ(settled(watch).state, record::Soundness::whole);
  EXPECT_NO_THROW(watch.refuse_damaged());
  EXPECT_EQ(record::kept_check(file()).state, record::Soundness::whole);
}

TEST_F(WatchedStore, TakesNoMoreEntriesWhenDamaged) {
  {
    SQLite::Database other(file().string(), SQLite::OPEN_READWRITE);
    other.exec(
        "INSERT INTO events (id, noted_by, noted_s, zone, fill, kind, at_s, note) "
        "VALUES (randomblob(16), 'x', 1, 'UTC', 999, 'sprinkled', 1, '')");
  }
  const StoreWatch watch(file());
  EXPECT_EQ(settled(watch).state, record::Soundness::damaged);
  try {
    watch.refuse_damaged();
    FAIL() << "a damaged store was to be written to";
  } catch (const RunError& error) {
    EXPECT_NE(std::string(error.what()).find("refers to nothing"), std::string::npos) << error.what();
  }
  EXPECT_EQ(record::kept_check(file()).state, record::Soundness::damaged);
}

}  // namespace
}  // namespace stillheap::server
