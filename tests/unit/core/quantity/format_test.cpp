#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "core/quantity/quantity.hpp"

namespace stillheap::quantity {
namespace {

using D = Dimension;
constexpr auto metric = UnitSystem::metric;
constexpr auto us = UnitSystem::us;

TEST(Format, ChoosesAReadableUnit) {
  EXPECT_EQ(format(1.905, D::length, metric, 4), "1.905 m");
  EXPECT_EQ(format(1.905, D::length, us), "6 ft 3 in");
  EXPECT_EQ(format(0.42, D::length, metric), "420 mm");
  EXPECT_EQ(format(1.2127607, D::length, us), "47.7 in");
  EXPECT_EQ(format(3.81, D::length, us), "12 ft 6 in");
  EXPECT_EQ(format(0.2, D::volume, metric), "200 L");
  EXPECT_EQ(format(0.0189270589, D::volume, us), "5 gal");
  EXPECT_EQ(format(1.4, D::volume, us), "1.83 yd3");
  EXPECT_EQ(format(1234.0, D::mass, metric), "1.23 t");
  EXPECT_EQ(format(55.0, D::temperature, us), "131 degF");
  EXPECT_EQ(format(26.7, D::temperature, metric), "26.7 degC");
  EXPECT_EQ(format(-5.0, D::temperature, metric), "-5 degC");
  EXPECT_EQ(format(0.65, D::fraction, metric), "65 %");
  EXPECT_EQ(format(5400.0, D::duration, metric), "1.5 h");
  EXPECT_EQ(format(86400.0, D::duration, metric), "24 h");
  EXPECT_EQ(format(310264.08, D::pressure, us), "45 psi");
  EXPECT_EQ(format(0.12, D::conductivity, us), "1.2 dS/m");
}

TEST(Format, CarriesIntoTheNextUnit) {
  EXPECT_EQ(format(0.9999, D::length, metric), "1 m");
  EXPECT_EQ(format(0.99999e-3, D::volume, metric), "1 L");
  EXPECT_EQ(format(83.97 * 0.0254, D::length, us), "7 ft");
  EXPECT_EQ(format(3599.9, D::duration, metric), "1 h");
}

TEST(Format, WritesDrillSizesAsFractions) {
  EXPECT_EQ(format(0.0254 / 32, D::length, us), "1/32 in");
  EXPECT_EQ(format(0.0127, D::length, us), "1/2 in");
  EXPECT_EQ(format(0.0254 * 0.3, D::length, us), "0.3 in");
}

TEST(Format, WritesPricesToTheCent) {
  EXPECT_EQ(format(0.04, D::money_per_mass, metric), "40 per t");
  EXPECT_EQ(format(9.5, D::money_per_piece, metric), "9.50 each");
  EXPECT_EQ(format(18.0 / 3600, D::money_per_time, us), "18 per h");
  EXPECT_EQ(format(12.345, D::money_per_volume, metric), "12.35 per m3");
  EXPECT_EQ(format(3.0, D::money_per_mass, us), "1.36 per lb");
}

TEST(Format, SaysUnknownForWhatIsNotANumber) {
  EXPECT_EQ(format(std::nan(""), D::length, metric), "unknown");
  EXPECT_EQ(format(std::numeric_limits<double>::infinity(), D::mass, us), "unknown");
  EXPECT_EQ(format_workshop(std::nan(""), us), "unknown");
}

TEST(Workshop, RoundsToOneMillimetre) {
  EXPECT_EQ(format_workshop(0.3020, metric), "302 mm");
  EXPECT_EQ(format_workshop(0.3025, metric), "303 mm");
  EXPECT_EQ(format_workshop(3.81, metric), "3810 mm");
  EXPECT_EQ(format_workshop(0.0, metric), "0 mm");
}

TEST(Workshop, RoundsToSixteenthsAndCarries) {
  EXPECT_EQ(format_workshop(0.3020, us), "11 7/8 in");
  EXPECT_EQ(format_workshop(11.97 * 0.0254, us), "12 in");      // 11 15.52/16
  EXPECT_EQ(format_workshop(11.999375 * 0.0254, us), "12 in");  // 11 15.99/16
  EXPECT_EQ(format_workshop((11 + 15.4 / 16) * 0.0254, us), "11 15/16 in");
  EXPECT_EQ(format_workshop(0.5 / 16 * 0.0254, us), "1/16 in");  // halves go up
  EXPECT_EQ(format_workshop(0.49 / 16 * 0.0254, us), "0 in");
  EXPECT_EQ(format_workshop(47.99 * 0.0254, us), "4 ft 0 in");
  EXPECT_EQ(format_workshop(59.98 * 0.0254, us), "5 ft 0 in");
  EXPECT_EQ(format_workshop(3.81, us), "12 ft 6 in");
  EXPECT_EQ(format_workshop(47.746 * 0.0254, us), "47 3/4 in");
  EXPECT_EQ(format_workshop(74.5 * 0.0254, us), "6 ft 2 1/2 in");
}

TEST(Typeset, UsesTheSignsOfPrint) {
  EXPECT_EQ(typeset("1.2 m3"), "1.2 m\u00b3");
  EXPECT_EQ(typeset("55 degC"), "55 \u00b0C");
  EXPECT_EQ(typeset("30 deg"), "30\u00b0");
  EXPECT_EQ(typeset("5 ft2 degF h/BTU"), "5 ft\u00b2 \u00b0F h/BTU");
  EXPECT_EQ(parse(typeset("55 degC"), D::temperature), 55.0);
}

TEST(Format, WritesNextToNothingAsNothing) {
  EXPECT_EQ(format(8.46e-11, D::fraction, metric, 3), "0 %");
  EXPECT_EQ(format(-3e-7, D::fraction, us, 3), "0 %");
  EXPECT_EQ(format(2e-5, D::fraction, metric, 3), "0.002 %");
  EXPECT_EQ(format(1e-12, D::mass, metric, 3), "0 g");
  EXPECT_EQ(format(1e-12, D::volume, us, 3), "0 gal");
  EXPECT_EQ(format(1e-12, D::length, metric, 3), "0 mm");
}

/// Every dimension, over twelve powers of ten, in both systems: what is written can be read back.
TEST(Format, CanBeReadBackWithinItsRounding) {
  const D all[] = {D::length,
                   D::area,
                   D::volume,
                   D::mass,
                   D::duration,
                   D::fraction,
                   D::temperature_step,
                   D::angle,
                   D::pressure,
                   D::speed,
                   D::flow,
                   D::density,
                   D::conductivity,
                   D::rate,
                   D::daily_energy,
                   D::depth_rate,
                   D::flow_resistance,
                   D::thermal_resistance};
  for (const D dimension : all) {
    for (const UnitSystem system : {metric, us}) {
      for (double si = 1.2345e-7; si < 1e5; si *= 1.7) {
        if (dimension == D::fraction && si < 5e-6) continue;  // reads as nothing
        const std::string text = format(si, dimension, system, 4);
        EXPECT_NEAR(parse(text, dimension) / si, 1.0, 6e-4) << text;
      }
    }
  }
}

TEST(Format, TemperaturesCanBeReadBack) {
  for (double celsius = -40.0; celsius < 90.0; celsius += 0.37) {
    for (const UnitSystem system : {metric, us}) {
      const std::string text = format(celsius, D::temperature, system, 4);
      EXPECT_NEAR(parse(text, D::temperature), celsius, 0.06) << text;
    }
  }
}

TEST(Format, PricesCanBeReadBack) {
  for (const D dimension : {D::money_per_mass, D::money_per_volume, D::money_per_length, D::money_per_area,
                            D::money_per_time, D::money_per_piece}) {
    for (const UnitSystem system : {metric, us}) {
      for (double price = 0.013; price < 1e4; price *= 1.9) {
        const std::string text = format(price, dimension, system);
        EXPECT_NEAR(parse(text, dimension) / price, 1.0, 0.05) << text;
      }
    }
  }
}

TEST(Workshop, CanBeReadBackWithinHalfAStep) {
  for (double length = 0.0011; length < 9.0; length += 0.01237) {
    EXPECT_NEAR(parse(format_workshop(length, metric), D::length), length, 0.5001e-3);
    EXPECT_NEAR(parse(format_workshop(length, us), D::length), length, 0.5001 * 0.0254 / 16);
  }
}

TEST(Format, TellsABandInOneUnit) {
  const double yd3 = 0.764554857984;
  EXPECT_EQ(format(0.8 * yd3, D::volume, UnitSystem::us), "162 gal");
  EXPECT_EQ(format_beside(0.8 * yd3, 2.8 * yd3, D::volume, UnitSystem::us), "0.8 yd3");
}

TEST(Format, TellsPressureOnTheGroundAsBuildersDo) {
  EXPECT_EQ(format_ground(71820.0, UnitSystem::us), "1500 lb/ft2");  // 47.88 Pa a lb/ft2, NIST SP 811
  EXPECT_EQ(format_ground(75000.0, UnitSystem::metric), "75 kPa");
}

}  // namespace
}  // namespace stillheap::quantity
