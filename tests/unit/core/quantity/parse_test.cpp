#include <gtest/gtest.h>

#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

#include "core/base/error.hpp"
#include "core/quantity/quantity.hpp"

namespace stillheap::quantity {
namespace {

using D = Dimension;

std::string refusal(std::string_view text, Dimension dimension) {
  try {
    (void)parse(text, dimension, "yard.toml:3: vessel.north.height");
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Parse, AddsPartsFromLargeToSmall) {
  EXPECT_NEAR(parse("12 ft 6 in", D::length), 3.81, 1e-12);
  EXPECT_NEAR(parse("6 ft 2 1/2 in", D::length), 74.5 * 0.0254, 1e-12);
  EXPECT_NEAR(parse("1 h 30 min", D::duration), 5400.0, 1e-9);
  EXPECT_NEAR(parse("3 lb 4 oz", D::mass), 3.25 * 0.45359237, 1e-12);
  EXPECT_NEAR(parse("1 m 5 cm", D::length), 1.05, 1e-12);
}

TEST(Parse, ReadsFractions) {
  EXPECT_NEAR(parse("1/32 in", D::length), 0.0254 / 32, 1e-15);
  EXPECT_NEAR(parse("2 1/4 gal", D::volume), 2.25 * 3.785411784e-3, 1e-12);
}

TEST(Parse, ReadsSharesWithAndWithoutSign) {
  EXPECT_DOUBLE_EQ(parse("60 %", D::fraction), 0.6);
  EXPECT_DOUBLE_EQ(parse("60%", D::fraction), 0.6);
  EXPECT_DOUBLE_EQ(parse("0.6", D::fraction), 0.6);
  EXPECT_TRUE(contains(refusal("60", D::fraction), "no unit and is not between 0 and 1"));
}

TEST(Parse, KeepsTemperatureApartFromTemperatureDifference) {
  EXPECT_NEAR(parse("80 degF", D::temperature), 26.6666666667, 1e-9);
  EXPECT_NEAR(parse("300 K", D::temperature), 26.85, 1e-9);
  EXPECT_NEAR(parse("-4 \u00b0C", D::temperature), -4.0, 1e-12);
  EXPECT_NEAR(parse("80 degF", D::temperature_step), 44.4444444444, 1e-9);
  EXPECT_NEAR(parse("5 degC", D::temperature_step), 5.0, 1e-12);
}

TEST(Parse, ReadsPrices) {
  EXPECT_NEAR(parse("40 per t", D::money_per_mass), 0.04, 1e-15);
  EXPECT_NEAR(parse("40/t", D::money_per_mass), 0.04, 1e-15);
  EXPECT_NEAR(parse("12 per m3", D::money_per_volume), 12.0, 1e-12);
  EXPECT_NEAR(parse("9.50 each", D::money_per_piece), 9.5, 1e-12);
  EXPECT_NEAR(parse("18 per h", D::money_per_time), 0.005, 1e-15);
  EXPECT_NEAR(parse("0.50 per ft", D::money_per_length), 0.5 / 0.3048, 1e-12);
  EXPECT_NEAR(parse("30 per short ton", D::money_per_mass), 30 / 907.18474, 1e-12);
}

TEST(Parse, ReadsTheUnitsOfTheTrade) {
  EXPECT_NEAR(parse("1.2 dS/m", D::conductivity), 0.12, 1e-12);
  EXPECT_NEAR(parse("1.2 mS/cm", D::conductivity), 0.12, 1e-12);
  EXPECT_NEAR(parse("45 psi", D::pressure), 310264.1, 1.0);
  EXPECT_NEAR(parse("2.5 bar", D::pressure), 2.5e5, 1e-6);
  EXPECT_NEAR(parse("12 L/min", D::flow), 2e-4, 1e-12);
  EXPECT_NEAR(parse("400 Pa s/m", D::flow_resistance), 400.0, 1e-9);
  EXPECT_NEAR(parse("0.05 m2 K/W", D::thermal_resistance), 0.05, 1e-12);
  EXPECT_NEAR(parse("180 deg", D::angle), 3.14159265358979, 1e-12);
  EXPECT_NEAR(parse("5 %/d", D::rate), 0.05 / 86400, 1e-15);
  EXPECT_NEAR(parse("5 US gallon", D::volume), 5 * 3.785411784e-3, 1e-12);
  EXPECT_NEAR(parse("1.5 m\u00b3", D::volume), 1.5, 1e-12);
}

TEST(Parse, AsksTheLibraryForUnitsOutsideItsTable) {
  EXPECT_NEAR(parse("1 dm3", D::volume), 1e-3, 1e-12);
  EXPECT_NEAR(parse("2 kg/kg", D::fraction), 2.0, 1e-12);
  EXPECT_NEAR(parse("20 celsius", D::temperature), 20.0, 1e-9);
}

struct Refusal {
  const char* text;
  Dimension dimension;
  const char* says;
};

class ParseRefuses : public testing::TestWithParam<Refusal> {};

TEST_P(ParseRefuses, NamingPlaceTextReasonAndAcceptedUnits) {
  const Refusal& expected = GetParam();
  const std::string message = refusal(expected.text, expected.dimension);
  EXPECT_TRUE(contains(message, "yard.toml:3: vessel.north.height")) << message;
  EXPECT_TRUE(contains(message, '"' + std::string(expected.text) + '"')) << message;
  EXPECT_TRUE(contains(message, expected.says)) << message;
  EXPECT_TRUE(contains(message, accepted_units(expected.dimension))) << message;
}

INSTANTIATE_TEST_SUITE_P(
    Amounts, ParseRefuses,
    testing::Values(
        Refusal{"", D::length, "is empty"}, Refusal{"tall", D::length, "is not a number with a unit"},
        Refusal{"1.2", D::length, "without a unit"}, Refusal{"5 ft 6", D::length, "without a unit"},
        Refusal{"3 kg", D::length, "is a mass, not a length"}, Refusal{"12 quux", D::length, "unknown unit \"quux\""},
        Refusal{"3 ampere", D::length, "does not measure a length"},
        Refusal{"6 in 5 ft", D::length, "larger to smaller"}, Refusal{"2 m 3 m", D::length, "larger to smaller"},
        Refusal{"5 ft -6 in", D::length, "unknown unit"}, Refusal{"1,5 m", D::length, "comma"},
        Refusal{"1/0 in", D::length, "is not a number"}, Refusal{"nan m", D::length, "not a number"},
        Refusal{"inf m", D::length, "not a number"}, Refusal{"1e999 m", D::length, "not a number"},
        Refusal{"1e308 km", D::length, "too large"}, Refusal{"2 ton", D::mass, "several masses"},
        Refusal{"20 degC 5 degC", D::temperature, "one number"}, Refusal{"20 %", D::temperature, "is a share"},
        Refusal{"12", D::money_per_mass, "what the price is for"},
        Refusal{"12 per m3", D::money_per_mass, "is a volume"},
        Refusal{"9 each", D::money_per_area, "is not a price by area"},
        Refusal{"9 per m", D::money_per_piece, "is not a price a piece"},
        Refusal{"20 celsius", D::temperature_step, "does not measure a temperature difference"},
        Refusal{"1.2", D::fraction, "not between 0 and 1"}));

TEST(Parse, IsSafeFromSeveralThreads) {
  std::vector<std::thread> threads;
  std::vector<double> sums(4, 0.0);
  for (std::size_t i = 0; i < sums.size(); ++i) {
    threads.emplace_back([&sums, i] {
      for (int n = 0; n < 200; ++n) sums[i] += parse("1 dm3", D::volume) + parse("1 L", D::volume);
    });
  }
  for (std::thread& thread : threads) thread.join();
  for (const double sum : sums) EXPECT_NEAR(sum, 0.4, 1e-9);
}

TEST(Parse, SaysWhichPackageIsMissingWithoutItsDatabase) {
  const auto read_without_database = [] {
    setenv("UDUNITS2_XML_PATH", "/nowhere/udunits2.xml", 1);
    try {
      (void)parse("1 m", D::length);
    } catch (const RunError& error) {
      std::exit(contains(error.what(), "libudunits2-data") ? 7 : 8);
    }
    std::exit(9);
  };
  testing::GTEST_FLAG(death_test_style) = "threadsafe";  // a fresh process: nothing has been read yet
  EXPECT_EXIT(read_without_database(), testing::ExitedWithCode(7), "^$");
}

}  // namespace
}  // namespace stillheap::quantity
