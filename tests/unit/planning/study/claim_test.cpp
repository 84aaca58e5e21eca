#include "planning/study/claim.hpp"

#include <gtest/gtest.h>

#include "support.hpp"

namespace stillheap::study {
namespace {

using Kind = TakeResult::Kind;
using namespace std::chrono_literals;

/// A process that takes a claim and is killed while it holds it.
void lose_a_claim(const std::filesystem::path& folder, const std::string& name) {
  const pid_t child = ::fork();
  if (child == 0) {
    Claims claims(folder, 60s);
    const TakeResult taken = claims.take(name);
    ::kill(::getpid(), SIGKILL);
  }
  test::wait_for(child);
}

TEST(Claims, AreGivenToOneAlone) {
  const test::Folder folder;
  Claims ours(folder.path(), 60s), theirs(folder.path(), 60s);
  const TakeResult first = ours.take("a");
  EXPECT_EQ(first.kind, Kind::taken);
  EXPECT_EQ(theirs.take("a").kind, Kind::busy);
  EXPECT_EQ(theirs.take("b").kind, Kind::taken);
}

TEST(Claims, AreFreeAgainWhenLetGo) {
  const test::Folder folder;
  Claims claims(folder.path(), 60s);
  { const TakeResult first = claims.take("a"); }
  EXPECT_EQ(folder.file_count(), 0);
  TakeResult again = claims.take("a");
  ASSERT_EQ(again.kind, Kind::taken);
  EXPECT_EQ(again.claim->turn(), 1);
}

TEST(Claims, OfAKilledProcessAreTakenOverAtOnceAndOnlyOnce) {
  const test::Folder folder;
  lose_a_claim(folder.path(), "a");
  Claims ours(folder.path(), 3600s), theirs(folder.path(), 3600s);
  TakeResult taken = ours.take("a");
  ASSERT_EQ(taken.kind, Kind::taken);
  EXPECT_EQ(taken.claim->turn(), 2);
  EXPECT_EQ(theirs.take("a").kind, Kind::busy);
  taken.claim->finish();
  taken.claim.reset();
  EXPECT_EQ(folder.file_count(), 0);
}

TEST(Claims, AreGivenUpAfterFiveLostOwners) {
  const test::Folder folder;
  for (int i = 0; i < most_turns; ++i) lose_a_claim(folder.path(), "a");
  Claims claims(folder.path(), 60s);
  EXPECT_EQ(claims.take("a").kind, Kind::lost_too_often);
  claims.clear("a");
  EXPECT_EQ(claims.take("a").kind, Kind::taken);
}

TEST(Claims, OfAnotherHostAreTakenOverWhenTheyStandStill) {
  const test::Folder folder;
  (void)folder.write("a.1", "4711 99 elsewhere\n");
  Claims claims(folder.path(), 200ms);
  EXPECT_EQ(claims.take("a").kind, Kind::busy);
  EXPECT_EQ(claims.take("a").kind, Kind::busy);
  std::this_thread::sleep_for(300ms);
  EXPECT_EQ(claims.take("a").kind, Kind::taken);
}

TEST(Claims, OfAnotherHostStandWhileTheyAreTouched) {
  const test::Folder folder;
  const auto file = folder.write("a.1", "4711 99 elsewhere\n");
  Claims claims(folder.path(), 150ms);
  for (int i = 1; i <= 6; ++i) {
    // Wild times, as from a host whose clock is wrong: only that they change counts.
    std::filesystem::last_write_time(file, std::filesystem::file_time_type(std::chrono::hours(i % 2 ? i : -i)));
    EXPECT_EQ(claims.take("a").kind, Kind::busy);
    std::this_thread::sleep_for(100ms);
  }
}

TEST(Claims, AreTouchedWhileTheyAreHeld) {
  const test::Folder folder;
  Claims claims(folder.path(), 160ms);
  const TakeResult taken = claims.take("a");
  const auto file = folder.path() / "a.1";
  const auto before = std::filesystem::last_write_time(file);
  EXPECT_TRUE(test::wait_until([&] { return std::filesystem::last_write_time(file) > before; }));
}

TEST(Claims, OfAProcessWhoseNumberIsUsedAgainAreThoseOfADeadOne) {
  Owner owner = this_process();
  EXPECT_FALSE(surely_dead(owner));
  owner.started += 1;
  EXPECT_TRUE(surely_dead(owner));
  owner.place = "elsewhere";
  EXPECT_FALSE(surely_dead(owner));
}

TEST(Claims, TellWhenTheFolderIsMissing) {
  const test::Folder folder;
  Claims claims(folder.path() / "gone", 60s);
  EXPECT_THROW((void)claims.take("a"), RunError);
}

}  // namespace
}  // namespace stillheap::study
