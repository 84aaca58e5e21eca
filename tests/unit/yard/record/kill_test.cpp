#include <gtest/gtest.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <map>
#include <random>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "yard.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::record {
namespace {

constexpr int kills = 200;
constexpr std::size_t id_length = 36;

/// Reading number n of the test: ids are made before sending, as a phone does.
Reading numbered(const std::string& fill_id, const std::string& id, int n) {
  Reading one = test::reading(fill_id, 20.0 + n % 50, "2025-03-05T08:00Z");
  one.at += std::chrono::seconds{n};
  one.mark.id = id;
  one.mark.noted_at = one.at;
  return one;
}

/// What the killed program does: stores one reading after the other (every tenth time five as one) and tells the
/// parent each id only when the store has taken it. Never ends by itself.
[[noreturn]] void write_until_killed(const std::filesystem::path& file, const std::string& fill_id,
                                     const std::vector<std::string>& ids, int first, int pipe) {
  Store store = Store::open(file);
  std::size_t next = 0;
  for (int round = 0; next < ids.size(); ++round) {
    const std::size_t count = std::min<std::size_t>(round % 10 == 9 ? 5 : 1, ids.size() - next);
    Transaction together(store);
    std::string told;
    for (std::size_t i = next; i < next + count; ++i) {
      told += add(store, numbered(fill_id, ids[i], first + static_cast<int>(i))).id;
    }
    together.commit();
    if (::write(pipe, told.data(), told.size()) < 0) ::_exit(3);
    next += count;
  }
  for (;;) ::pause();
}

std::set<std::string> read_ids(int pipe) {
  std::string text;
  char buffer[4096];
  for (ssize_t got = 0; (got = ::read(pipe, buffer, sizeof buffer)) > 0;)
    text.append(buffer, static_cast<std::size_t>(got));
  std::set<std::string> ids;
  for (std::size_t at = 0; at + id_length <= text.size(); at += id_length) ids.insert(text.substr(at, id_length));
  return ids;
}

/// No connection may be open here while a writer is forked off: SQLite's locks do not pass over.
struct KillYard {
  test::Folder folder;
  std::string fill_id;
  KillYard() {
    Store store = Store::open(folder.store());
    fill_id = add(store, test::fill(add(store, test::vessel("north 1")).id, "2026-1")).id;
  }
};

/// Starts a writer, kills it with SIGKILL some time after its start or its first acknowledgement, and returns the ids
/// it had acknowledged.
std::set<std::string> write_and_kill(const KillYard& yard, const std::vector<std::string>& ids, int first,
                                     bool let_it_start, std::chrono::microseconds after) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    try {
      write_until_killed(yard.folder.store(), yard.fill_id, ids, first, ends[1]);
    } catch (...) {
      ::_exit(4);
    }
  }
  ::close(ends[1]);
  pollfd ready{ends[0], POLLIN, 0};
  if (let_it_start) {
    EXPECT_EQ(::poll(&ready, 1, 10000), 1) << "the writer stored nothing in ten seconds";
  }
  std::this_thread::sleep_for(after);
  ::kill(child, SIGKILL);
  const std::set<std::string> acknowledged = read_ids(ends[0]);
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the writer ended by itself with code " << WEXITSTATUS(status);
  return acknowledged;
}

TEST(Killed, AWriterLosesNothingItAcknowledgedAndDoublesNothing) {
  const KillYard yard;
  std::mt19937 random(20260503);
  std::uniform_int_distribution<int> delay_us(500, 40000);
  std::set<std::string> acknowledged;
  std::map<std::string, int> sent;  // all ids ever tried, with the number of their reading
  std::vector<std::string> again;   // sent, but nobody said they were stored
  int number = 0;
  for (int kill = 0; kill < kills; ++kill) {
    std::vector<std::string> ids;
    const int first = number;
    for (int i = 0; i < 60; ++i) ids.push_back(new_id());
    number += static_cast<int>(ids.size());
    for (std::size_t i = 0; i < ids.size(); ++i) sent[ids[i]] = first + static_cast<int>(i);
    const auto stored = write_and_kill(yard, ids, first, kill % 2 == 0, std::chrono::microseconds{delay_us(random)});
    acknowledged.insert(stored.begin(), stored.end());
    for (const std::string& id : ids) {
      if (stored.count(id) == 0) again.push_back(id);
    }
    if (kill % 20 == 19) {
      EXPECT_TRUE(find_damage(Store::open(yard.folder.store())).empty()) << "after kill " << kill;
    }
  }
  Store store = Store::open(yard.folder.store(), false, Check::whole);
  std::map<std::string, int> found;
  for (const Reading& one : all<Reading>(store)) ++found[one.mark.id];
  for (const std::string& id : acknowledged) EXPECT_EQ(found[id], 1) << id << " was acknowledged";
  for (const auto& [id, count] : found) EXPECT_LE(count, 1) << id;
  EXPECT_GE(acknowledged.size(), 100U) << "the writers were killed too early to prove anything";
  EXPECT_GT(again.size(), 200U) << "the writers were killed too late to prove anything";

  // The phone sends again what nobody acknowledged: afterwards each reading stands exactly once.
  Transaction together(store);
  for (const std::string& id : again) (void)add(store, numbered(yard.fill_id, id, sent.at(id)));
  together.commit();
  EXPECT_EQ(all<Reading>(store).size(), sent.size());
  EXPECT_TRUE(find_damage(store).empty());
  RecordProperty("acknowledged", static_cast<int>(acknowledged.size()));
}

}  // namespace
}  // namespace stillheap::record
