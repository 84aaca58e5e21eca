#include "yard/learned/learned.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "../../planning/plan/yard.hpp"
#include "../record/yard.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/sealed.hpp"
#include "yard/record/moment.hpp"

namespace stillheap::yard {
namespace {

namespace fs = std::filesystem;

/// One heap of which fourteen days were read and something was learned.
class Learned : public testing::Test {
 protected:
  site::Site site = plan::test::small_yard();
  record::test::Yard records;
  record::Fill fill = *record::current<record::Fill>(records.store, records.fill_id);
  OwnLookup own{records.store.file(), site, "UTC", [this](const auto& use) { use(records.store); }};
  const vessel::Design& design = site.vessels.front();

  void SetUp() override {
    for (int day = 1; day <= 14; ++day) read(day, 40.0 + day);
  }
  std::string read(int day, double celsius) {
    record::Reading one = record::test::reading(records.fill_id, celsius, "2025-03-02T12:00Z");
    one.at = fill.filled_at + std::chrono::hours{24 * day};
    return record::add(records.store, one).id;
  }
  [[nodiscard]] forecast::Request request() const {
    return plan::fill_request(site, design, filling_of(fill, "UTC"), learned_days);
  }
  [[nodiscard]] std::vector<calibrate::Observation> readings() const {
    return readings_to_learn(records.store, fill, record::now());
  }
  void keep() {
    calibrate::Learned learned;
    learned.readings = calibrate::core_days(readings());
    learned.observations = static_cast<int>(readings().size());
    learned.follows = true;
    learned.own = {{std::vector<double>(forecast::input_count(), 0.5)}, 1.5};
    keep_learned(records.store.file(), fill, calibrate::basis_of(request(), readings()), learned, record::now());
  }
  bool used() { return !own(fill, design).draws.empty(); }
};

TEST_F(Learned, IsThereAfterAStartAndGrowsOldWithNewReadings) {
  EXPECT_FALSE(used());
  EXPECT_FALSE(taught_of(records.store.file(), fill, request(), readings()).has_value());
  keep();
  EXPECT_TRUE(used());
  EXPECT_EQ(own(fill, design).misfit_k, 1.5);
  EXPECT_EQ(taught_of(records.store.file(), fill, request(), readings())->standing, Standing::holds);
  (void)read(15, 60.0);
  EXPECT_TRUE(used()) << "what came since is no reason to forget";
  EXPECT_EQ(taught_of(records.store.file(), fill, request(), readings())->standing, Standing::may_grow);
}

TEST_F(Learned, IsNotUsedOnceAReadingItLearnedFromIsCorrected) {
  const std::string wrong = read(9, 64.0);  // the warmest of its day
  keep();
  ASSERT_TRUE(used());
  record::Reading mended = *record::current<record::Reading>(records.store, wrong);
  mended.mark = record::test::by("ab");
  mended.mark.corrects = wrong;
  mended.mark.reason = "other unit";
  mended.value = 30.0;
  (void)record::add(records.store, mended);
  EXPECT_FALSE(used());
  EXPECT_EQ(taught_of(records.store.file(), fill, request(), readings())->standing, Standing::corrected);
}

TEST_F(Learned, ALowerReadingOfTheSameDayChangesNothing) {
  keep();
  record::Reading wall = record::test::reading(records.fill_id, 30.0, "2025-03-02T12:00Z", "wall");
  wall.at = fill.filled_at + std::chrono::hours{24 * 9 + 3};
  (void)record::add(records.store, wall);
  EXPECT_TRUE(used()) << "issue 19: only what is learned from counts";
}

TEST_F(Learned, MoistureAndOxygenAreLearnedFromTooDayByDay) {
  const auto note = [&](record::Measure measure, int day, double value, const char* place) {
    record::Reading one = record::test::reading(records.fill_id, value, "2025-03-02T12:00Z", place);
    one.measure = measure;
    one.at = fill.filled_at + std::chrono::hours{24 * day + 2};
    (void)record::add(records.store, one);
  };
  note(record::Measure::moisture, 3, 0.60, "core");
  note(record::Measure::moisture, 3, 0.50, "wall");
  note(record::Measure::oxygen, 5, 0.12, "core");
  const auto all = readings();
  ASSERT_EQ(all.size(), 16U);
  EXPECT_EQ(calibrate::core_days(all), 14);
  EXPECT_TRUE(std::is_sorted(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.day < b.day; }));
  const auto of = [&](calibrate::Sensed what) {
    return *std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.what == what; });
  };
  EXPECT_NEAR(of(calibrate::Sensed::moisture).value, 0.55, 1e-12) << "the mean of its places";
  EXPECT_NEAR(of(calibrate::Sensed::oxygen).value, 0.12, 1e-12);
  note(record::Measure::carbon_dioxide, 5, 0.20, "core");
  EXPECT_EQ(readings().size(), 16U) << "oxygen of that day was read";
  note(record::Measure::carbon_dioxide, 6, 0.05, "core");
  ASSERT_EQ(readings().size(), 17U);
  const auto from_carbon = readings()[readings().size() - 9];
  EXPECT_EQ(from_carbon.what, calibrate::Sensed::oxygen);
  EXPECT_NEAR(from_carbon.value, 0.2095 - 0.05, 1e-12);
  keep();
  EXPECT_TRUE(used());
  note(record::Measure::moisture, 4, 0.55, "core");
  EXPECT_FALSE(used()) << "one that came in between is another record";
}

TEST_F(Learned, WhatIsNotUsedSaysWhy) {
  keep();
  const auto told = [&] { return words(*taught_of(records.store, fill, site, design, "UTC"), "UTC"); };
  EXPECT_NE(told().find("follow 14 days of readings"), std::string::npos) << told();
  site.surfaces.shade_share = 0.9;
  EXPECT_NE(told().find("the site file, the fill or the program is another"), std::string::npos) << told();
  fs::resize_file(learned_file(records.store.file(), fill.mark.thing), 100);
  EXPECT_NE(told().find("cannot be read"), std::string::npos) << told();
}

TEST_F(Learned, OneThatAnotherVersionKeptIsToldAsThatAndNotUsed) {
  keep();
  const fs::path file = learned_file(records.store.file(), fill.mark.thing);
  forecast::write_sealed({"stillheap learned", 1, 77, ""}, forecast::Cbor::to_cbor(forecast::Cbor::array({1})), file);
  EXPECT_FALSE(used());
  const std::string told = words(*taught_of(records.store, fill, site, design, "UTC"), "UTC");
  EXPECT_NE(told.find("another version of the program kept it; let it learn again"), std::string::npos) << told;
}

TEST_F(Learned, IsNotUsedForAnotherSiteFileOrAnotherFill) {
  keep();
  site.surfaces.shade_share = 0.9;
  OwnLookup anew{records.store.file(), site, "UTC", [this](const auto& use) { use(records.store); }};
  EXPECT_TRUE(anew(fill, design).draws.empty());
  site.surfaces.shade_share = 0.0;
  record::Fill wetter = fill;
  wetter.mark = record::test::by("ab");
  wetter.mark.corrects = fill.mark.id;
  wetter.mark.reason = "squeezed again";
  wetter.moisture_wet = 0.7;
  const std::string id = record::add(records.store, wetter).id;
  fill = *record::current<record::Fill>(records.store, id);
  EXPECT_FALSE(used());
}

TEST_F(Learned, ADamagedFileIsNone) {
  keep();
  const fs::path file = learned_file(records.store.file(), fill.mark.thing);
  fs::resize_file(file, fs::file_size(file) / 2);
  EXPECT_FALSE(used());
}

TEST(LearnedFile, LiesBesideTheStoreWhateverTheFillIsCalled) {
  const fs::path file = learned_file("yard/site.records.sqlite", "../../escape");
  EXPECT_EQ(file.parent_path(), fs::path("yard/site.learned"));
}

}  // namespace
}  // namespace stillheap::yard
