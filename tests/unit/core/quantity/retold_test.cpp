#include "core/quantity/retold.hpp"

#include <gtest/gtest.h>

namespace stillheap::quantity {
namespace {

std::string us(const char* sentence) { return retold(sentence, UnitSystem::us); }

// Factors: NIST SP 811, appendix B.8 (1 in = 25.4 mm, 1 lb = 0.45359237 kg, t/degF = 1.8 t/degC + 32).
TEST(Retold, TellsTheAmountsOfASentenceInUsUnits) {
  EXPECT_EQ(us("static aerated pile: 55 degC or more for 3 days"), "static aerated pile: 131 degF or more for 3 days");
  EXPECT_EQ(us("never above 40 degC"), "never above 104 degF");
  EXPECT_EQ(us("within 3 K of the air"), "within 5.4 degF of the air");
  EXPECT_EQ(us("pieces of at most 12 mm and a plant"), "pieces of at most 0.472 in and a plant");
  EXPECT_EQ(us("dense: 700 kg/m3, above 640 kg/m3"), "dense: 1180 lb/yd3, above 1080 lb/yd3");
  EXPECT_EQ(us("a bath of 200 L"), "a bath of 52.8 gal");
  EXPECT_EQ(us("98055 Pa all year"), "14.2 psi all year");
  EXPECT_EQ(us("0.05 m2 K/W"), "0.284 ft2 degF h/BTU");
}

TEST(Retold, TellsBothEndsOfASpan) {
  EXPECT_EQ(us("worms want 10 to 30 degC."), "worms want 50 degF to 86 degF.");
  EXPECT_EQ(us("58.6 and 71.6 \u00b0C where nothing was mixed"), "137 \u00b0F and 161 \u00b0F where nothing was mixed");
}

TEST(Retold, KeepsTheOneUsAmountWhereBothWereTold) {
  EXPECT_EQ(us("reads 40 degC (104 degF) or more"), "reads 104 degF or more");
  EXPECT_EQ(us("At 70 \u00b0C (158 \u00b0F) and above"), "At 158 \u00b0F and above");
  EXPECT_EQ(us("a wall of 2 m (common practice)"), "a wall of 6 ft 7 in (common practice)");
}

TEST(Retold, LeavesAloneWhatIsNoMetricAmount) {
  for (const char* const same :
       {"EN 1991-4: K = 1.1 (1 - sin phi)", "40 CFR 503.32(a)(3)", "watch from 165 degF, act at 185 degF", "400 Pa s/m",
        "5 m2 Pa/W, ISO 11092", "0.0000002 m2/s", "1400 J/(kg K)", "85 s/m", "3 days in a row", "g of oxygen per kg",
        "FAO-29 rev. 1 table 1", "7 CFR 205.203(c)(1)", "60 % moisture", "64 members", "5 Mushrooms", "2004 Kansas"}) {
    EXPECT_EQ(us(same), same);
  }
}

TEST(Retold, IsTheSentenceItselfForMetricReaders) {
  EXPECT_EQ(retold("reads 40 degC (104 degF) or more", UnitSystem::metric), "reads 40 degC (104 degF) or more");
}

}  // namespace
}  // namespace stillheap::quantity
