#include "yard/record/store.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <thread>

#include "core/base/error.hpp"
#include "yard.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

using test::Yard;

SQLite::Database raw(const std::filesystem::path& file) {
  return SQLite::Database(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
}

TEST(Store, StandsBesideTheSiteFile) {
  EXPECT_EQ(store_path("yard/site.toml"), "yard/site.records.sqlite");
  const test::Folder folder;
  EXPECT_EQ(Store::open(folder.store()).photo_folder(), folder.path() / "site.photos");
}

TEST(Store, IsOnlyMadeWhenAskedTo) {
  const test::Folder folder;
  EXPECT_THROW((void)Store::open(folder.store(), false), InputError);
  EXPECT_FALSE(std::filesystem::exists(folder.store()));
}

TEST(Store, KeepsItsJournalSafe) {
  Yard yard;
  SQLite::Database other = raw(yard.folder.store());
  EXPECT_EQ(other.execAndGet("PRAGMA journal_mode").getString(), "wal");
  EXPECT_EQ(other.execAndGet("PRAGMA application_id").getInt(), application_id);
}

TEST(Store, RefusesChangesEvenFromOtherPrograms) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
  SQLite::Database other = raw(yard.folder.store());
  for (const char* table : entry_tables()) {
    const std::string name = table;
    for (const char* guard : {"_never_changed", "_never_deleted", "_never_replaced"}) {
      EXPECT_EQ(other.execAndGet("SELECT count(*) FROM sqlite_schema WHERE name = '" + name + guard + "'").getInt(), 1)
          << name << guard;
    }
  }
  EXPECT_THROW(other.exec("UPDATE readings SET value = 20"), SQLite::Exception);
  EXPECT_THROW(other.exec("DELETE FROM readings"), SQLite::Exception);
  EXPECT_THROW(other.exec("INSERT OR REPLACE INTO readings SELECT * FROM readings"), SQLite::Exception);
  EXPECT_THROW(other.exec("REPLACE INTO readings (row, id, noted_by, noted_s, zone, series, at_s, value, written) "
                          "VALUES (1, randomblob(16), 'x', 1, 'UTC', 1, 1, 20, '')"),
               SQLite::Exception);
  EXPECT_THROW(other.exec("UPDATE series SET measure = 'oxygen'"), SQLite::Exception);
  EXPECT_THROW(other.exec("DELETE FROM fills"), SQLite::Exception);
  EXPECT_EQ(all<Reading>(yard.store).front().value, 50.0);
}

TEST(Store, RefusesCorrectionsOfCorrectionsInSql) {
  Yard yard;
  const std::string first = add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z")).id;
  Reading better = test::reading(yard.fill_id, 51.0, "2025-03-05T08:00Z");
  better.mark.corrects = first;
  better.mark.reason = "slip";
  (void)add(yard.store, better);
  SQLite::Database other = raw(yard.folder.store());
  EXPECT_THROW(other.exec("INSERT INTO readings (id, revises, reason, noted_by, noted_s, zone, series, at_s, value, "
                          "written) VALUES (randomblob(16), 2, 'x', 'x', 1, 'UTC', 1, 1, 20, '')"),
               SQLite::Exception);
}

TEST(Store, RefusesStrangeFiles) {
  const test::Folder folder;
  (void)folder.write("site.records.sqlite", std::string(5000, 'x'));
  EXPECT_THROW((void)Store::open(folder.store()), InputError);
  std::filesystem::remove(folder.store());
  raw(folder.store()).exec("CREATE TABLE other (x)");
  EXPECT_THROW((void)Store::open(folder.store()), InputError);
}

TEST(Store, RefusesANewerStore) {
  const test::Folder folder;
  (void)Store::open(folder.store());
  raw(folder.store()).exec("PRAGMA user_version = 99");
  try {
    (void)Store::open(folder.store());
    FAIL();
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("newer stillheap"), std::string::npos);
  }
}

TEST(Store, TellsOfDamage) {
  const test::Folder folder;
  {
    Yard yard;
    Transaction together(yard.store);
    for (int i = 0; i < 2000; ++i) {
      Reading one = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
      one.at += std::chrono::minutes{i};
      (void)add(yard.store, one);
    }
    together.commit();
    EXPECT_TRUE(find_damage(yard.store).empty());
    backup(yard.store, folder.store());
  }
  // Two pages overwritten in the middle.
  std::fstream file(folder.store(), std::ios::in | std::ios::out | std::ios::binary);
  file.seekp(40 * 4096);
  file << std::string(8192, '\x5a');
  file.close();
  try {
    (void)Store::open(folder.store());
    FAIL() << "damage was not found";
  } catch (const RunError& error) {
    EXPECT_NE(std::string(error.what()).find("is damaged"), std::string::npos) << error.what();
    EXPECT_NE(std::string(error.what()).find("backup"), std::string::npos);
  }
}

TEST(Store, CopiesItselfWhileOthersWrite) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
  std::thread writer([&] {
    Store other = Store::open(yard.folder.store());
    for (int i = 0; i < 50; ++i) {
      Reading one = test::reading(yard.fill_id, 50.0, "2025-03-05T09:00Z");
      one.at += std::chrono::minutes{i};
      (void)add(other, one);
    }
  });
  const std::filesystem::path copy = yard.folder.path() / "copy.sqlite";
  backup(yard.store, copy);
  writer.join();
  const Store back = Store::open(copy, false, Check::whole);
  EXPECT_GE(all<Reading>(back).size(), 1U);
  EXPECT_EQ(all<Fill>(back).size(), 1U);
  EXPECT_THROW(backup(yard.store, copy), InputError);
  EXPECT_THROW(backup(yard.store, yard.folder.path() / "none" / "copy.sqlite"), RunError);
}

TEST(Store, LetsTwoWriteAtOnce) {
  Yard yard;
  const auto write = [&](int from) {
    Store mine = Store::open(yard.folder.store());
    for (int i = 0; i < 100; ++i) {
      Reading one = test::reading(yard.fill_id, 50.0, "2025-03-05T09:00Z");
      one.at += std::chrono::minutes{from + i};
      (void)add(mine, one);
    }
  };
  std::thread first(write, 0);
  std::thread second(write, 1000);
  first.join();
  second.join();
  EXPECT_EQ(all<Reading>(yard.store).size(), 200U);
}

/// A store as it was after the first `version` migrations, with a row in every table of entries.
void make_old(const std::filesystem::path& file, int version) {
  SQLite::Database database = raw(file);
  database.exec("BEGIN");
  for (int i = 0; i < version; ++i) database.exec(migrations()[static_cast<std::size_t>(i)].sql);
  database.exec("PRAGMA application_id = " + std::to_string(application_id));
  database.exec("PRAGMA user_version = " + std::to_string(version));
  const std::string mark = "(id, noted_by, noted_s, zone, ";
  const std::string values = ") VALUES (randomblob(16), 'ab', 1, 'UTC', ";
  if (version >= 1) {
    database.exec("INSERT INTO vessels " + mark + "name, design, note" + values + "'old', '', '')");
    database.exec("INSERT INTO fills " + mark + "vessel, batch, filled_s, note" + values + "1, 'b', 1770000000, '')");
  }
  if (version >= 2) {
    database.exec("INSERT INTO series (fill, measure, place_key, place) VALUES (1, 'temperature', 'core', 'core')");
    database.exec("INSERT INTO readings " + mark + "series, at_s, value, written" + values + "1, 1770000100, 44, '')");
  }
  if (version >= 3) {
    database.exec("INSERT INTO events " + mark + "fill, kind, at_s, note" + values + "1, 'covered', 1770000100, '')");
  }
  database.exec("COMMIT");
}

TEST(Migrations, BringEveryOldVersionUpToDate) {
  const int newest = static_cast<int>(migrations().size());
  for (int version = 0; version <= newest; ++version) {
    const test::Folder folder;
    make_old(folder.store(), version);
    const Store store = Store::open(folder.store());
    EXPECT_TRUE(find_damage(store).empty());
    EXPECT_EQ(raw(folder.store()).execAndGet("PRAGMA user_version").getInt(), newest);
    EXPECT_EQ(all<Vessel>(store).size(), version >= 1 ? 1U : 0U) << version;
    EXPECT_EQ(all<Reading>(store).size(), version >= 2 ? 1U : 0U) << version;
    EXPECT_EQ(all<Event>(store).size(), version >= 3 ? 1U : 0U) << version;
    EXPECT_EQ(all<DueDay>(store).size(), 0U);
    const std::filesystem::path old = folder.store().string() + ".v" + std::to_string(version);
    EXPECT_EQ(std::filesystem::exists(old), version > 0 && version < newest) << version;
  }
}

TEST(Migrations, AreNeverChangedOnceReleased) {
  // Stores made with a step are out in the world: a step that must differ is a new step.
  const std::vector<std::string> released{"416e16594ba6dc85dbde06456fccbc73a649ebe3c499a259a92963b665d167e6",
                                          "ea2de64d682e143d9ccc363278793f50f3ef1c5663905b37e93693cd806a3d99",
                                          "59aa6f5bc41889b0f3e91b5ad73eaf1f02eee1bd9aa59bd56e7394f3c671ddba",
                                          "ed64a6bfcfeb55a6fe042cc299f8cca0fffb0e2dba0097c5806f75a20c08d5ca",
                                          "4ec62a3b8868844ddf17cbc8b726455602b5a1c22246d017066e7b61422020c2",
                                          "d442476625cdd2b9af9a6456f4279101c815e24037a59776123fb1acbd6fe70a",
                                          "a1ae01700d95656e7d43351f267519c50840b8caf63a8a7c9a4f1eca4a50e53a",
                                          "9bce2422a79a3d775cfc4e0ea49fb08cacc1ded07b22e069dc1d30d460be547b"};
  for (std::size_t i = 0; i < std::min(released.size(), migrations().size()); ++i) {
    EXPECT_EQ(sha256_hex(migrations()[i].sql), released[i]) << i;
  }
  EXPECT_EQ(released.size(), migrations().size()) << "give the new step its hash here";
}

}  // namespace
}  // namespace stillheap::record
