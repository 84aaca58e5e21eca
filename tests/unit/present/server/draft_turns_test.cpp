#include "present/server/draft_turns.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>
#include <vector>

namespace stillheap::server {
namespace {

using End = DraftTurns::End;

TEST(DraftTurns, RunOneAfterTheOther) {
  DraftTurns turns;
  std::atomic<int> at_once{0};
  std::atomic<int> done{0};
  std::vector<std::thread> users;
  for (int i = 0; i < 8; ++i) {
    users.emplace_back([&, i] {
      const End end = turns.run("user " + std::to_string(i), [&](const auto&) {
        EXPECT_EQ(++at_once, 1);
        std::this_thread::sleep_for(std::chrono::milliseconds{5});
        --at_once;
      });
      if (end == End::done) ++done;
    });
  }
  for (std::thread& one : users) one.join();
  EXPECT_EQ(done, 8);
}

TEST(DraftTurns, TheNewestOfAUserStopsHisOlderOnes) {
  DraftTurns turns;
  std::atomic<int> done{0};
  std::atomic<int> overtaken{0};
  std::vector<std::thread> drafts;
  for (int i = 0; i < 60; ++i) {
    drafts.emplace_back([&] {
      const End end = turns.run("one", [&](const auto& goes_on) {
        for (int step = 0; step < 100 && goes_on(); ++step) std::this_thread::sleep_for(std::chrono::milliseconds{10});
      });
      ++(end == End::done ? done : overtaken);
    });
  }
  for (std::thread& one : drafts) one.join();
  EXPECT_EQ(done, 1);
  EXPECT_EQ(overtaken, 59);
}

TEST(DraftTurns, AreRefusedWhenTooManyWaitAndPassOnWhatFails) {
  DraftTurns turns;
  EXPECT_THROW((void)turns.run("a", [](const auto&) { throw std::runtime_error("no"); }), std::runtime_error);
  std::atomic<bool> stop{false};
  std::vector<std::thread> users;
  std::atomic<int> full{0};
  for (std::size_t i = 0; i < DraftTurns::most_waiting + 4; ++i) {
    users.emplace_back([&, i] {
      if (turns.run(std::to_string(i), [&](const auto&) {
            while (!stop) std::this_thread::sleep_for(std::chrono::milliseconds{1});
          }) == End::full) {
        ++full;
      }
    });
  }
  while (full < 4) std::this_thread::sleep_for(std::chrono::milliseconds{1});
  stop = true;
  for (std::thread& one : users) one.join();
  EXPECT_EQ(full, 4);
}

}  // namespace
}  // namespace stillheap::server
