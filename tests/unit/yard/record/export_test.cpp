#include "yard/record/export.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "core/ical/ical.hpp"
#include "yard.hpp"
#include "yard/record/batch.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/photo.hpp"

namespace stillheap::record {
namespace {

using nlohmann::json;
using test::Yard;

std::string csv_text(const Store& store, const std::string& kind) {
  std::ostringstream out;
  write_csv(store, kind, out);
  return out.str();
}

json whole_json(const Store& store) {
  std::ostringstream out;
  write_json(store, out);
  return json::parse(out.str());
}

/// A reading, and what corrects it.
void note_and_correct(Yard& yard) {
  Reading better = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  better.mark.corrects = add(yard.store, test::reading(yard.fill_id, -5.5, "2025-03-05T08:00Z")).id;
  better.mark.reason = "=HYPERLINK(\"x\")";
  (void)add(yard.store, better);
}

TEST(Export, HoldsCorrectedStatementsToo) {
  Yard yard;
  note_and_correct(yard);
  const json all_of = whole_json(yard.store);
  EXPECT_EQ(all_of.size(), exported_kinds().size());
  const json& readings = all_of.at("readings");
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].at("value"), -5.5);
  EXPECT_EQ(readings[0].at("stands"), false);
  EXPECT_EQ(readings[1].at("stands"), true);
  EXPECT_EQ(readings[1].at("corrects"), readings[0].at("id"));
  EXPECT_EQ(readings[1].at("at"), "2025-03-05T08:00:00Z");
  EXPECT_EQ(readings[1].at("fill"), yard.fill_id);
  EXPECT_TRUE(readings[1].at("angle_rad").is_null());
  EXPECT_EQ(all_of.at("vessels")[0].at("name"), "north 1");
}

TEST(Export, KeepsSpreadsheetsFromRunningTextAndNumbersAsNumbers) {
  Yard yard;
  note_and_correct(yard);
  for (const char* text : {"=1+1", "+1+1", "-1+1", "@cmd", "\tx"}) {
    Event event = test::event(yard.fill_id, EventKind::other, "2025-03-05T08:00Z");
    event.note = text;
    (void)add(yard.store, event);
  }
  const std::string readings = csv_text(yard.store, "readings");
  EXPECT_NE(readings.find(",-5.5,"), std::string::npos) << readings;
  EXPECT_NE(readings.find("\"'=HYPERLINK(\"\"x\"\")\""), std::string::npos) << readings;
  const std::string events = csv_text(yard.store, "events");
  for (const char* text : {"'=1+1", "'+1+1", "'-1+1", "'@cmd", "'\tx"}) {
    EXPECT_NE(events.find(std::string(",") + text + "\r\n"), std::string::npos) << text;
  }
}

TEST(Export, WritesAsManyCellsAsColumns) {
  Yard yard;
  note_and_correct(yard);
  for (const std::string& kind : exported_kinds()) {
    std::istringstream lines(csv_text(yard.store, kind));
    std::string line;
    std::getline(lines, line);
    const std::size_t columns = split_record(line, ',').value().size();
    while (std::getline(lines, line)) EXPECT_EQ(split_record(line, ',').value().size(), columns) << kind << line;
  }
  EXPECT_THROW((void)csv_text(yard.store, "moods"), InputError);
}

TEST(BatchJson, HoldsOneFillAndIsTheSameTwice) {
  Yard yard;
  note_and_correct(yard);
  const std::string other_fill = add(yard.store, test::fill(add(yard.store, test::vessel("east")).id, "other")).id;
  (void)add(yard.store, test::reading(other_fill, 33.0, "2025-03-05T08:00Z"));
  const std::string text = batch_json(yard.store, yard.fill_id);
  EXPECT_EQ(text, batch_json(yard.store, yard.fill_id));
  const json batch = json::parse(text);
  EXPECT_EQ(batch.at("readings").size(), 2U);
  EXPECT_EQ(batch.at("fills").size(), 1U);
  EXPECT_EQ(batch.at("vessels").size(), 1U);
  (void)add(yard.store, test::reading(other_fill, 34.0, "2025-03-06T08:00Z"));
  EXPECT_EQ(text, batch_json(yard.store, yard.fill_id)) << "another fill changes nothing here";
  (void)add(yard.store, test::reading(yard.fill_id, 34.0, "2025-03-06T08:00Z"));
  EXPECT_NE(text, batch_json(yard.store, yard.fill_id));
  EXPECT_THROW((void)batch_json(yard.store, new_id()), InputError);
}

TEST(BatchJson, IsWrittenAsOneTreeWouldBe) {
  Yard yard;
  note_and_correct(yard);
  const std::string text = batch_json(yard.store, yard.fill_id);
  EXPECT_EQ(text, nlohmann::ordered_json::parse(text).dump(1) + "\n") << "hashes on printed records depend on it";
}

TEST(BatchDigest, HasTheHashOfTheDataAndWhatWasCorrected) {
  Yard yard;
  note_and_correct(yard);
  const BatchDigest digest = digest_batch(yard.store, yard.fill_id);
  EXPECT_EQ(digest.sha256, sha256_hex(batch_json(yard.store, yard.fill_id)));
  ASSERT_EQ(digest.corrections.size(), 1U);
  EXPECT_EQ(digest.corrections.front().kind, "readings");
  const json before = json::parse(digest.corrections.front().before);
  const json after = json::parse(digest.corrections.front().after);
  EXPECT_EQ(after.at("corrects"), before.at("id"));
  EXPECT_NE(after.at("value"), before.at("value"));
}

TEST(Photos, AreKeptUnderTheirHashAndChecked) {
  Yard yard;
  const std::string bytes = std::string("\x89PNG\r\n\x1A\n", 8) + "some pixels";
  Photo photo = keep_photo(yard.store, bytes);
  photo.mark = test::by("ab");
  photo.fill_id = yard.fill_id;
  photo.taken_at = test::at("2025-03-05T08:00Z");
  (void)add(yard.store, photo);
  const std::filesystem::path file = photo_file(yard.store, photo);
  EXPECT_EQ(file, yard.store.photo_folder() / (sha256_hex(bytes) + ".png"));
  EXPECT_EQ(test::read_text(file), bytes);
  EXPECT_EQ(keep_photo(yard.store, bytes).sha256, photo.sha256);
  EXPECT_TRUE(find_photo_damage(yard.store).empty());
  std::ofstream(file) << "swapped";
  ASSERT_EQ(find_photo_damage(yard.store).size(), 1U);
  EXPECT_NE(find_photo_damage(yard.store)[0].find("was changed"), std::string::npos);
  std::filesystem::remove(file);
  EXPECT_NE(find_photo_damage(yard.store)[0].find("is missing"), std::string::npos);
}

TEST(Photos, NeverLeaveTheirFolder) {
  Yard yard;
  Photo photo;
  for (const std::string& hash : {std::string("../../etc/passwd"), std::string(64, '/'), std::string()}) {
    photo.sha256 = hash;
    EXPECT_THROW((void)photo_file(yard.store, photo), InputError);
  }
  photo.sha256 = std::string(64, 'a');
  photo.media_type = "../evil";
  EXPECT_EQ(photo_file(yard.store, photo).parent_path(), yard.store.photo_folder());
}

TEST(Photos, RefuseWhatIsNoPicture) {
  Yard yard;
  for (const char* text : {"", "<svg onload=x>", "MZ", "RIFF1234WAVEfmt "}) {
    EXPECT_THROW((void)keep_photo(yard.store, text), InputError) << text;
  }
  EXPECT_FALSE(std::filesystem::exists(yard.store.photo_folder()));
}

TEST(Calendar, FollowsRfc5545) {
  const std::string text =
      ical::calendar_text("Yard, north",
                          {{"1@x", "2025-03-05", "", "Sprinkle; all, both", "first line\nsecond line"},
                           {"2@x", "2026-12-31", "2027-01-02", "Harvest " + std::string(100, 'x'), ""}},
                          test::at("2025-03-01T08:00Z"));
  for (const char* part :
       {"BEGIN:VCALENDAR\r\n", "VERSION:2.0\r\n", "UID:1@x\r\n", "DTSTAMP:20250301T080000Z\r\n",
        "DTSTART;VALUE=DATE:20250305\r\n", "DTEND;VALUE=DATE:20250306\r\n", "DTEND;VALUE=DATE:20270103\r\n",
        "SUMMARY:Sprinkle\\; all\\, both\r\n", "DESCRIPTION:first line\\nsecond line\r\n", "END:VCALENDAR\r\n"}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << "\nin\n" << text;
  }
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 76U) << "75 and CR: " << line;
  EXPECT_THROW((void)ical::calendar_text("x", {{"1", "5 March", "", "x", ""}}, now()), InputError);
}

}  // namespace
}  // namespace stillheap::record
