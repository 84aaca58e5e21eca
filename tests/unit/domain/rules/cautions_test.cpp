#include "domain/rules/cautions.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "domain/rules/caution_words.hpp"

namespace stillheap::rules {
namespace {

Conditions harmless() {
  Conditions conditions;
  conditions.drinking_water_supply = false;
  conditions.brim_height_m = 1.0;
  conditions.slender = {};
  conditions.pail_mass_kg = 3.0;
  conditions.pail_limit_kg = 9.0;
  conditions.ground_pressure_pa = 5000.0;
  conditions.soil_bearing_pa = 50000.0;
  conditions.peak_c = 55.0;
  conditions.driest_moisture_wet = 0.6;
  conditions.drain_conductivity_s_m = 0.1;
  conditions.coldest_outside_c = 4.0;
  conditions.hygiene_met_everywhere = true;
  return conditions;
}

bool shows(const Conditions& conditions, const std::string& words) {
  const auto all = select_cautions(conditions);
  return std::any_of(all.begin(), all.end(),
                     [&](const Warned& caution) { return caution.text.find(words) != std::string::npos; });
}

struct Switch {
  const char* words;
  void (*turn_on)(Conditions&);
};

constexpr Switch switches[] = {
    {"back-flow preventer that", [](Conditions& c) { c.drinking_water_supply = true; }},
    {"Raw manure", [](Conditions& c) { c.has_manure = true; }},
    {"weedkillers", [](Conditions& c) { c.may_carry_weedkiller = true; }},
    {"At 70 degC", [](Conditions& c) { c.peak_c = 70.0; }},
    {"ignite", [](Conditions& c) { c.peak_c = 72.0, c.driest_moisture_wet = 0.4; }},
    {"first frost", [](Conditions& c) { c.coldest_outside_c = -0.5; }},
    {"salty", [](Conditions& c) { c.drain_conductivity_s_m = 0.35; }},
    {"taller than wide", [](Conditions& c) { c.slender = {"tall"}; }},
    {"platform or scaffold", [](Conditions& c) { c.brim_height_m = 1.3; }},
    {"recommended weight limit", [](Conditions& c) { c.pail_mass_kg = 20.0; }},
    {"bearing given", [](Conditions& c) { c.ground_pressure_pa = 60000.0; }},
    {"Count the compost as raw", [](Conditions& c) { c.hygiene_met_everywhere = false; }},
};

TEST(Cautions, AppearOnlyUnderTheirCondition) {
  for (const Switch& one : switches) {
    EXPECT_FALSE(shows(harmless(), one.words)) << one.words;
    Conditions conditions = harmless();
    one.turn_on(conditions);
    EXPECT_TRUE(shows(conditions, one.words)) << one.words;
  }
}

TEST(Cautions, AppearWhenTheirReadingIsUnknown) {
  const Conditions unknown;
  for (const char* words : {"At 70 degC", "ignite", "first frost", "salty", "bearing given", "recommended weight"}) {
    EXPECT_TRUE(shows(unknown, words)) << words;
  }
}

TEST(Cautions, FollowTheOrderOfTheWorkAndEachHasASource) {
  const auto all = select_cautions({});
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_FALSE(all[i].source.empty());
    if (i > 0) {
      EXPECT_LE(all[i - 1].place, all[i].place);
    }
  }
}

TEST(Cautions, NameTheVesselsTheyHoldForWhenOthersStandBeside) {
  Conditions conditions = harmless();
  conditions.slender = {"north"};
  EXPECT_FALSE(shows(conditions, "north")) << "the only vessel need not be named";
  conditions.vessels = 3;
  EXPECT_TRUE(shows(conditions, "north: The vessel is taller than wide"));
}

TEST(Cautions, NameTheTemperatureOfTouchingThatTheSheetsName) {
  const std::string celsius = std::to_string(static_cast<int>(words::touch_c)) + " degC";
  const std::string fahrenheit = std::to_string(static_cast<int>(words::touch_c * 1.8 + 32.0)) + " degF";
  EXPECT_NE(words::arm.find(celsius + " (" + fahrenheit + ')'), std::string_view::npos);
}

}  // namespace
}  // namespace stillheap::rules
