#include "planning/site/beginning.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "planning/site/edit_text.hpp"
#include "planning/site/parse_toml.hpp"
#include "planning/site/site.hpp"
#include "planning/site/value_text.hpp"

namespace stillheap::site {
namespace {

Beginning some() {
  Beginning made;
  made.name = R"(Karl's "north" yard \ Höhe)";
  made.first_fill = "2026-12-01";
  made.latitude_deg = -37.25;
  made.longitude_deg = 145.5;
  made.elevation_m = 120.0;
  made.climate = {5.0, 13.0, 13.0, 27.0, 0.7};
  made.materials = {{"wood-chips", 12.0, 1.0}, {"leaves", {}, 2.0}, {"horse-manure", {}, 2.0}};
  made.vessels = 4;
  return made;
}

Site read(const Beginning& beginning) { return read_site("site.toml", {}, beginning_text(beginning, "site.toml")); }

TEST(Beginning, IsReadBackAsItWasSaid) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    Beginning said = some();
    said.units = units;
    const Site site = read(said);
    EXPECT_EQ(site.units, units);
    EXPECT_EQ(site.name, said.name);
    EXPECT_EQ(site.start_date, "2026-12-01");
    EXPECT_NEAR(site.place.latitude_rad * 57.29577951, -37.25, 1e-4);
    EXPECT_NEAR(site.place.elevation_m, 120.0, 0.16);  // whole feet
    EXPECT_EQ(site.goal.vessels, 4);
    ASSERT_EQ(site.offers.size(), 3U);
    EXPECT_NEAR(site.offers[0].stock_kg.value() / site.offers[0].feedstock.bulk_density_kg_m3, 12.0, 0.01);
    EXPECT_NEAR(site.weather.monthly.high_c[0], 27.0, 0.06) << "summer in January";
    double sum = 0.0;
    for (const auto& [id, share] : site.blend.shares_by_mass) sum += share;
    EXPECT_NEAR(sum, 1.0, 1e-9);
  }
}

TEST(Beginning, KeepsTheStartersCommentsAndTellsThatItsWeatherIsRough) {
  const std::string text = beginning_text(some(), "site.toml");
  for (const char* kept : {"# A site file for stillheap.", "# One block for each raw material.",
                           "# How much is wanted:", "# Pipes stand in the heap", "# moisture = \"68 %\""}) {
    EXPECT_NE(text.find(kept), std::string::npos) << kept;
  }
  EXPECT_NE(text.find("rough, from the coldest and warmest month"), std::string::npos);
  EXPECT_EQ(text.find("My yard"), std::string::npos);
}

TEST(Beginning, AsksForCompostInsteadOfVessels) {
  Beginning said = some();
  said.vessels.reset();
  said.compost_m3 = 6.0;
  const Site site = read(said);
  EXPECT_FALSE(site.goal.vessels);
  EXPECT_NEAR(site.goal.compost_m3.value(), 6.0, 1e-9);
}

TEST(Beginning, WithoutSharesIsSearched) {
  Beginning said = some();
  for (Beginning::Material& one : said.materials) one.share_by_volume = 0.0;
  EXPECT_TRUE(read(said).blend.shares_by_mass.empty());
}

TEST(Beginning, IsRefusedForWhatTheSiteFileWouldBe) {
  Beginning said = some();
  said.latitude_deg = 91.0;
  said.vessels = 0;
  try {
    (void)read(said);
    FAIL();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 2U);
    EXPECT_NE(error.problems()[0].where.find("place.latitude"), std::string::npos);
  }
  said = some();
  said.materials[0].like = "moon dust";
  EXPECT_THROW((void)beginning_text(said, "site.toml"), InputError);
}

TEST(ValueText, EscapesWhatTomlWantsEscaped) {
  const std::string all = "a \"b\" \\ c\n\t\x7f é # [x]";
  const toml::table root = parse_toml("x.toml", "v = " + in_quotes(all));
  EXPECT_EQ(root["v"].value<std::string>(), all);
}

TEST(EditText, ReplacesTheBlocksOfASectionAndNothingElse) {
  const std::string text =
      "# a\n[[feedstock]]\nid = \"x\"\n\n[[feedstock]]\nid = \"y\"  # own\n# below\n\n[goal]\nvessels = 2\n";
  const std::vector<std::string> blocks{"id = \"p\"", "id = \"q\"\nname = \"Q\""};
  EXPECT_EQ(
      with_blocks(text, "feedstock", blocks, "site.toml"),
      "# a\n[[feedstock]]\nid = \"p\"\n\n[[feedstock]]\nid = \"q\"\nname = \"Q\"\n# below\n\n[goal]\nvessels = 2\n");
  EXPECT_THROW((void)with_blocks(text, "vessel", blocks, "site.toml"), InputError);
}

}  // namespace
}  // namespace stillheap::site
