#include "model/calibrate/kept.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <limits>

#include "../forecast/sample_request.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/sealed.hpp"

namespace stillheap::calibrate {
namespace {

namespace fs = std::filesystem;

class KeptFile : public ::testing::Test {
 protected:
  fs::path file = fs::path(::testing::TempDir()) / "kept" / "one.cbor";
  void SetUp() override { fs::create_directories(file.parent_path()); }
  void TearDown() override { fs::remove_all(file.parent_path()); }
};

std::vector<Observation> read_on(int days) {
  std::vector<Observation> readings;
  for (int day = 0; day < days; ++day) readings.push_back({day + 0.5, 40.0 + day});
  return readings;
}

Kept sample() {
  Kept kept;
  kept.basis = basis_of(forecast::common_request(30), read_on(12));
  kept.learned_at_s = 1777000000;
  kept.learned.readings = 12;
  kept.learned.follows = true;
  kept.learned.after.core_c = {{40.0, 38.0, 43.5}, {41.0, 39.0, 44.0}};
  kept.learned.values = {{"moisture as filled", "wet basis, 3 % a deviation", 0.7, 0.4}};
  kept.learned.after.cool_day = {50.0, 40.0, 61.0};
  kept.learned.courses = {{{0.0, 1.0, 2.0}}};
  kept.learned.own = {
      {std::vector<double>(forecast::input_count(), 0.1), std::vector<double>(forecast::input_count(), -0.2)}, 1.7};
  return kept;
}

TEST_F(KeptFile, ComesBackBitForBitButForTheCourses) {
  write_kept(sample(), file);
  const auto back = read_kept(file).kept;
  ASSERT_TRUE(back.has_value());
  EXPECT_EQ(back->basis, sample().basis);
  EXPECT_EQ(back->learned_at_s, 1777000000);
  EXPECT_EQ(back->learned.own.draws, sample().learned.own.draws);
  EXPECT_EQ(back->learned.own.misfit_k, 1.7);
  EXPECT_EQ(back->learned.after.core_c[1].high, 44.0);
  EXPECT_EQ(back->learned.after.cool_day->high, 61.0);
  EXPECT_FALSE(back->learned.before.cool_day.has_value());
  EXPECT_EQ(back->learned.values.front().name, "moisture as filled");
  EXPECT_TRUE(back->learned.courses.empty());
}

TEST_F(KeptFile, IsNotThereWhenMissingCutOrChanged) {
  EXPECT_FALSE(read_kept(file).kept.has_value());
  write_kept(sample(), file);
  std::string bytes;
  {
    std::ifstream in(file, std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(in), {});
  }
  for (const std::size_t at : {std::size_t{0}, bytes.size() / 2, bytes.size() - 9}) {
    std::string other = bytes;
    other[at] = static_cast<char>(other[at] ^ 0x41);
    std::ofstream(file, std::ios::binary) << other;
    EXPECT_FALSE(read_kept(file).kept.has_value()) << at;
  }
  std::ofstream(file, std::ios::binary) << bytes.substr(0, bytes.size() / 3);
  EXPECT_FALSE(read_kept(file).kept.has_value());
}

TEST_F(KeptFile, OfAnotherVersionSaysSoAndADamagedOneDoesNot) {
  const forecast::Bytes inside = forecast::Cbor::to_cbor(forecast::Cbor::array({1, 2}));
  forecast::write_sealed({"stillheap learned", 1, 77, ""}, inside, file);
  EXPECT_TRUE(read_kept(file).of_other_version);
  EXPECT_FALSE(read_kept(file).kept.has_value());
  forecast::write_sealed({"stillheap checkpoint", 1, 77, ""}, inside, file);
  EXPECT_FALSE(read_kept(file).of_other_version);
  write_kept(sample(), file);
  EXPECT_FALSE(read_kept(file).of_other_version);
  fs::resize_file(file, fs::file_size(file) / 2);
  EXPECT_FALSE(read_kept(file).of_other_version);
}

TEST_F(KeptFile, OfAnotherKindOrFarTooLargeIsNone) {
  fs::create_directories(file);
  EXPECT_FALSE(read_kept(file).kept.has_value());
  fs::remove(file);
  fs::create_symlink("/dev/zero", file);
  EXPECT_FALSE(read_kept(file).kept.has_value());
  fs::remove(file);
  write_kept(sample(), file);
  fs::resize_file(file, std::uintmax_t{600} << 20U);
  EXPECT_FALSE(read_kept(file).kept.has_value());
}

TEST_F(KeptFile, IsNotTakenWithDrawsThatNoForecastCanStartFrom) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const auto& [count, value] : {std::pair{2U, 0.1}, {0U, 0.1}, {1000U, 0.1}}) {
    Kept kept = sample();
    kept.learned.own.draws = {std::vector<double>(count, value)};
    write_kept(kept, file);
    EXPECT_FALSE(read_kept(file).kept.has_value()) << count;
  }
  for (const double value : {nan, 1e9, -1e300}) {
    Kept kept = sample();
    kept.learned.own.draws.front().back() = value;
    write_kept(kept, file);
    EXPECT_FALSE(read_kept(file).kept.has_value()) << value;
  }
}

TEST(Basis, TellsAnotherBlendAndACorrectedReadingButNotOneOfTheLastDay) {
  forecast::Request request = forecast::common_request(30);
  const Basis first = basis_of(request, read_on(12));
  std::vector<Observation> readings = read_on(12);
  readings.back().value += 3.0;
  EXPECT_EQ(basis_of(request, readings), first) << "the last day may still grow";
  readings[4].day += 0.2;
  EXPECT_EQ(basis_of(request, readings), first) << "the same warmest value at another hour of the day";
  readings[4].value += 0.5;
  EXPECT_NE(basis_of(request, readings).readings, first.readings);
  std::vector<Observation> wet = read_on(12);
  wet[4].what = Sensed::moisture;
  EXPECT_NE(print_of(wet, 12), print_of(read_on(12), 12)) << "a number of another kind is another reading";
  wet = read_on(12);
  wet.push_back({11.8, 0.6, Sensed::moisture});
  EXPECT_EQ(print_of(wet, 13), first.readings) << "the whole last day may grow";
  EXPECT_EQ(print_of(read_on(20), 12), first.readings) << "readings that came since do not count";
  request.own.draws = {{1.0}};
  EXPECT_EQ(basis_of(request, read_on(12)), first) << "what was learned before is no part of it";
  request.members = 64;
  request.animated = true;
  EXPECT_EQ(basis_of(request, read_on(12)), first) << "nor is how the answer is shown";
  request.blend.moisture_wet += 0.01;
  EXPECT_NE(basis_of(request, read_on(12)).request, first.request);
}

}  // namespace
}  // namespace stillheap::calibrate
