#include "yard/insight/maturity.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/error.hpp"

namespace stillheap::insight {
namespace {

TEST(Quality, FailsAsAWholeWhenOneMetalDoes) {
  const auto findings = check_quality(Standard::metals, {{"arsenic", 10.0}, {"zinc", 3000.0}});
  ASSERT_EQ(findings.size(), 2U);
  EXPECT_FALSE(passes(Standard::metals, findings));
  EXPECT_EQ(findings[1].words, "zinc 3000 mg/kg dry: over 2800");
}

TEST(Quality, PassesNothingWhenNothingIsGiven) {
  EXPECT_FALSE(passes(Standard::metals, {}));
  EXPECT_FALSE(passes(Standard::pathogens, {}));
}

TEST(Quality, TellsTheRulesVerdictFromOurs) {
  const auto mixed = check_quality(Standard::pathogens, {{"fecal_coliform", 500.0}, {"salmonella", 5.0}});
  EXPECT_TRUE(passes(Standard::pathogens, mixed)) << "40 CFR 503.32(a): either suffices";
  EXPECT_FALSE(none_failed(mixed));
  EXPECT_FALSE(none_failed({}));
  EXPECT_TRUE(check_quality(Standard::european_germs, {{"salmonella_25_g", 0.0}}).front().pass);
  EXPECT_FALSE(check_quality(Standard::european_germs, {{"salmonella_25_g", 1.0}}).front().pass);
}

TEST(Quality, RefusesUnknownKeysAndFailsBrokenNumbers) {
  EXPECT_THROW(static_cast<void>(check_quality(Standard::metals, {{"gold", 1.0}})), InputError);
  EXPECT_FALSE(check_quality(Standard::metals, {{"lead", NAN}}).front().pass);
}

TEST(SelfHeating, CountsABoundaryAsTheLessMatureClass) {
  EXPECT_EQ(self_heating_class(10.0).numeral, "IV");
  EXPECT_EQ(self_heating_class(40.0).numeral, "I");
  EXPECT_EQ(self_heating_class(-1.0).numeral, "V");
  EXPECT_THROW(static_cast<void>(self_heating_class(NAN)), InputError);
}

TEST(Germination, RefusesAControlThatDidNotGrow) {
  EXPECT_THROW(static_cast<void>(germination_index_percent(10.0, 0.0, 10.0, 10.0)), InputError);
  EXPECT_EQ(germination_words(49.9), "harms plants");
  EXPECT_EQ(germination_words(80.0), "mature");
}

}  // namespace
}  // namespace stillheap::insight
