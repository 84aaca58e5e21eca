#include "present/server/write_queue.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <set>
#include <vector>

#include "core/base/error.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;

record::Vessel vessel(const std::string& name) {
  record::Vessel one;
  one.mark.by = "ab";
  one.name = name;
  return one;
}

class Writes : public testing::Test {
 protected:
  Writes() : folder_(fs::path(testing::TempDir()) / ("writes-" + record::new_id())) { fs::create_directories(folder_); }
  ~Writes() override { fs::remove_all(folder_); }
  [[nodiscard]] fs::path file() const { return folder_ / "site.records.sqlite"; }
  [[nodiscard]] std::set<std::string> names() const {
    std::set<std::string> all;
    for (const auto& one : record::all<record::Vessel>(record::Store::open(file(), false))) all.insert(one.name);
    return all;
  }

 private:
  fs::path folder_;
};

TEST_F(Writes, AreThereWhenTheyReturn) {
  WriteQueue writes(file());
  writes.run([](record::Store& store) { (void)record::add(store, vessel("north 1")); });
  EXPECT_EQ(names(), std::set<std::string>{"north 1"});
}

TEST_F(Writes, ThatFailLeaveNothingAndHinderNoOther) {
  WriteQueue writes(file());
  std::atomic<int> refused{0};
  std::vector<std::thread> threads;
  for (int i = 0; i < 40; ++i) {
    threads.emplace_back([&, i] {
      try {
        writes.run([i](record::Store& store) {
          (void)record::add(store, vessel("vessel " + std::to_string(i)));
          if (i % 4 == 0) throw InputError("test", "half way through", "none");
        });
      } catch (const InputError&) {
        ++refused;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(refused, 10);
  const std::set<std::string> stored = names();
  EXPECT_EQ(stored.size(), 30U);
  EXPECT_EQ(stored.count("vessel 4"), 0U);
  EXPECT_EQ(stored.count("vessel 5"), 1U);
}

TEST_F(Writes, AreRefusedWhenAnotherProgramHoldsTheStore) {
  WriteQueue writes(file());
  record::Store other = record::Store::open(file());
  const record::Transaction holding(other);
  EXPECT_THROW(writes.run([](record::Store& store) { (void)record::add(store, vessel("north 1")); }), RunError);
}

}  // namespace
}  // namespace stillheap::server
