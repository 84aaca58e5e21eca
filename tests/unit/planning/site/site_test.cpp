#include "planning/site/site.hpp"

#include <cmath>

#include "core/base/error.hpp"
#include "planning/site/key.hpp"
#include "support.hpp"

namespace stillheap::site {
namespace {

const std::filesystem::path source = STILLHEAP_SOURCE_DIR;

const Assumption* find_default(const Site& site, const std::string& topic) {
  const auto found = std::find_if(site.defaults.begin(), site.defaults.end(),
                                  [&](const Assumption& one) { return one.topic == topic; });
  return found == site.defaults.end() ? nullptr : &*found;
}

TEST(Starter, PassesAsWritten) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    const test::Folder folder;
    const Site site = read_site(folder.write("site.toml", starter_text(units)));
    EXPECT_EQ(site.units, units);
    EXPECT_EQ(site.vessels.at(0).channels.size(), 6U);
    EXPECT_EQ(starter_text(units).find("{{"), std::string::npos);
  }
}

TEST(Reference, IsTheCommittedPage) {
  EXPECT_EQ(test::read_text(source / "docs/site-file.md"), reference_markdown())
      << "run: stillheap reference > docs/site-file.md";
}

TEST(Keys, HaveSectionHelpAndAGoodDefault) {
  for (const std::span<const Key> keys : all_keys()) {
    for (const Key& key : keys) {
      EXPECT_NE(find_section(key.section), nullptr) << key.section;
      EXPECT_EQ(find_key(key.section, key.name), &key) << key.section << '.' << key.name << " is there twice";
      EXPECT_FALSE(key.help.empty()) << key.name;
      const bool falls_back = key.need == Need::has_default || key.need == Need::worked_out;
      EXPECT_EQ(falls_back, !key.standard.empty()) << key.name;
      EXPECT_EQ(falls_back, !key.source.empty()) << key.name;
    }
  }
}

TEST(Examples, AllPass) {
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(source / "examples")) {
    const std::string name = entry.path().filename();
    if (name == "library" || name == "study") continue;  // a program on the library, a study of another example
    EXPECT_NO_THROW((void)read_site(entry.path() / "site.toml")) << entry.path();
    ++count;
  }
  EXPECT_GE(count, 3);
}

TEST(CommonRoundExample, HoldsTheSizesOfCommonPractice) {
  const Site site = read_site(source / "examples/common-round-us/site.toml");
  const vessel::Design& ring = site.vessels.at(0);
  EXPECT_NEAR(ring.diameter_m / 0.0254, 47.7, 0.05);  // 12 ft 6 in around: common practice, no source
  EXPECT_EQ(ring.channels.size(), 6U);
  EXPECT_NEAR(ring.channels.at(0).diameter_m, 0.1016, 1e-12);
  EXPECT_NEAR(std::hypot(ring.channels.at(1).centre.x_m, ring.channels.at(1).centre.y_m), 0.3048, 1e-12);
  EXPECT_NEAR(site.water.line.hole_diameter_m, 0.00079375, 1e-12);
  EXPECT_NEAR(site.bath.volume_m3, 0.208197648, 1e-8);
}

TEST(ReadSite, WantsNoLineWhereWateredByHand) {
  const test::Folder folder;
  std::string text = starter_text(UnitSystem::metric);
  const std::size_t line = text.find("[water.line]");
  const std::size_t rest = text.find("\n[", text.find("[water.supply]") + 1);
  ASSERT_NE(line, std::string::npos);
  text.erase(line, rest + 1 - line);
  EXPECT_THROW((void)read_site(folder.write("line.toml", text)), InputError);
  text.insert(text.find("[water]") + 8, "by = \"hand\"\ncan = \"2 gal\"\n");
  const Site site = read_site(folder.write("hand.toml", text));
  EXPECT_TRUE(site.water.by_hand);
  EXPECT_NEAR(site.water.can_m3, 0.00757082, 1e-8);
  EXPECT_FALSE(site.practice.water_line);
}

TEST(ReadSite, TurnsEverythingIntoSi) {
  const Site site = read_site(source / "tests/data/site/good.toml");
  EXPECT_EQ(site.name, "Test yard");
  EXPECT_NEAR(site.place.latitude_rad, 0.8203047484, 1e-9);
  EXPECT_NEAR(site.weather.monthly.low_c[0], -3.0, 1e-12);
  EXPECT_NEAR(site.weather.monthly.sun_j_m2_day[11], 3.5e6, 1e-3);
  EXPECT_NEAR(site.weather.monthly.wind_m_s[9], 1.4, 1e-12);
  EXPECT_NEAR(site.weather.monthly.rain_m_month[7], 0.136, 1e-12);
  const material::Offer& own = site.offers.at(1);
  EXPECT_NEAR(own.feedstock.moisture_wet, 0.6, 1e-12);
  EXPECT_NEAR(own.feedstock.conductivity_s_m, 0.3, 1e-12);
  EXPECT_NEAR(own.feedstock.pool_rate_20c_per_s[0], 0.03 / 86400, 1e-15);
  EXPECT_EQ(own.feedstock.source.find("ash_dry")->second, "laboratory report 5");
  EXPECT_NEAR(own.stock_kg.value(), 4000.0, 1e-9);
  EXPECT_NEAR(own.price_per_kg, 0.04, 1e-12);
  EXPECT_NEAR(site.blend.shares_by_mass.at("own"), 0.6, 1e-12);
  EXPECT_NEAR(site.labour.wage_per_s, 0.005, 1e-12);
  EXPECT_NEAR(site.prices.at("mesh"), 5.0, 1e-12);
  EXPECT_EQ(site.prices.count("spray"), 0U);
}

TEST(ReadSite, CountsStockAndPriceByVolumeWithTheBulkDensity) {
  const Site site = read_site(source / "tests/data/site/good.toml");
  const material::Offer& chips = site.offers.at(0);
  EXPECT_NEAR(chips.stock_kg.value(), 10.0 * chips.feedstock.bulk_density_kg_m3, 1e-9);
  EXPECT_NEAR(chips.price_per_kg * chips.feedstock.bulk_density_kg_m3, 8.0, 1e-12);
}

TEST(ReadSite, LaysChannelsInRingMiddleGridAndSinglePlaces) {
  const Site site = read_site(source / "tests/data/site/good.toml");
  const vessel::Design& north = site.vessels.at(0);
  ASSERT_EQ(north.channels.size(), 6U);
  EXPECT_NEAR(north.channels.at(1).centre.x_m, 0.0, 1e-12);  // first angle 90 deg
  EXPECT_NEAR(north.channels.at(1).centre.y_m, 0.3, 1e-12);
  ASSERT_EQ(north.slats.size(), 6U);
  EXPECT_NEAR(north.slats.at(0).from.y_m, -0.5, 1e-12);
  EXPECT_NEAR(north.slats.at(0).to.x_m, std::sqrt(0.36 - 0.47 * 0.47), 1e-12);  // inner edge meets the wall
  const vessel::Design& south = site.vessels.at(1);
  ASSERT_EQ(south.channels.size(), 9U);
  EXPECT_NEAR(south.channels.at(0).centre.x_m, -0.75, 1e-12);
  EXPECT_NEAR(south.channels.at(0).centre.y_m, -0.25, 1e-12);
  EXPECT_NEAR(south.channels.at(8).centre.x_m, 0.9, 1e-12);
  EXPECT_NEAR(south.fill_height_m, 1.0, 1e-12);
}

TEST(ReadSite, TiesARingInsideAHoop) {
  const test::Folder folder;
  std::string text = test::read_text(source / "tests/data/site/good.toml");
  const std::string radius = "radius = \"0.30 m\"";
  text.replace(text.find(radius), radius.size(), "hoop = \"27.5 in\"");
  const Site site = read_site(folder.write("yard.toml", text));
  const Point at = site.vessels.at(0).channels.at(1).centre;
  EXPECT_NEAR(std::hypot(at.x_m, at.y_m), (27.5 * 0.0254 - 0.1) / 2.0, 1e-12);
}

TEST(ReadSite, ListsEveryDefaultWithItsSourceAndNothingThatWasGiven) {
  const Site site = read_site(source / "tests/data/site/good.toml");
  const Assumption* soak = find_default(site, "bath.soak");
  ASSERT_NE(soak, nullptr);
  EXPECT_EQ(soak->value, "30 min");
  EXPECT_EQ(soak->source, "common practice, no source");
  EXPECT_NE(find_default(site, "feedstock.chips.carbon"), nullptr);
  EXPECT_NE(find_default(site, "vessel.south.fill_height"), nullptr);
  EXPECT_NE(find_default(site, "vessel.north.lining.flap"), nullptr);
  EXPECT_EQ(find_default(site, "bath.volume"), nullptr);
  EXPECT_EQ(find_default(site, "feedstock.own.carbon"), nullptr);
  EXPECT_EQ(find_default(site, "blend.carbon_to_nitrogen"), nullptr);  // a fixed recipe is not searched
}

TEST(ReadSite, TakesSharesByVolumeAndFollowsOwnAshWithThePools) {
  const test::Folder folder;
  std::string text = test::read_text(source / "tests/data/site/good.toml");
  const std::string soaked = "soaked_moisture";
  text.replace(text.find(soaked), soaked.size(), "shares_by = \"volume\"\nsoaked_moisture");
  const std::string like = "like = \"wood-chips\"";
  text.replace(text.find(like), like.size(), like + "\nash = \"20 %\"\ncarbon = \"40 %\"");
  const Site site = read_site(folder.write("yard.toml", text));
  const material::Feedstock& chips = site.offers.at(0).feedstock;
  const double by_mass = 0.4 * chips.bulk_density_kg_m3 / (0.4 * chips.bulk_density_kg_m3 + 0.6 * 450.0);
  EXPECT_NEAR(site.blend.shares_by_mass.at("chips"), by_mass, 1e-12);
  const material::Feedstock typical = material::find_typical("wood-chips").value();
  EXPECT_NEAR(chips.pool_dry[2] / typical.pool_dry[2], 0.8 / (1.0 - typical.ash_dry), 1e-12);
}

TEST(ReadSite, BringsSharesToExactlyOne) {
  const test::Folder folder;
  std::string text = test::read_text(source / "tests/data/site/good.toml");
  const std::string share = "own = \"60 %\"";
  text.replace(text.find(share), share.size(), "own = \"60.5 %\"");
  const Site site = read_site(folder.write("yard.toml", text));
  EXPECT_NEAR(site.blend.shares_by_mass.at("own") + site.blend.shares_by_mass.at("chips"), 1.0, 1e-15);
  EXPECT_NEAR(site.blend.shares_by_mass.at("own"), 0.605 / 1.005, 1e-12);
}

TEST(ReadSite, TellsEveryProblemAtOnceInTheOrderOfTheFile) {
  const test::Folder folder;
  std::string text = test::read_text(source / "tests/data/site/good.toml");
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"elevation = \"480 m\"", "elevation = \"9000 m\""},
                                 {"fill_height = \"1.40 m\"", "fill_height = \"1.60 m\""},
                                 {"volume = \"200 L\"", "volume = \"200 kg\""},
                                 {"units = \"metric\"", "units = \"imperial\""}}) {
    text.replace(text.find(from), from.size(), to);
  }
  try {
    (void)read_site(folder.write("yard.toml", text));
    FAIL() << "accepted";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 4U) << error.what();
    EXPECT_NE(error.problems()[0].where.find("site.units"), std::string::npos);
    EXPECT_NE(error.problems()[1].where.find("place.elevation"), std::string::npos);
    EXPECT_NE(error.problems()[2].where.find("vessel.north.fill_height"), std::string::npos);
    EXPECT_NE(error.problems()[3].where.find("bath.volume"), std::string::npos);
  }
}

TEST(ReadSite, RefusesToUseUpStockWhereThereIsNone) {
  const test::Folder folder;
  std::string text = test::read_text(source / "tests/data/site/good.toml");
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"stock = \"10 m3\"\n", ""},
                                 {"stock = \"4 t\"\n", ""},
                                 {"shares = { chips = \"40 %\", own = \"60 %\" }", "aim = \"use up stock\""}}) {
    text.replace(text.find(from), from.size(), to);
  }
  try {
    (void)read_site(folder.write("yard.toml", text));
    FAIL() << "accepted";
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("blend.aim = \"use up stock\" finds no feedstock with a stock"),
              std::string::npos)
        << error.what();
  }
}

TEST(ReadSite, ReadsWeatherFilesBesideTheSiteFile) {
  const test::Folder folder;
  (void)folder.write("year.epw", "x");
  std::string text = test::read_text(source / "tests/data/site/good.toml");
  const std::size_t start = text.find("[weather]");
  text.replace(start, text.find("[[feedstock]]") - start, "[weather]\nepw = \"year.epw\"\n\n");
  const Site epw = read_site(folder.write("yard.toml", text));
  EXPECT_EQ(epw.weather.source, WeatherSource::epw);
  EXPECT_EQ(epw.weather.file, folder.path() / "year.epw");
  const std::string line = "epw = \"year.epw\"";
  text.replace(text.find(line), line.size(),
               "[weather.csv]\nfile = \"year.epw\"\ntime = \"when\"\nair = \"Tair [degF]\"\nwind_height = \"10 m\"");
  const Site csv = read_site(folder.write("yard.toml", text));
  EXPECT_EQ(csv.weather.source, WeatherSource::csv);
  EXPECT_EQ(csv.weather.columns.air, "Tair [degF]");
  EXPECT_NEAR(csv.weather.columns.wind_height_m, 10.0, 1e-12);
}

}  // namespace
}  // namespace stillheap::site
