#include "yard/record/doubt.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <optional>

#include "core/base/error.hpp"
#include "yard.hpp"
#include "yard/record/check.hpp"
#include "yard/record/csv_import.hpp"
#include "yard/record/csv_mapping.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"

/// The impossible is refused wherever it comes from; the unlikely is told with its reason.
namespace stillheap::record {
namespace {

using namespace test;

YardFacts facts() {
  YardFacts known;
  known.designs = {{"north", 1.4, 0.6, 1.5}};  // 1.4 m filled, 0.6 m to the wall, 1.5 m3
  known.feedstocks = {"chips"};
  known.lab_keys = {{"arsenic", "mg/kg dry"}, {"conductivity", "dS/m"}};
  return known;
}

Reading deep(const Yard& yard, double depth_m) {
  Reading one = reading(yard.fill_id, 55.0, "2025-03-05T09:00Z");
  one.place.depth_m = depth_m;
  return one;
}

LabTest lab(const Yard& yard, const std::string& key, double value, const std::string& unit) {
  LabTest one;
  one.mark = by("ab");
  one.fill_id = yard.fill_id;
  one.key = key;
  one.value = value;
  one.unit = unit;
  one.sampled_at = at("2025-06-01T09:00Z");
  return one;
}

TEST(Impossible, IsAReadingBeforeTheFillOrAfterItsEnd) {
  Yard yard;
  EXPECT_THROW((void)add(yard.store, reading(yard.fill_id, 55.0, "2025-03-01T09:00Z")), InputError);
  (void)add(yard.store, event(yard.fill_id, EventKind::emptied, "2025-09-01T09:00Z"));
  EXPECT_THROW((void)add(yard.store, reading(yard.fill_id, 55.0, "2025-09-02T09:00Z")), InputError);
  EXPECT_NO_THROW((void)add(yard.store, reading(yard.fill_id, 55.0, "2025-08-31T09:00Z")));
}

TEST(Impossible, IsAHeapThatIsEmptiedBeforeItIsFilledOrWateredAfterwards) {
  Yard yard;
  EXPECT_THROW((void)add(yard.store, event(yard.fill_id, EventKind::emptied, "2025-03-01T09:00Z")), InputError);
  (void)add(yard.store, event(yard.fill_id, EventKind::emptied, "2025-09-01T09:00Z"));
  EXPECT_THROW((void)add(yard.store, event(yard.fill_id, EventKind::sprinkled, "2025-09-03T09:00Z")), InputError);
  EXPECT_NO_THROW((void)add(yard.store, event(yard.fill_id, EventKind::cured, "2025-09-03T09:00Z")));
}

TEST(Impossible, IsAFillCorrectedToBeginAfterWhatWasReadInIt) {
  Yard yard;
  (void)add(yard.store, reading(yard.fill_id, 55.0, "2025-03-05T09:00Z"));
  Fill later = fill(yard.vessel_id, "2026-1", "2025-04-01T09:00Z");
  later.mark.corrects = yard.fill_id;
  later.mark.reason = "the wrong month";
  EXPECT_THROW((void)add(yard.store, later), InputError);
  later.filled_at = at("2025-03-04T09:00Z");
  EXPECT_NO_THROW((void)add(yard.store, later));
}

TEST(Impossible, ArePlacesThatNoVesselHas) {
  Yard yard;
  EXPECT_THROW((void)add(yard.store, deep(yard, 8.5344)), InputError) << "28 ft";
  Reading turned = deep(yard, 0.5);
  turned.place.angle_rad = 1e300;
  EXPECT_THROW((void)add(yard.store, turned), InputError);
  turned.place.angle_rad = std::nan("");
  EXPECT_THROW((void)add(yard.store, turned), InputError);
}

TEST(Impossible, AreLaboratoryValuesThatNobodyCanFind) {
  Yard yard;
  for (const double value : {std::nan(""), std::numeric_limits<double>::infinity(), -1.0, 2e6}) {
    EXPECT_THROW((void)add(yard.store, lab(yard, "arsenic", value, "mg/kg dry")), InputError) << value;
  }
  EXPECT_NO_THROW((void)add(yard.store, lab(yard, "self_heating_rise", -0.5, "K")));
}

TEST(Impossible, AreDaysNobodyPlansForAndTimesNobodyNotes) {
  Yard yard;
  DueDay far;
  far.mark = by("ab");
  far.date = "9999-12-31";
  far.what = "harvest";
  EXPECT_THROW((void)add(yard.store, far), InputError);
  Reading noted = reading(yard.fill_id, 55.0, "2025-03-05T09:00Z");
  noted.mark.noted_at = at("2025-03-05T09:00Z") + std::chrono::hours{24 * 365 * 5000LL};
  EXPECT_THROW((void)add(yard.store, noted), InputError);
}

TEST(Impossible, IsAWrongClockAndToldOnceByTheNameOfItsKey) {
  Yard yard;
  Reading noted = reading(yard.fill_id, 55.0, "2025-03-05T09:00Z");
  noted.mark.noted_at = Instant{std::chrono::seconds{-1}};
  try {
    (void)add(yard.store, noted);
    FAIL() << "was taken";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1U);
    EXPECT_EQ(error.problems().front().where, "reading: noted_at_s");
  }
}

TEST(Unlikely, IsAPlaceOutsideTheVesselsOwnHeap) {
  Yard yard;
  EXPECT_TRUE(doubts(yard.store, deep(yard, 1.2), facts()).empty());
  EXPECT_FALSE(doubts(yard.store, deep(yard, 3.0), facts()).empty());
  EXPECT_TRUE(doubts(yard.store, deep(yard, 3.0), {}).empty()) << "nothing is known of the vessel";
}

TEST(Unlikely, AreValuesThatAreMostlyAnotherUnit) {
  Yard yard;
  Reading hot = reading(yard.fill_id, 99.0, "2025-03-05T09:00Z");
  EXPECT_FALSE(doubts(yard.store, hot, facts()).empty());
  hot.value = 70.0;
  EXPECT_TRUE(doubts(yard.store, hot, facts()).empty());
}

TEST(Unlikely, IsATemperatureThatNoHeapReachesWithinHalfADay) {
  Yard yard;
  YardFacts us = facts();
  us.units = UnitSystem::us;
  (void)add(yard.store, reading(yard.fill_id, 55.0, "2025-03-05T09:00Z"));
  Reading next = reading(yard.fill_id, 12.8, "2025-03-05T15:00Z");  // 55 written where degF are read
  next.written = "55 degF";
  const Doubts found = doubts(yard.store, next, us);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NE(found.front().what.find("in degC its number would be 131 degF"), std::string::npos)
      << to_line(found.front());
  next.value = 40.0;
  EXPECT_TRUE(doubts(yard.store, next, us).empty());
  next.value = 12.8;
  next.at = at("2025-03-07T09:00Z");
  EXPECT_TRUE(doubts(yard.store, next, us).empty()) << "two days later it may have been soaked";
}

CsvPreview column(const Yard& yard, const std::string& unit, const std::string& rows, const std::string& header = "t") {
  CsvMapping mapping;
  mapping.time = "time";
  mapping.zone = "UTC";
  mapping.probes = {parse_probe(header + "=temperature," + unit + ",place:core,depth:18 in", "test")};
  const auto file = yard.folder.write("log.csv", "time," + header + "\n" + rows);
  return preview_csv(yard.store, {file, "probe", mapping, yard.fill_id, by("ab"), facts(), false});
}

TEST(Unlikely, IsAColumnThatIsReadInTheWrongUnit) {
  Yard yard;
  const std::string hot = "2025-03-05T09:00,48\n2025-03-06T09:00,58\n2025-03-07T09:00,62\n";
  EXPECT_EQ(column(yard, "degC", hot).readings.size(), 3U);
  const CsvPreview cold = column(yard, "degF", hot);
  ASSERT_EQ(cold.held.size(), 3U) << "the whole column, not the rows that look odd";
  EXPECT_NE(cold.held.front().why.find("is its unit right?"), std::string::npos);
  EXPECT_EQ(column(yard, "degF", "2025-03-05T09:00,118\n2025-03-06T09:00,136\n").readings.size(), 2U);
  EXPECT_EQ(column(yard, "degC", "2025-03-05T09:00,18\n2025-03-06T09:00,19\n").readings.size(), 2U);
  (void)import_csv(yard.store, column(yard, "degC", hot));
  const CsvPreview after = column(yard, "degF", "2025-03-08T09:00,61\n2025-05-20T09:00,58\n");
  EXPECT_EQ(after.held.size(), 2U) << "the place was at 62 degC the day before";
  EXPECT_NE(after.held.front().why.find("in degC its number would be 61 degC"), std::string::npos)
      << after.held.front().why;
}

TEST(Impossible, IsAColumnWhoseHeaderNamesAnotherUnit) {
  Yard yard;
  const std::string rows = "2025-03-05T09:00,131\n";
  for (const char* const header : {"Core (degF)", "Core [F]", "core_degF", "Core (\u00b0F)"}) {
    EXPECT_THROW((void)column(yard, "degC", rows, header), InputError) << header;
    EXPECT_EQ(column(yard, "degF", rows, header).readings.size(), 1U) << header;
  }
  EXPECT_EQ(column(yard, "degC", "2025-03-05T09:00,55\n", "Sensor F").readings.size(), 1U) << "may be the sixth";
}

/// What makes an event unlikely, by the key of the field.
std::string doubted(const Yard& yard, Event one) {
  std::string keys;
  for (const Problem& found : doubts(yard.store, one, facts())) keys += found.where + ";";
  return keys;
}

TEST(Unlikely, AreAmountsThatNoSuchVesselTakesOrGives) {
  Yard yard;
  Event water = event(yard.fill_id, EventKind::sprinkled, "2025-03-05T09:00Z");
  water.volume_m3 = 0.04;
  EXPECT_EQ(doubted(yard, water), "");
  water.volume_m3 = 340.0;  // 90,000 gal for 90 gal
  EXPECT_EQ(doubted(yard, water), "event: volume;");
  water.volume_m3.reset();
  water.mass_kg = 340000.0;
  EXPECT_EQ(doubted(yard, water), "event: mass;");
  water.mass_kg.reset();
  water.duration_s = 86400.0;
  EXPECT_EQ(doubted(yard, water), "event: duration;");
  Event out = event(yard.fill_id, EventKind::harvested, "2025-12-05T09:00Z");
  out.volume_m3 = 1.2;
  out.mass_kg = 800.0;
  EXPECT_EQ(doubted(yard, out), "");
  out.volume_m3 = 12.0;
  out.mass_kg = 8000.0;
  EXPECT_EQ(doubted(yard, out), "event: volume;event: mass;");
  Event worms = event(yard.fill_id, EventKind::worms_in, "2025-12-05T09:00Z");
  worms.mass_kg = 2.0;
  EXPECT_EQ(doubted(yard, worms), "");
  worms.mass_kg = 200.0;
  EXPECT_EQ(doubted(yard, worms), "event: mass;");
  LotUse use;
  use.mark = by("ab");
  use.fill_id = yard.fill_id;
  use.mass_wet_kg = 900.0;
  EXPECT_TRUE(doubts(yard.store, use, facts()).empty());
  use.mass_wet_kg = 90000.0;
  EXPECT_EQ(doubts(yard.store, use, facts()).size(), 1U);
}

TEST(Unlikely, AreWormsAndAJudgementInTheFirstWeeks) {
  Yard yard;
  EXPECT_EQ(doubted(yard, event(yard.fill_id, EventKind::worms_in, "2025-03-10T09:00Z")), "event: at_s;");
  EXPECT_EQ(doubted(yard, event(yard.fill_id, EventKind::cured, "2025-03-04T09:00Z")), "event: at_s;");
  EXPECT_EQ(doubted(yard, event(yard.fill_id, EventKind::cured, "2025-12-04T09:00Z")), "");
}

/// 500 of the 800 kg of a lot that was delivered before the filling; not yet stored.
LotUse use_of_a_lot(Yard& yard) {
  Lot lot;
  lot.mark = by("ab");
  lot.name = "hen 1";
  lot.mass_wet_kg = 800.0;
  lot.received_at = at("2025-02-20T09:00Z");
  LotUse use;
  use.mark = by("ab");
  use.fill_id = yard.fill_id;
  use.lot_id = add(yard.store, lot).id;
  use.mass_wet_kg = 500.0;
  return use;
}

TEST(Unlikely, IsMoreOfALotThanWasDelivered) {
  Yard yard;
  LotUse use = use_of_a_lot(yard);
  EXPECT_TRUE(doubts(yard.store, use, facts()).empty());
  (void)add(yard.store, use);
  EXPECT_EQ(doubts(yard.store, use, facts()).size(), 1U);
}

TEST(Unlikely, AreLaboratoryValuesThatTheirTestHardlyGives) {
  Yard yard;
  YardFacts known = facts();
  known.lab_keys = {{"germination_index", "%"}, {"self_heating_rise", "K"}};
  const auto count = [&](LabTest test) { return doubts(yard.store, test, known).size(); };
  EXPECT_EQ(count(lab(yard, "germination_index", 95.0, "%")), 0U);
  EXPECT_EQ(count(lab(yard, "germination_index", 850.0, "%")), 1U);
  EXPECT_EQ(count(lab(yard, "self_heating_rise", 500.0, "K")), 1U);
  LabTest early = lab(yard, "self_heating_rise", 5.0, "K");
  early.sampled_at = at("2025-02-01T09:00Z");
  EXPECT_EQ(count(early), 1U) << "sampled before the fill";
}

TEST(Unlikely, IsSpreadingWhatWasNotHarvestedOrMuchTooThick) {
  Yard yard;
  Spreading out;
  out.mark = by("ab");
  out.fill_id = yard.fill_id;
  out.at = at("2025-12-05T09:00Z");
  out.where = "orchard";
  out.volume_m3 = 1.0;
  out.area_m2 = 100.0;
  EXPECT_EQ(doubts(yard.store, out, facts()).size(), 1U);
  (void)add(yard.store, event(yard.fill_id, EventKind::harvested, "2025-12-01T09:00Z"));
  EXPECT_TRUE(doubts(yard.store, out, facts()).empty());
  out.volume_m3 = 38.0;
  out.area_m2 = 0.01;
  EXPECT_EQ(doubts(yard.store, out, facts()).size(), 2U);
}

TEST(Impossible, IsAHeapTakenOutBeforeItsLastReadingOrFilledIntoAFullVessel) {
  Yard yard;
  (void)add(yard.store, reading(yard.fill_id, 30.0, "2025-08-01T09:00Z"));
  EXPECT_THROW((void)add(yard.store, event(yard.fill_id, EventKind::emptied, "2025-07-01T09:00Z")), InputError);
  (void)add(yard.store, event(yard.fill_id, EventKind::emptied, "2025-09-01T09:00Z"));
  EXPECT_THROW((void)add(yard.store, fill(yard.vessel_id, "2026-2", "2025-08-20T09:00Z")), InputError);
  EXPECT_NO_THROW((void)add(yard.store, fill(yard.vessel_id, "2026-2", "2025-09-02T09:00Z")));
}

TEST(Impossible, IsRefusedBeforeAnybodyIsAskedWhetherTheyAreSure) {
  Fill wet;
  wet.batch = "b";
  wet.filled_at = at("2025-03-02T09:00Z");
  wet.moisture_wet = 6.0;
  EXPECT_THROW(refuse_impossible(wet), InputError);
}

TEST(Unlikely, IsAskedBackInTheUnitsOfTheYard) {
  Yard yard;
  YardFacts us = facts();
  us.units = UnitSystem::us;
  const auto told = [&](const auto& entry) { return to_line(doubts(yard.store, entry, us).at(0)); };
  EXPECT_NE(told(reading(yard.fill_id, 90.0, "2025-03-05T09:00Z")).find("194 degF"), std::string::npos);
  EXPECT_NE(told(reading(yard.fill_id, 90.0, "2025-03-05T09:00Z")).find("-4 degF to 176 degF"), std::string::npos);
  const std::string depth = told(deep(yard, 3.0));
  EXPECT_NE(depth.find("9 ft 10"), std::string::npos) << depth;
  EXPECT_EQ(depth.find(" m "), std::string::npos) << depth;
  (void)add(yard.store, reading(yard.fill_id, 60.0, "2025-06-01T09:00Z"));
  const std::string worms = told(event(yard.fill_id, EventKind::worms_in, "2025-06-02T09:00Z"));
  EXPECT_NE(worms.find("140 degF"), std::string::npos) << worms;
  EXPECT_EQ(worms.find("degC"), std::string::npos) << worms;
}

TEST(Impossible, IsToldInBothSystemsOfUnits) {
  Yard yard;
  try {
    (void)add(yard.store, deep(yard, 8.5344));
    FAIL() << "was taken";
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("(28 ft"), std::string::npos) << error.what();
    EXPECT_NE(std::string(error.what()).find("0 m to 4 m (0 in to 13 ft 1 in)"), std::string::npos) << error.what();
  }
}

TEST(Unlikely, IsTheHarvestOfAHeapThatHeats) {
  Yard yard;
  (void)add(yard.store, reading(yard.fill_id, 70.0, "2025-12-20T09:00Z"));
  EXPECT_EQ(doubted(yard, event(yard.fill_id, EventKind::harvested, "2025-12-21T09:00Z")), "event: kind;");
  EXPECT_EQ(doubted(yard, event(yard.fill_id, EventKind::emptied, "2025-12-21T09:00Z")), "event: kind;");
  EXPECT_EQ(doubted(yard, event(yard.fill_id, EventKind::harvested, "2025-12-29T09:00Z")), "") << "a week later";
}

TEST(Unlikely, ATemperatureOfFireSaysWhatToDoIfItIsSo) {
  const auto mend = [](double celsius) {
    return value_doubts(Measure::temperature, celsius, UnitSystem::us).front().mend;
  };
  EXPECT_NE(mend((188.0 - 32.0) / 1.8).find("get away from it"), std::string::npos) << "acts at 185 degF";
  EXPECT_EQ(mend((180.0 - 32.0) / 1.8).find("get away"), std::string::npos);
}

TEST(Unlikely, AreWormsInAHotHeap) {
  Yard yard;
  (void)add(yard.store, reading(yard.fill_id, (150.0 - 32.0) / 1.8, "2025-06-01T09:00Z"));
  const Doubts found = doubts(yard.store, event(yard.fill_id, EventKind::worms_in, "2025-06-02T09:00Z"), facts());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NE(to_line(found.front()).find("65.6 degC"), std::string::npos) << to_line(found.front());
  EXPECT_TRUE(doubts(yard.store, event(yard.fill_id, EventKind::worms_in, "2025-07-02T09:00Z"), facts()).empty());
}

TEST(Unlikely, AreWormsInAColdOrDryHeap) {
  Yard yard;
  (void)add(yard.store, reading(yard.fill_id, 1.0, "2025-06-01T09:00Z"));
  Reading dry = reading(yard.fill_id, 0.30, "2025-06-01T09:00Z");
  dry.measure = Measure::moisture;
  (void)add(yard.store, dry);
  const Doubts found = doubts(yard.store, event(yard.fill_id, EventKind::worms_in, "2025-06-02T09:00Z"), facts());
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NE(to_line(found[0]).find("1 degC"), std::string::npos) << to_line(found[0]);
  EXPECT_NE(to_line(found[1]).find("30 %"), std::string::npos) << to_line(found[1]);
}

TEST(Unlikely, AreNamesThatTheSiteFileAndTheRulesDoNotKnow) {
  Yard yard;
  Vessel other = vessel("south 1");
  EXPECT_TRUE(doubts(yard.store, other, facts()).empty());
  other.design = "nort";
  EXPECT_FALSE(doubts(yard.store, other, facts()).empty());
  EXPECT_TRUE(doubts(yard.store, lab(yard, "arsenic", 3.0, "mg/kg dry"), facts()).empty());
  EXPECT_FALSE(doubts(yard.store, lab(yard, "arsenick", 3.0, "mg/kg dry"), facts()).empty());
  EXPECT_FALSE(doubts(yard.store, lab(yard, "arsenic", 3.0, "g/kg"), facts()).empty());
}

TEST(Unlikely, IsHeldByTheImportAndStoredWhenSomebodyIsSure) {
  Yard yard;
  const auto file =
      yard.folder.write("log.csv", "time,t\n2025-03-05T09:00,55\n2025-03-05T10:00,98\n2025-03-01T10:00,50\n");
  CsvMapping mapping;
  mapping.time = "time";
  mapping.zone = "UTC";
  mapping.probes = {parse_probe("t=temperature,degC,place:core,depth:18 in", "test")};
  CsvRequest request{file, "probe", mapping, yard.fill_id, by("ab"), facts(), false};
  CsvPreview preview = preview_csv(yard.store, request);
  EXPECT_EQ(preview.readings.size(), 1U);
  ASSERT_EQ(preview.held.size(), 1U);
  EXPECT_EQ(preview.held.front().value, "98");
  EXPECT_EQ(preview.refused.size(), 1U) << "before the fill, sure or not";
  request.sure = true;
  preview = preview_csv(yard.store, request);
  EXPECT_EQ(preview.readings.size(), 2U);
  EXPECT_TRUE(preview.held.empty());
  EXPECT_EQ(preview.refused.size(), 1U);
}

TEST(Impossible, IsAProbeOfTheImportDeeperThanAnyVessel) {
  Yard yard;
  const auto file = yard.folder.write("log.csv", "time,t\n2025-03-05T09:00,55\n");
  CsvMapping mapping;
  mapping.time = "time";
  mapping.zone = "UTC";
  mapping.probes = {parse_probe("t=temperature,degC,place:core,depth:28 ft", "test")};
  EXPECT_THROW((void)preview_csv(yard.store, {file, "probe", mapping, yard.fill_id, by("ab"), facts(), true}),
               InputError);
}

/// A yard whose vessel is a box, 2.4 m from east to west and 1.2 m across.
YardFacts box_facts() {
  YardFacts known = facts();
  known.designs = {{"north", 1.4, std::hypot(1.2, 0.6), 3.4, YardFacts::Design::Box{1.2, 0.6}}};
  return known;
}

Reading placed(const Yard& yard, double radius_m, std::optional<double> angle_rad) {
  Reading one = reading(yard.fill_id, 55.0, "2025-03-05T09:00Z");
  one.place.radius_m = radius_m;
  one.place.angle_rad = angle_rad;
  return one;
}

TEST(Unlikely, IsAPlaceOutsideThePlanOfARectangularVessel) {
  Yard yard;
  const double quarter = std::acos(0.0);
  const auto told = [&](double radius_m, std::optional<double> angle_rad) {
    const Doubts found = doubts(yard.store, placed(yard, radius_m, angle_rad), box_facts());
    return found.empty() ? std::string{} : to_line(found.front());
  };
  EXPECT_EQ(told(1.1, 0.0), "") << "1.1 m to the east, the wall is at 1.2 m";
  EXPECT_NE(told(1.1, quarter).find("600 mm"), std::string::npos)
      << "to the north it is at 0.6 m: " << told(1.1, quarter);
  EXPECT_NE(told(1.1, 3.0 * quarter), "");
  EXPECT_EQ(told(1.3, std::atan2(0.6, 1.2)), "") << "in the corner";
  EXPECT_EQ(told(1.1, {}), "") << "somewhere on that circle there is heap";
  EXPECT_NE(told(1.6, {}), "") << "beyond the corners";
}

TEST(Unlikely, IsAProbeOfTheImportOutsideThePlanOfARectangularVessel) {
  Yard yard;
  const auto file = yard.folder.write("log.csv", "time,t\n2025-03-05T09:00,55\n");
  CsvMapping mapping;
  mapping.time = "time";
  mapping.zone = "UTC";
  mapping.probes = {parse_probe("t=temperature,degC,place:x,radius:1.1 m,angle:90 deg", "test")};
  const CsvPreview preview =
      preview_csv(yard.store, {file, "probe", mapping, yard.fill_id, by("ab"), box_facts(), false});
  EXPECT_TRUE(preview.readings.empty());
  EXPECT_EQ(preview.held.size(), 1U);
}

TEST(Unlikely, IsTakingBackAVesselOrAFillThatOthersSpeakOf) {
  Yard yard;
  EXPECT_TRUE(withdrawal_doubts(yard.store, yard.fill_id).empty()) << "nothing is hidden with it yet";
  (void)add(yard.store, reading(yard.fill_id, 55.0, "2025-03-05T09:00Z"));
  (void)add(yard.store, reading(yard.fill_id, 56.0, "2025-03-06T09:00Z"));
  (void)add(yard.store, event(yard.fill_id, EventKind::forms_out, "2025-03-03T09:00Z"));
  for (const std::string& id : {yard.vessel_id, yard.fill_id}) {
    const Doubts found = withdrawal_doubts(yard.store, id);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NE(found.front().what.find("2 readings, 1 event"), std::string::npos) << to_line(found.front());
  }
  Vessel back;
  back.mark = by("ab");
  back.mark.corrects = yard.vessel_id;
  back.mark.reason = "double";
  back.mark.withdrawn = true;
  EXPECT_EQ(asked_back(yard.store, back, facts()).size(), 1U);
  EXPECT_TRUE(withdrawal_doubts(yard.store, all<Event>(yard.store).front().mark.id).empty()) << "hides nothing else";
}

TEST(Unlikely, CountsEachUseOfALotOnceThoughItIsCorrected) {
  Yard yard;
  LotUse use = use_of_a_lot(yard);
  const std::string first = add(yard.store, use).id;
  EXPECT_DOUBLE_EQ(used_of_lot_kg(yard.store, use.lot_id, ""), 500.0);
  use.mark.corrects = first;
  use.mark.reason = "weighed again";
  use.mass_wet_kg = 700.0;
  EXPECT_TRUE(doubts(yard.store, use, facts()).empty()) << "it stands for the first, not beside it";
  const std::string second = add(yard.store, use).id;
  EXPECT_DOUBLE_EQ(used_of_lot_kg(yard.store, use.lot_id, ""), 700.0);
  EXPECT_DOUBLE_EQ(used_of_lot_kg(yard.store, use.lot_id, second), 0.0);
  EXPECT_DOUBLE_EQ(used_of_lot_kg(yard.store, use.lot_id, first), 0.0) << "any statement of it";
}

}  // namespace
}  // namespace stillheap::record
