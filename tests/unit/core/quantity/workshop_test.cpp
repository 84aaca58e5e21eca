#include "core/quantity/workshop.hpp"

#include <gtest/gtest.h>

#include <string>

namespace stillheap::quantity {
namespace {

TEST(WorkshopLengths, AgreeWithTheWrittenLengthForEveryRounding) {
  for (int i = -40; i <= 400; ++i) {
    const double length_m = 0.00137 * i;
    for (const UnitSystem system : {UnitSystem::metric, UnitSystem::us}) {
      const double rounded = to_workshop_m(length_m, system);
      EXPECT_EQ(format_workshop(length_m, system), format_workshop(rounded, system)) << length_m;
      EXPECT_NEAR(rounded, length_m, 0.5 * workshop_step_m(system) + 1e-12);
      const std::string text = format_workshop(length_m, system);
      if (length_m > 0.0) {
        EXPECT_NEAR(parse(text, Dimension::length), rounded, 1e-9) << text;
      }
    }
  }
}

TEST(WorkshopLengths, RememberTheLargestRounding) {
  WorkshopLengths lengths(UnitSystem::metric);
  EXPECT_EQ(lengths(0.3002), "300 mm");
  EXPECT_NEAR(lengths.worst_error_m(), 0.0002, 1e-12);
  EXPECT_EQ(lengths(0.3006), "301 mm");
  EXPECT_EQ(lengths(0.2), "200 mm");
  EXPECT_NEAR(lengths.worst_error_m(), 0.0004, 1e-12);
  EXPECT_EQ(lengths.statement(), "Lengths are rounded to 1 mm; the largest rounding on this sheet is 0.4 mm.");
}

TEST(WorkshopLengths, SayNothingOfRoundingWhereNothingIsRounded) {
  WorkshopLengths lengths(UnitSystem::metric);
  EXPECT_EQ(lengths(1.6) + lengths(0.25), "1600 mm250 mm");
  EXPECT_EQ(lengths.statement(), "");
}

TEST(WorkshopLengths, StateTheRoundingInInchesToUsReaders) {
  WorkshopLengths lengths(UnitSystem::us);
  EXPECT_EQ(lengths(0.0254 * 1.0405), "1 1/16 in");
  EXPECT_EQ(lengths.statement(), "Lengths are rounded to 1/16 in; the largest rounding on this sheet is 0.022 in.");
}

TEST(Water, HasTheSameDigitsOnBothSidesOfADecade) {
  EXPECT_EQ(format_water(9.98, UnitSystem::metric, 2), "10 L");
  EXPECT_EQ(format_water(9.996, UnitSystem::metric, 3), "10.0 L");
  EXPECT_EQ(format_water(10.02, UnitSystem::metric, 3), "10.0 L");
  EXPECT_EQ(format_water(9.4, UnitSystem::metric, 2), "9.4 L");
}

}  // namespace
}  // namespace stillheap::quantity
