#include <gtest/gtest.h>

#include "check.hpp"
#include "domain/material/blend.hpp"
#include "domain/material/salts.hpp"

namespace stillheap::material {
namespace {

using outside::expect;

constexpr double ds_m = 0.1;  // S/m

TEST(Salts, FromOneExtractToTheOther) {
  const char* names[] = {"talsma", "loveday", "shaw", "lyons"};
  for (std::size_t i = 0; i < extract_lines().size(); ++i) {
    const ExtractLine& line = extract_lines()[i];
    const std::string name = names[i];
    expect("S04", name + "_0_5", (line.slope * 0.5 * ds_m + line.offset_s_m) / ds_m);
    expect("S04", name + "_2", (line.slope * 2.0 * ds_m + line.offset_s_m) / ds_m);
  }
  const Spread spread = saturated_conductivity_s_m(2.0 * ds_m);
  expect("S04", "spread_low_2", spread.low / ds_m);
  expect("S04", "spread_high_2", spread.high / ds_m);
  EXPECT_GT(spread.middle, spread.low);
  EXPECT_LT(spread.middle, spread.high);
}

TEST(Salts, InWater) {
  expect("S05", "at_0_7", 1000.0 * salt_in_water_kg_m3(0.7 * ds_m));
  expect("S05", "at_3", 1000.0 * salt_in_water_kg_m3(3.0 * ds_m));
}

TEST(Salts, OfDryMatter) { expect("S06", "at_5_ds_m_g_per_kg", 1000.0 * soluble_salt_dry(5.0 * ds_m)); }

TEST(Salts, OfPotassiumChloride) { expect("S07", "salt_mg_l", 1000.0 * salt_in_water_kg_m3(1.413 * ds_m)); }

TEST(Salts, BecomeAConcern) {
  Blend blend = mix(std::vector<Part>{{*find_typical("leaves"), 1.0}});
  for (const auto& [key, value] : {std::pair{"at_5_0", 5.0}, {"at_5_1", 5.1}}) {
    blend.conductivity_s_m = value * ds_m;
    std::string finding = "nothing to say";
    for (const Warning& warning : check_ranges(blend)) {
      if (warning.where == "salts") finding = warning.what.substr(0, warning.what.find(':'));
    }
    expect("S08", key, finding);
  }
}

}  // namespace
}  // namespace stillheap::material
