#include "yard/record/write.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "yard.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::record {
namespace {

using test::Yard;

template <class Entry>
std::string refusal(Store& store, const Entry& entry) {
  try {
    (void)add(store, entry);
  } catch (const InputError& error) {
    return error.what();
  }
  return "not refused";
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Records, GiveBackWhatWasStored) {
  Yard yard;
  Reading given = test::reading(yard.fill_id, 55.25, "2025-03-05T08:00Z");
  given.place.angle_rad = 0.5;
  given.written = "131.45 degF";
  const Stored stored = add(yard.store, given);
  EXPECT_EQ(stored.outcome, Outcome::stored);
  const Reading back = current<Reading>(yard.store, stored.id).value();
  EXPECT_EQ(back.value, 55.25);
  EXPECT_EQ(back.at, given.at);
  EXPECT_EQ(back.fill_id, yard.fill_id);
  EXPECT_EQ(back.place, given.place);
  EXPECT_EQ(back.written, "131.45 degF");
  EXPECT_EQ(back.mark.by, "ab");
  EXPECT_EQ(back.mark.zone, "Europe/Paris");
  EXPECT_EQ(back.mark.thing, stored.id);
  EXPECT_GE(back.mark.stored_at, now() - std::chrono::minutes{1});
}

TEST(Records, TakeTheSameEntryTwiceAndStoreItOnce) {
  Yard yard;
  Reading one = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  one.mark.id = new_id();
  EXPECT_EQ(add(yard.store, one).outcome, Outcome::stored);
  const Stored again = add(yard.store, one);
  EXPECT_EQ(again.outcome, Outcome::known);
  EXPECT_EQ(again.id, one.mark.id);
  EXPECT_EQ(all<Reading>(yard.store).size(), 1U);
}

TEST(Records, RefuseAnIdThatStandsForSomethingElse) {
  Yard yard;
  Reading one = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  one.mark.id = new_id();
  (void)add(yard.store, one);
  one.value = 56.0;
  EXPECT_TRUE(contains(refusal(yard.store, one), "stands for another entry"));
}

TEST(Records, RefuseDuplicatesByContent) {
  Yard yard;
  const Reading one = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  const Stored first = add(yard.store, one);
  const Stored second = add(yard.store, one);  // another id
  EXPECT_EQ(second.outcome, Outcome::duplicate);
  EXPECT_EQ(second.id, first.id);
  EXPECT_EQ(add(yard.store, test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z", "wall")).outcome, Outcome::stored);
  EXPECT_EQ(add(yard.store, test::reading(yard.fill_id, 55.0, "2025-03-05T08:00:01Z")).outcome, Outcome::stored);
}

TEST(Records, TakePlacesWithinAMillimetreAsOne) {
  Yard yard;
  Reading one = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  (void)add(yard.store, one);
  one.place.depth_m = 0.457;
  EXPECT_EQ(add(yard.store, one).outcome, Outcome::duplicate);
  one.place.depth_m = 0.46;
  EXPECT_EQ(add(yard.store, one).outcome, Outcome::stored);
}

TEST(Corrections, KeepTheOldValueAndWhy) {
  Yard yard;
  const std::string first = add(yard.store, test::reading(yard.fill_id, 155.0 / 2.0, "2025-03-05T08:00Z")).id;
  Reading better = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z", "wall");
  better.mark.by = "cd";
  better.mark.corrects = first;
  better.mark.reason = "misread the dial";
  const std::string second = add(yard.store, better).id;
  const std::vector<Reading> told = history<Reading>(yard.store, second);
  ASSERT_EQ(told.size(), 2U);
  EXPECT_EQ(told[0].value, 77.5);
  EXPECT_EQ(told[1].value, 55.0);
  EXPECT_EQ(told[1].mark.corrects, first);
  EXPECT_EQ(told[1].mark.thing, first);
  EXPECT_EQ(told[1].mark.reason, "misread the dial");
  EXPECT_EQ(told[1].mark.by, "cd");
  const std::vector<Reading> stand = all<Reading>(yard.store);
  ASSERT_EQ(stand.size(), 1U);
  EXPECT_EQ(stand[0].value, 55.0);
  EXPECT_EQ(stand[0].place.name, "wall");
  EXPECT_EQ(current<Reading>(yard.store, first)->value, 55.0);
}

TEST(Corrections, NeedAReasonAndTheLatestStatement) {
  Yard yard;
  const std::string first = add(yard.store, test::reading(yard.fill_id, 54.0, "2025-03-05T08:00Z")).id;
  Reading better = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  better.mark.corrects = first;
  EXPECT_TRUE(contains(refusal(yard.store, better), "reason"));
  better.mark.reason = "slip";
  (void)add(yard.store, better);
  better.value = 56.0;
  EXPECT_TRUE(contains(refusal(yard.store, better), "has been corrected already by ab"));
  better.mark.corrects = new_id();
  EXPECT_TRUE(contains(refusal(yard.store, better), "is not in the records"));
}

TEST(Corrections, SentTwiceStandOnce) {
  Yard yard;
  const std::string first = add(yard.store, test::reading(yard.fill_id, 54.0, "2025-03-05T08:00Z")).id;
  Reading better = test::reading(yard.fill_id, 55.0, "2025-03-05T08:00Z");
  better.mark = test::by("ab");
  better.mark.id = new_id();
  better.mark.corrects = first;
  better.mark.reason = "slip";
  EXPECT_EQ(add(yard.store, better).outcome, Outcome::stored);
  EXPECT_EQ(add(yard.store, better).outcome, Outcome::known);
  EXPECT_EQ(history<Reading>(yard.store, first).size(), 2U);
}

TEST(Corrections, WithdrawAndBringBack) {
  Yard yard;
  const std::string first = add(yard.store, test::reading(yard.fill_id, 54.0, "2025-03-05T08:00Z")).id;
  Reading gone;
  gone.mark = test::by("ab");
  gone.mark.id = new_id();
  gone.mark.corrects = first;
  gone.mark.reason = "probe lay beside the heap";
  gone.mark.withdrawn = true;
  EXPECT_EQ(add(yard.store, gone).outcome, Outcome::stored);
  EXPECT_EQ(add(yard.store, gone).outcome, Outcome::known);
  EXPECT_TRUE(all<Reading>(yard.store).empty());
  EXPECT_FALSE(current<Reading>(yard.store, first));
  EXPECT_EQ(history<Reading>(yard.store, first).size(), 2U);
  Reading back = test::reading(yard.fill_id, 54.0, "2025-03-05T08:00Z");
  back.mark.corrects = gone.mark.id;
  back.mark.reason = "it lay inside after all";
  EXPECT_EQ(add(yard.store, back).outcome, Outcome::stored);
  EXPECT_EQ(all<Reading>(yard.store).size(), 1U);
}

TEST(Corrections, LetAWithdrawnReadingBeNotedAnew) {
  Yard yard;
  const Reading one = test::reading(yard.fill_id, 54.0, "2025-03-05T08:00Z");
  Reading gone;
  gone.mark = test::by("ab");
  gone.mark.corrects = add(yard.store, one).id;
  gone.mark.reason = "wrong fill";
  gone.mark.withdrawn = true;
  (void)add(yard.store, gone);
  EXPECT_EQ(add(yard.store, one).outcome, Outcome::stored);
}

TEST(Corrections, OfAFillKeepItsReadings) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 54.0, "2025-03-05T08:00Z"));
  Fill better = test::fill(yard.vessel_id, "2026-1a");
  better.mark.corrects = yard.fill_id;
  better.mark.reason = "label";
  const std::string corrected = add(yard.store, better).id;
  EXPECT_EQ(of_fill<Reading>(yard.store, corrected).size(), 1U);
  EXPECT_EQ(of_fill<Reading>(yard.store, yard.fill_id).size(), 1U);
  // A phone that has not heard of the correction still knows the fill by its first id, and the other way round.
  (void)add(yard.store, test::reading(corrected, 55.0, "2025-03-05T09:00Z"));
  EXPECT_EQ(of_fill<Reading>(yard.store, yard.fill_id).size(), 2U);
}

TEST(Records, RefuseWhatCannotBe) {
  Yard yard;
  const auto hot = test::reading(yard.fill_id, 131.0, "2025-03-05T08:00Z");
  EXPECT_TRUE(contains(refusal(yard.store, hot), "give -45 degC to 110 degC (-49 degF to 230 degF)"))
      << refusal(yard.store, hot);
  auto nobody = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
  nobody.mark.by = "";
  EXPECT_TRUE(contains(refusal(yard.store, nobody), "initials"));
  auto nowhere = test::reading(new_id(), 50.0, "2025-03-05T08:00Z");
  EXPECT_TRUE(contains(refusal(yard.store, nowhere), "is not in the records"));
  auto later = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
  later.at = now() + std::chrono::days{3};
  EXPECT_TRUE(contains(refusal(yard.store, later), "clock of this device"));
  auto odd = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
  odd.mark.zone = "Mars/Olympus";
  EXPECT_TRUE(contains(refusal(yard.store, odd), "Mars/Olympus"));
  auto binary = test::event(yard.fill_id, EventKind::other, "2025-03-05T08:00Z");
  binary.note = "\xff\xfe";
  EXPECT_TRUE(contains(refusal(yard.store, binary), "no text"));
  auto no_id = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
  no_id.mark.id = "1";
  EXPECT_TRUE(contains(refusal(yard.store, no_id), "is no UUID"));
  EXPECT_TRUE(all<Reading>(yard.store).empty());
}

TEST(Records, KeepNamesApartAndOneFillAVessel) {
  Yard yard;
  EXPECT_TRUE(contains(refusal(yard.store, test::vessel("north 1")), "is taken"));
  EXPECT_TRUE(contains(refusal(yard.store, test::fill(yard.vessel_id, "2026-2")), "still holds batch \"2026-1\""));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::harvested, "2025-05-01T08:00Z"));
  EXPECT_TRUE(contains(refusal(yard.store, test::fill(yard.vessel_id, "2026-1")), "is taken"));
  EXPECT_EQ(add(yard.store, test::fill(yard.vessel_id, "2026-2", "2025-05-02T08:00Z")).outcome, Outcome::stored);
}

TEST(Records, RefuseWhatBelongsToAWithdrawnFill) {
  Yard yard;
  Fill gone;
  gone.mark = test::by("ab");
  gone.mark.corrects = yard.fill_id;
  gone.mark.reason = "never filled";
  gone.mark.withdrawn = true;
  (void)add(yard.store, gone);
  const auto one = test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z");
  EXPECT_TRUE(contains(refusal(yard.store, one), "has been withdrawn"));
}

TEST(Records, TakeEveryKind) {
  Yard yard;
  (void)add(yard.store, Person{test::by("ab"), "ab", "Ada Brook"});
  Lot lot;
  lot.mark = test::by("ab");
  lot.name = "manure 12";
  lot.received_at = test::at("2025-02-20");
  lot.mass_wet_kg = 800.0;
  const std::string lot_id = add(yard.store, lot).id;
  (void)add(yard.store, LotUse{test::by("ab"), yard.fill_id, lot_id, 300.0});
  LabTest lab;
  lab.mark = test::by("ab");
  lab.lot_id = lot_id;
  lab.key = "arsenic";
  lab.value = 3.2;
  lab.unit = "mg/kg dry";
  lab.sampled_at = test::at("2025-02-21");
  (void)add(yard.store, lab);
  Spreading spread;
  spread.mark = test::by("ab");
  spread.fill_id = yard.fill_id;
  spread.at = test::at("2025-04-21");
  spread.where = "orchard";
  spread.area_m2 = 50.0;
  (void)add(yard.store, spread);
  (void)add(yard.store,
            Photo{test::by("ab"), yard.fill_id, test::at("2025-03-03"), sha256_hex("x"), "image/png", 1, ""});
  (void)add(yard.store, CsvSource{test::by("ab"), "logger", "{}"});
  (void)add(yard.store, DueDay{test::by("ab"), "north", "2025-04-01", "", "look at the worms"});
  for (const auto& [table, count] : counts(yard.store))
    EXPECT_EQ(count, table == "readings" || table == "events" ? 0 : 1) << table;
  EXPECT_EQ(all<LabTest>(yard.store).front().lot_id, lot_id);
  EXPECT_EQ(all<LabTest>(yard.store).front().fill_id, "");
  EXPECT_EQ(of_fill<Spreading>(yard.store, yard.fill_id).front().area_m2, 50.0);
  EXPECT_EQ(all<Lot>(yard.store).front().mass_wet_kg, 800.0);
}

TEST(Records, TogetherAreStoredAsOneOrNotAtAll) {
  Yard yard;
  {
    Transaction together(yard.store);
    (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
  }
  EXPECT_TRUE(all<Reading>(yard.store).empty());
  {
    Transaction together(yard.store);
    (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-05T08:00Z"));
    together.commit();
  }
  EXPECT_EQ(all<Reading>(yard.store).size(), 1U);
}

}  // namespace
}  // namespace stillheap::record
