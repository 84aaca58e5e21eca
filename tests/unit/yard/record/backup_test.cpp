#include "yard/record/backup.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <atomic>
#include <thread>
#include <vector>

#include "core/base/error.hpp"
#include "yard.hpp"
#include "yard/record/photo.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;
using test::Yard;

std::size_t copies(const fs::path& folder, const std::string& part) {
  std::size_t count = 0;
  for (const auto& one : fs::directory_iterator(folder)) {
    count += one.path().filename().string().find(part) != std::string::npos ? 1 : 0;
  }
  return count;
}

Photo add_photo(Yard& yard, const std::string& bytes) {
  Photo photo = keep_photo(yard.store, bytes);
  photo.mark = test::by("ab");
  photo.fill_id = yard.fill_id;
  photo.taken_at = test::at("2025-03-05T08:00Z");
  (void)add(yard.store, photo);
  return photo;
}

TEST(LostStore, IsNotTakenForANewOneWhileAnythingOfItIsLeft) {
  for (const char* const left :
       {"site.records.sqlite-wal", "site.records.sqlite-journal", "site.records.check.json", "site.photos/a.jpg"}) {
    for (const bool empty : {false, true}) {
      const test::Folder folder;
      fs::create_directories((folder.path() / left).parent_path());
      (void)folder.write(left, "what is left of it");
      if (empty) (void)folder.write("site.records.sqlite", "");
      for (const bool make : {false, true}) {
        try {
          (void)Store::open(folder.store(), make);
          FAIL() << left << " was passed over";
        } catch (const InputError& error) {
          EXPECT_NE(std::string(error.what()).find("stillheap restore"), std::string::npos) << error.what();
        }
      }
      EXPECT_EQ(test::read_text(folder.path() / left), "what is left of it");
    }
  }
}

TEST(LostStore, ThatNeverWasIsMadeWhole) {
  const test::Folder folder;
  (void)Store::open(folder.store());
  EXPECT_EQ(copies(folder.path(), ".new-"), 0U);
  const test::Folder other;
  (void)other.write("site.records.sqlite", "");  // nothing beside it: somebody's touch
  EXPECT_NO_THROW((void)Store::open(other.store()));
}

TEST(LostStore, IsMadeOnceByManyAtOnce) {
  const test::Folder folder;
  std::atomic<int> opened{0};
  std::vector<std::thread> programs;
  for (int i = 0; i < 8; ++i) {
    programs.emplace_back([&] {
      Store store = Store::open(folder.store());
      (void)add(store, test::vessel("north " + std::to_string(++opened)));
    });
  }
  for (std::thread& one : programs) one.join();
  EXPECT_EQ(all<Vessel>(Store::open(folder.store(), false)).size(), 8U);
}

TEST(MovedStore, TakesNothingMore) {
  using Move = void (*)(const fs::path&);
  const Move moves[] = {[](const fs::path& file) { fs::remove(file); },
                        [](const fs::path& file) { fs::rename(file, file.string() + ".away"); },
                        [](const fs::path& file) {
                          fs::rename(file, file.string() + ".away");
                          fs::copy_file(file.string() + ".away", file);
                        }};
  for (const Move& move : moves) {
    Yard yard;
    (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
    move(yard.folder.store());
    try {
      (void)add(yard.store, test::reading(yard.fill_id, 51.0, "2025-03-05T09:00Z"));
      FAIL() << "stored where nobody finds it";
    } catch (const RunError& error) {
      EXPECT_NE(std::string(error.what()).find("nothing was stored"), std::string::npos) << error.what();
    }
  }
}

TEST(Migration, ByManyAtOnceLosesNothing) {
  for (int times = 0; times < 5; ++times) {
    Yard yard;
    (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
    const fs::path copy = yard.folder.path() / "old.records.sqlite";
    backup(yard.store, copy);
    // The last step makes an index anew, so it can be taken twice.
    const int before = static_cast<int>(migrations().size()) - 1;
    SQLite::Database(copy.string(), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = " + std::to_string(before));
    std::atomic<int> failed{0};
    std::vector<std::thread> programs;
    for (int i = 0; i < 4; ++i) {
      programs.emplace_back([&] {
        try {
          if (all<Reading>(Store::open(copy, false)).size() != 1) ++failed;
        } catch (const std::exception&) {
          ++failed;
        }
      });
    }
    for (std::thread& one : programs) one.join();
    EXPECT_EQ(failed, 0);
    EXPECT_EQ(
        SQLite::Database(copy.string() + ".v" + std::to_string(before)).execAndGet("PRAGMA user_version").getInt(),
        before);
    EXPECT_EQ(copies(yard.folder.path(), ".part-"), 0U);
  }
}

TEST(Backup, OfManyAtOnceToOneNameIsMadeOnceAndWhole) {
  const Yard yard;
  const fs::path target = yard.folder.path() / "copy.sqlite";
  std::atomic<int> made{0};
  std::atomic<int> refused{0};
  std::vector<std::thread> programs;
  for (int i = 0; i < 6; ++i) {
    programs.emplace_back([&] {
      try {
        backup(Store::open(yard.folder.store(), false), target);
        ++made;
      } catch (const InputError&) {
        ++refused;
      }
    });
  }
  for (std::thread& one : programs) one.join();
  EXPECT_EQ(made, 1);
  EXPECT_EQ(refused, 5);
  EXPECT_EQ(copies(yard.folder.path(), ".part-"), 0U);
  EXPECT_TRUE(find_damage(Store::open(target, false)).empty());
}

TEST(Backup, HasThePhotosAndTellsOfDamagedOnes) {
  Yard yard;
  const Photo sound = add_photo(yard, "\xFF\xD8\xFF sound");
  const Photo damaged = add_photo(yard, "\xFF\xD8\xFF damaged");
  std::ofstream(photo_file(yard.store, damaged)) << "bad disk";
  const Copied made = back_up(yard.store, yard.folder.path() / "out.sqlite");
  EXPECT_EQ(made.photos, 1U);
  ASSERT_EQ(made.damage.size(), 1U);
  EXPECT_TRUE(is_sound_photo(yard.folder.path() / "out.photos" / photo_file(yard.store, sound).filename(), sound));
}

TEST(Photos, DamagedAreTakenAgainAndRefusedAreRemoved) {
  Yard yard;
  const std::string bytes = "\xFF\xD8\xFF a picture";
  const Photo photo = add_photo(yard, bytes);
  std::ofstream(photo_file(yard.store, photo)) << "bad disk";
  (void)keep_photo(yard.store, bytes);
  EXPECT_TRUE(is_sound_photo(photo_file(yard.store, photo), photo));
  forget_photo(yard.store, photo);
  EXPECT_TRUE(fs::exists(photo_file(yard.store, photo))) << "the records need it";
  const Photo refused = keep_photo(yard.store, "\xFF\xD8\xFF another");
  forget_photo(yard.store, refused);
  EXPECT_FALSE(fs::exists(photo_file(yard.store, refused)));
}

TEST(DailyCopies, AreMadeOnceADayAndRotated) {
  const Yard yard;
  const fs::path folder = yard.folder.path() / "copies";
  const Instant first = test::at("2025-01-01T12:00Z");
  for (int day = 0; day < 60; ++day) {
    EXPECT_TRUE(keep_daily(yard.folder.store(), folder, first + std::chrono::days{day}, {.days = 5, .months = 3}));
    EXPECT_FALSE(keep_daily(yard.folder.store(), folder, first + std::chrono::days{day}, {.days = 5, .months = 3}));
  }
  EXPECT_EQ(copies(folder, ".sqlite"), 7U) << "five days, and the first of January and of February";
  const auto last = last_copy(yard.folder.store(), folder);
  ASSERT_TRUE(last);
  EXPECT_TRUE(find_damage(Store::open(last->file, false)).empty());
}

TEST(Restore, PutsACopyInPlaceAndKeepsWhatIsThere) {
  Yard yard;
  const Photo photo = add_photo(yard, "\xFF\xD8\xFF a picture");
  const fs::path copy = yard.folder.path() / "out.sqlite";
  backup(yard.store, copy);
  (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
  yard.store = Store::open(copy, false);  // the store itself is closed by this
  fs::remove_all(yard.folder.path() / "site.photos");
  const Restored done = restore(yard.folder.store(), copy, test::at("2025-03-06T08:00Z"));
  EXPECT_EQ(done.photos, 1U);
  ASSERT_TRUE(done.set_aside);
  EXPECT_EQ(all<Reading>(Store::open(*done.set_aside / "site.records.sqlite", false)).size(), 1U);
  const Store back = Store::open(yard.folder.store(), false, Check::whole);
  EXPECT_EQ(all<Reading>(back).size(), 0U);
  EXPECT_EQ(all<Fill>(back).size(), 1U);
  EXPECT_TRUE(is_sound_photo(photo_file(back, photo), photo));
}

TEST(Restore, RefusesWhatIsNoCopyAndLeavesTheStore) {
  const Yard yard;
  const fs::path text = yard.folder.write("text.sqlite", "no store at all, but long enough to look at");
  EXPECT_THROW((void)restore(yard.folder.store(), text, now()), InputError);
  EXPECT_THROW((void)restore(yard.folder.store(), yard.folder.path() / "none", now()), InputError);
  EXPECT_THROW((void)restore(yard.folder.store(), yard.folder.store(), now()), InputError);
  EXPECT_EQ(all<Fill>(Store::open(yard.folder.store(), false)).size(), 1U);
}

TEST(PlaceNames, AreToldApartFromPlaces) {
  Yard yard;
  Reading named = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z", "core|d500");
  named.place.depth_m.reset();
  Reading placed = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z", "core");
  placed.place.depth_m = 0.5;
  EXPECT_EQ(add(yard.store, named).outcome, Outcome::stored);
  EXPECT_EQ(add(yard.store, placed).outcome, Outcome::stored);
}

TEST(Moments, BeyondTheClockAndAnglesBeyondMeaningAreRefused) {
  Yard yard;
  Reading one = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
  one.place.angle_rad = 1e300;
  EXPECT_THROW((void)add(yard.store, one), InputError);
  one.place.angle_rad.reset();
  one.mark.noted_at = test::at("2025-03-05T08:00Z") + std::chrono::days{200000};
  EXPECT_THROW((void)add(yard.store, one), InputError);
}

}  // namespace
}  // namespace stillheap::record
