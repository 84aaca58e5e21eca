#include <ostream>

#include "core/base/error.hpp"
#include "planning/site/site.hpp"
#include "support.hpp"

// tests/data/site/good.toml with one replacement each. Every refusal must name file, line, key and value and say
// what is allowed; the program must end with 2 and write nothing.
namespace stillheap::site {
namespace {

struct Broken {
  const char* name;
  const char* from;     ///< text of the good file, the first of its kind
  const char* to;       ///< what stands there instead
  const char* at;       ///< text of the broken file on whose line the problem is
  const char* key;      ///< as the message names it
  const char* found;    ///< value as the message names it, or what is missing
  const char* allowed;  ///< part of the mend
};

void PrintTo(const Broken& broken, std::ostream* out) { *out << broken.name; }

const Broken table[] = {
    // Not TOML, or not our keys.
    {"QuoteNotClosed", "name = \"Test yard\"", "name = \"Test yard", "name = \"Test yard", ":3", "string", "TOML 1.0"},
    {"AmountWithoutQuotes", "\"480 m\"", "480 m", "elevation = 480 m", ":11", "", "quotes"},
    {"KeyTwice", "units = \"metric\"", "units = \"metric\"\nunits = \"us\"", "units = \"us\"", ":5", "units",
     "each key once"},
    {"KeyMistyped", "fill_height = \"1.40 m\"", "fil_height = \"1.40 m\"", "fil_height", "vessel.north.fil_height",
     "= \"1.40 m\" is not a key of [vessel]", "did you mean \"fill_height\"?"},
    {"SectionMistyped", "[bath]", "[baths]", "[baths]", "baths", "not a key of a site file", "did you mean \"bath\"?"},
    {"SectionBelowMistyped", "[vessel.base]", "[vessel.bass]", "[vessel.bass]", "vessel.north.bass",
     "is not a key of [vessel]", "did you mean \"base\"?"},
    {"KeyOfAnotherSection", "wage = \"18 per h\"", "people = 2", "people = 2\n\n[forecast]", "labour.people", "= 2",
     "allowed: wage, daily"},
    {"OneBracketForManyVessels", "[[feedstock]]\nid = \"chips\"", "[site2]\nid = \"chips\"", "[site2]", "site2",
     "not a key", "allowed: site"},
    {"SectionIsNoTable", "[labour]\nwage = \"18 per h\"", "[forecast.surfaces]\nshade = \"5 %\"\n[labour]\nwage = 18",
     "wage = 18", "labour.wage", "= 18 has no unit", "a wage such as"},

    // Missing things.
    {"RequiredKeyMissing", "height = \"1.50 m\"\n", "", "[[vessel]]\nname = \"north\"", "vessel.north.height",
     "is missing", "at least 0.3 m and at most 4 m"},
    {"RequiredSectionMissing",
     "[place]\nlatitude = \"47 deg\"\nlongitude = \"9 deg\"\nelevation = \"480 m\"\nsoil_bearing = \"100 kPa\"", "",
     "# A clean", "place", "is missing", "add [place]"},
    {"PartMissing", "[water.supply]\npressure = \"1.5 bar\"\nflow = \"12 L/min\"", "", "[water.line]", "water.supply",
     "is missing", "add [water.supply], or write by = "},
    {"OwnValueMissing", "nitrogen = \"2 %\"\n", "", "[[feedstock]]\nid = \"own\"", "feedstock.own.nitrogen",
     "is missing and there is no \"like\"", "a share such as"},
    {"MonthlyNormalMissing", "rain = { unit = \"mm\", months = [62, 58, 70, 82, 112, 128, 132, 136, 98, 78, 74, 72] }",
     "", "[weather]", "weather.rain", "is missing", "twelve values"},

    // Single values.
    {"PlainNumber", "diameter = \"1.20 m\"", "diameter = 1.2", "diameter = 1.2", "vessel.north.diameter",
     "= 1.2 has no unit", "at least 0.3 m and at most 6 m"},
    {"WrongDimension", "height = \"1.50 m\"", "height = \"1.50 kg\"", "height = \"1.50 kg\"", "vessel.north.height",
     "= \"1.50 kg\" is a mass, not a length", "accepted: m, cm, mm"},
    {"UnknownUnit", "gap = \"100 mm\"", "gap = \"4 thumbs\"", "gap = \"4 thumbs\"", "vessel.north.base.gap",
     "= \"4 thumbs\" has the unknown unit", "accepted: m, cm, mm"},
    {"DecimalComma", "elevation = \"480 m\"", "elevation = \"480,5 m\"", "480,5", "place.elevation",
     "= \"480,5 m\" has a comma", "accepted: m"},
    {"VagueTon", "stock = \"4 t\"", "stock = \"4 ton\"", "4 ton", "feedstock.own.stock", "= \"4 ton\"", "accepted: kg"},
    {"TooLarge", "height = \"1.50 m\"", "height = \"15 m\"", "height = \"15 m\"", "vessel.north.height",
     "= \"15 m\" is too large", "at most 4 m"},
    {"TooSmall", "moisture = \"60 %\"", "moisture = \"-5 %\"", "-5 %", "feedstock.own.moisture",
     "= \"-5 %\" is too small", "at least 0 %"},
    {"ExclusiveEnd", "carbon = \"40 %\"", "carbon = \"0 %\"", "carbon = \"0 %\"", "feedstock.own.carbon",
     "= \"0 %\" is too small", "above 0 %"},
    {"SharesAsPlainPercent", "soaked_moisture = \"65 %\"", "soaked_moisture = 65", "soaked_moisture = 65",
     "blend.soaked_moisture", "= 65 has no unit and is not between 0 and 1", "a share such as \"60 %\""},
    {"LatitudeBeyondThePole", "latitude = \"47 deg\"", "latitude = \"97 deg\"", "97 deg", "place.latitude",
     "= \"97 deg\"", "at most 90 deg"},
    {"WordUnknown", "shape = \"round\"", "shape = \"oval\"", "oval", "vessel.north.shape",
     "= \"oval\" is not one of the words", "\"round\" or \"rectangular\""},
    {"FlagAsText", "centre = true", "centre = \"yes\"", "centre = \"yes\"", "vessel.north.channels.centre",
     "= \"yes\" is neither true nor false", "give true or false"},
    {"WholeAsDecimal", "days = 365", "days = 36.5", "days = 36.5", "forecast.days", "= 36.5 is not a whole number",
     "at least 1 and at most 540"},
    {"ForecastTooLong", "days = 365", "days = 900", "days = 900", "forecast.days", "= 900 is too large", "at most 540"},
    {"NoSuchDay", "first_fill = 2026-04-01", "first_fill = \"2026-02-30\"", "2026-02-30", "site.first_fill",
     "= \"2026-02-30\" is not a day of the calendar", "a date such as"},
    {"EmptyText", "name = \"Test yard\"", "name = \"\"", "name = \"\"", "site.name", "= \"\" is not a text",
     "a text in quotes"},
    {"ElevenMonths", "[83, 79, 73, 69, 71, 72, 72, 75, 80, 84, 86, 86]", "[83, 79, 73, 69, 71, 72, 72, 75, 80, 84, 86]",
     "humidity", "weather.humidity", "does not have just a unit and twelve months", "twelve values"},
    {"MonthOutOfRange", "136, 98, 78", "136, -98, 78", "rain = ", "weather.rain", "= -98 (mm) is too small",
     "at least 0 mm"},
    {"HumidityAboveHundred", "[83, 79, 73", "[183, 79, 73", "humidity", "weather.humidity", "183 (%) is too large",
     "at most 100 %"},
    {"TwoPools", "pools = [\"10 %\", \"30 %\", \"20 %\"]", "pools = [\"10 %\", \"30 %\"]", "pools",
     "feedstock.own.pools", "is not a list of 3 values", "three values"},
    {"WageByMass", "wage = \"18 per h\"", "wage = \"18 per kg\"", "18 per kg", "labour.wage",
     "= \"18 per kg\" is a mass", "per h"},
    {"PriceWithoutWhatFor", "mesh = \"5 per m2\"", "mesh = \"5\"", "mesh = \"5\"", "prices.mesh",
     "= \"5\" does not say what the price is for", "per m2"},
    {"PriceBelowZero", "price = \"40 per t\"", "price = \"-4 per t\"", "-4 per t", "feedstock.own.price",
     "= \"-4 per t\" is too small", "at least 0 per t"},
    {"PageWithoutScheme", "first_fill = 2026-04-01", "first_fill = 2026-04-01\npage = \"compost.local\"",
     "page = ", "site.page", "= \"compost.local\" is no address of a page", "https://"},

    // Values against each other.
    {"BothGoals", "vessels = 3", "vessels = 3\ncompost = \"4 m3\"", "vessels = 3", "goal.vessels",
     "= 3 stands beside \"compost\"", "exactly one of \"compost\" and \"vessels\""},
    {"NoGoal", "vessels = 3\n", "", "[goal]", "goal.compost", "is missing",
     "exactly one of \"compost\" and \"vessels\""},
    {"ReadyBeforeTheFirstFill", "ready_by = 2027-05-01", "ready_by = 2026-03-01", "2026-03-01", "goal.ready_by",
     "= 2026-03-01 is not after the first fill on 2026-04-01", "a later day"},
    {"FilledAboveTheBrim", "fill_height = \"1.40 m\"", "fill_height = \"1.60 m\"", "fill_height",
     "vessel.north.fill_height", "= \"1.60 m\" is above the brim", "at most the height, 1.5 m"},
    {"MeshTooNarrow", "panel_width = \"1.50 m\"", "panel_width = \"1.20 m\"", "panel_width", "vessel.north.panel_width",
     "= \"1.20 m\" does not reach", "at least the height"},
    {"MeshStockWithoutWidth", "width = \"1.50 m\"\nprice", "price", "[[stock]]\nfor = \"mesh\"", "stock.2.width",
     "is missing for mesh", "a length such as"},
    {"StockAtHandWithAPrice", "at_hand = 3", "at_hand = 3\nprice = \"4 each\"", "at_hand", "stock.1.at_hand",
     "= 3 stands beside \"price\"", "leave one of them out"},
    {"StockForNothing", "for = \"form\"", "for = \"roof\"", "for = \"roof\"", "stock.1.for", "= \"roof\"", "mesh"},
    {"RegulatorBelowItsOutlet", "pressure = \"1.5 bar\"", "pressure = \"1.5 bar\"\nbefore_regulator = \"1 bar\"",
     "before_regulator", "water.supply.before_regulator", "= \"1 bar\" is below the pressure behind it", "at least"},
    {"RingOnTheWall", "radius = \"0.30 m\"", "radius = \"0.60 m\"", "radius", "vessel.north.channels.radius",
     "= \"0.60 m\" puts a channel on the wall: channel 2", "use at most \"530 mm\""},
    {"RingIntoTheMiddle", "radius = \"0.30 m\"", "radius = \"0.08 m\"", "radius", "vessel.north.channels.radius",
     "= \"0.08 m\" puts a channel on another", "use at least \"120 mm\""},
    {"HoopOnTheWall", "radius = \"0.30 m\"", "hoop = \"1.19 m\"", "hoop", "vessel.north.channels.hoop",
     "= \"1.19 m\" puts a channel on the wall", "use at most \"1160 mm\""},
    {"RadiusAndHoop", "radius = \"0.30 m\"", "radius = \"0.30 m\"\nhoop = \"0.7 m\"", "hoop",
     "vessel.north.channels.hoop", "= \"0.7 m\" stands beside \"radius\"", "exactly one"},
    {"RingWithoutRadius", "radius = \"0.30 m\"\n", "", "[vessel.channels]", "vessel.north.channels.radius",
     "is missing", "exactly one of \"radius\" and \"hoop\""},
    {"SinglePlaceOutside", "at = [[\"0.9 m\", \"0 m\"]]", "at = [[\"1.2 m\", \"0 m\"]]",
     "at = ", "vessel.south.channels.at", "puts a channel on the wall", "move it"},
    {"SinglePlaceOnTheGrid", "at = [[\"0.9 m\", \"0 m\"]]", "at = [[\"0.75 m\", \"0.2 m\"]]",
     "grid = ", "vessel.south.channels.grid", "= [ 4, 2 ] puts a channel on another", "coarser grid"},
    {"GridTooDense", "grid = [4, 2]", "grid = [19, 3]", "grid = ", "vessel.south.channels.grid",
     "= [ 19, 3 ] puts a channel", "coarser grid"},
    {"TooManyChannels", "grid = [4, 2]", "grid = [20, 20]", "grid = ", "vessel.south.channels.grid",
     "brings the channels to 401 in all", "0 to 60 channels"},
    {"GridInARoundVessel", "centre = true", "centre = true\ngrid = [2, 2]", "grid = [2, 2]",
     "vessel.north.channels.grid", "does not fit a round vessel", "use a ring"},
    {"SizeOfTheOtherShape", "length = \"2 m\"", "length = \"2 m\"\ndiameter = \"1 m\"", "diameter = \"1 m\"",
     "vessel.south.diameter", "= \"1 m\" is no size of a rectangular vessel", "take it out"},
    {"DiameterAndPanel", "diameter = \"1.20 m\"", "diameter = \"1.20 m\"\npanel_length = \"3.8 m\"", "panel_length",
     "vessel.north.panel_length", "= \"3.8 m\" stands beside \"diameter\"", "exactly one"},
    {"WidthMissing", "width = \"1 m\"\n", "", "[[vessel]]\nname = \"south\"", "vessel.south.width",
     "is missing for a rectangular vessel", "at least 0.3 m"},
    {"SlatsWithoutGaps", "slat_width = \"60 mm\"", "slat_width = \"0.2 m\"", "slats = 6", "vessel.north.base.slats",
     "= 6 leaves no air between slats", "at most 5 of them"},
    {"SlatsOnAClosedBase", "gap = \"100 mm\"\n", "open = false\n", "slats = 6", "vessel.north.base.slats",
     "= 6 belongs to an open base", "take it out"},
    {"WireThickerThanItsSpacing", "wire = \"3 mm\"\nspacing = \"50 mm\"", "wire = \"8 mm\"\nspacing = \"6 mm\"",
     "wire = ", "vessel.north.mesh.wire", "= \"8 mm\" is not thinner than its spacing", "less than 6 mm"},
    {"VesselNameTwice", "name = \"south\"", "name = \"north\"", "name = \"north\"\ncount = 1", "vessel.north.name",
     "= \"north\" is there twice", "its own name"},
    {"CountsAgainstTheGoal", "vessels = 3", "vessels = 5", "count = 1", "vessel.south.count",
     "= 1 brings the vessels to 3", "add up to goal.vessels"},
    {"FeedstockIdTwice", "id = \"own\"", "id = \"chips\"", "id = \"chips\"\nname", "feedstock.chips.id",
     "= \"chips\" is there twice", "its own id"},
    {"TypicalMaterialUnknown", "like = \"wood-chips\"", "like = \"wood-chip\"", "like", "feedstock.chips.like",
     "= \"wood-chip\" is not a typical feedstock", "nearest: wood-chips"},
    {"ShareOfAnUnknownFeedstock", "own = \"60 %\"", "owm = \"60 %\"", "shares", "blend.shares.owm",
     "= 60 % is the share of an unknown feedstock", "did you mean \"own\"?"},
    {"SharesDoNotAddUp", "own = \"60 %\"", "own = \"50 %\"", "shares", "blend.shares", "adds up to 90 %",
     "add up to 100 %"},
    {"AimBesideShares", "soaked_moisture = \"65 %\"", "aim = \"least cost\"", "aim", "blend.aim",
     "= \"least cost\" has nothing to search", "take out"},
    {"RangeUpsideDown", "soaked_moisture = \"65 %\"", "carbon_to_nitrogen = [40, 25]", "carbon_to_nitrogen",
     "blend.carbon_to_nitrogen", "= [ 40, 25 ] has its low end above its high end", "two numbers, low and high"},
    {"SoakedOutsideTheRange", "soaked_moisture = \"65 %\"", "soaked_moisture = \"75 %\"", "soaked_moisture",
     "blend.soaked_moisture", "= \"75 %\" is outside of blend.moisture", "from 60 % to 70 %"},
    {"AimMistyped", "shares = { chips = \"40 %\", own = \"60 %\" }", "aim = \"use up stok\"", "aim", "blend.aim",
     "= \"use up stok\" is not one of the words", "\"least cost\" or \"use up stock\""},
    {"MoreThanTheStock", "at_least = \"50 kg\"", "at_least = \"5 t\"", "at_least", "feedstock.own.at_least",
     "= \"5 t\" is more than the stock", "at most 4 t"},
    {"PoolsAboveTheOrganicMatter", "pools = [\"10 %\", \"30 %\", \"20 %\"]", "pools = [\"30 %\", \"40 %\", \"20 %\"]",
     "pools", "feedstock.own.pools", "adds up to more than there is organic matter", "100 % less ash, 80 %"},
    {"CarbonAboveTheOrganicMatter", "ash = \"20 %\"", "ash = \"65 %\"", "carbon", "feedstock.own.carbon",
     "= \"40 %\" makes more carbon", "at most 100 % less ash"},
    {"LowAboveHigh", "months = [-3, -2, 1, 4, 8, 12, 14", "months = [-3, -2, 1, 4, 8, 12, 34", "low = ", "weather.low",
     "has 34 degC in July, above that month's high", "at most 26 degC"},
    {"TwoWeathers", "[weather]", "[weather]\nepw = \"yard.toml\"", "[weather]", "weather", "names 2 sources of weather",
     "exactly one"},
    {"WeatherFileNotThere", "[weather]", "[weather]\nepw = \"gone.epw\"", "epw", "weather.epw",
     "= \"gone.epw\" is not there", "a file, seen from the site file's folder"},
    {"HoleWiderThanThePipe", "inside_diameter = \"13 mm\"\nlength = \"3.8 m\"\nhole = \"0.8 mm\"",
     "inside_diameter = \"3 mm\"\nlength = \"3.8 m\"\nhole = \"4 mm\"", "hole = ", "water.line.hole",
     "= \"4 mm\" is not smaller than the pipe", "less than 3 mm"},
    {"HolesRunTogether", "hole = \"0.8 mm\"\nspacing = \"100 mm\"", "hole = \"10 mm\"\nspacing = \"10 mm\"",
     "spacing = \"10 mm\"", "water.line.spacing", "= \"10 mm\" lets the holes run into each other",
     "more than a hole's diameter"},
    {"SpraysWithoutFlow", "spray_flow = \"0.5 L/min\"\n", "", "[water.line]", "water.line.spray_flow",
     "is missing beside \"sprays\"", "a flow such as"},

    // The yard plan.
    {"SupplyWithoutPlaces", "[bath]", "[supply]\nwanted_a_year = \"4 m3\"\nplaces = 0\n\n[bath]", "places = 0",
     "supply.places", "= 0 is too small", "at least 1 and at most 200"},
    {"SupplyVesselUnknown", "[bath]", "[supply]\nwanted_a_year = \"4 m3\"\nvessel = \"west\"\n\n[bath]",
     "vessel = \"west\"", "supply.vessel", "= \"west\" is no vessel of this file", "allowed: \"north\", \"south\""},
    {"SupplyOfNothing", "[bath]",
     "[supply]\nwanted = { unit = \"m3\", months = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0] }\n\n[bath]",
     "wanted = ", "supply.wanted", "wants nothing all year", "want something in one month"},
    {"SupplyWantedMissing", "[bath]", "[supply]\nplaces = 3\n\n[bath]", "[supply]", "supply.wanted",
     "is missing and there is neither \"wanted_a_year\" nor goal.compost", "twelve values"},
    {"SupplyWantedBelowNothing", "[bath]",
     "[supply]\nwanted = { unit = \"m3\", months = [0, 1, -2, 0, 0, 0, 0, 0, 0, 0, 0, 0] }\n\n[bath]",
     "wanted = ", "supply.wanted", "= -2 (m3) is too small", "at least 0 m3"},
    {"SupplyWantedTwice", "[bath]",
     "[supply]\nwanted = { unit = \"m3\", months = [0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0] }\n"
     "wanted_a_year = \"4 m3\"\n\n[bath]",
     "wanted_a_year", "supply.wanted_a_year", "= \"4 m3\" stands beside \"wanted\"", "leave one of them out"},
    {"SupplySharesDoNotAddUp", "[bath]",
     "[supply]\nwanted_a_year = \"4 m3\"\n"
     "by_month = { unit = \"%\", months = [0, 40, 40, 0, 0, 0, 0, 0, 10, 0, 0, 0] }\n\n[bath]",
     "by_month", "supply.by_month", "adds up to 90 %", "add up to 100 %"},
    {"SupplyHoursTwice", "[bath]",
     "[supply]\nwanted_a_year = \"4 m3\"\nhours = \"20 h\"\n"
     "hours_by_month = { unit = \"h\", months = [9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9] }\n\n[bath]",
     "hours_by_month", "supply.hours_by_month", "stands beside \"hours\"", "leave one of them out"},
    {"SupplyHarvestTooEarly", "[bath]", "[supply]\nwanted_a_year = \"4 m3\"\nharvest_after = \"5 d\"\n\n[bath]",
     "harvest_after", "supply.harvest_after", "= \"5 d\" is too small", "at least 30 d and at most 1000 d"},
    {"SupplyKeyMistyped", "[bath]", "[supply]\nwanted_a_yaer = \"4 m3\"\n\n[bath]", "wanted_a_yaer",
     "supply.wanted_a_yaer", "is not a key of [supply]", "did you mean \"wanted_a_year\"?"},
    {"KeepsWithoutArises", "stock = \"10 m3\"", "stock = \"10 m3\"\nkeeps = \"30 d\"", "keeps", "feedstock.chips.keeps",
     "= \"30 d\" stands without \"arises\"", "what arises in each month"},
};

int line_of(const std::string& text, const std::string& at) {
  const std::size_t where = text.find(at);
  EXPECT_NE(where, std::string::npos) << at;
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(where), '\n'));
}

class BrokenSite : public testing::TestWithParam<Broken> {};

TEST_P(BrokenSite, IsRefusedWithFileLineKeyValueAndWhatIsAllowedAndWritesNothing) {
  const Broken& broken = GetParam();
  std::string text = test::read_text(std::filesystem::path(STILLHEAP_SOURCE_DIR) / "tests/data/site/good.toml");
  const std::size_t from = text.find(broken.from);
  ASSERT_NE(from, std::string::npos) << "the good file lacks: " << broken.from;
  text.replace(from, std::string(broken.from).size(), broken.to);
  const test::Folder folder;
  const std::filesystem::path file = folder.write("yard.toml", text);

  std::string message;
  try {
    (void)read_site(file);
  } catch (const InputError& error) {
    message = error.what();
  }
  const std::string place = file.string() + ':' + std::to_string(line_of(text, broken.at));
  std::size_t at = message.find(place);
  while (at != std::string::npos &&
         message.substr(at, message.find('\n', at) - at).find(broken.key) == std::string::npos) {
    at = message.find(place, at + 1);
  }
  ASSERT_NE(at, std::string::npos) << place << ": " << broken.key << "\nis not in\n" << message;
  const std::string line = message.substr(at, message.find('\n', at) - at);
  EXPECT_NE(line.find(broken.found), std::string::npos) << broken.found << "\nis not in\n" << line;
  EXPECT_NE(line.find(broken.allowed), std::string::npos) << broken.allowed << "\nis not in\n" << line;

  const test::Outcome outcome = test::run_app("check '" + file.string() + "' --json");
  EXPECT_EQ(outcome.code, 2) << outcome.text;
  EXPECT_NE(outcome.text.find("\"good\": false"), std::string::npos);
  EXPECT_EQ(folder.file_count(), 1) << "something was written";
}

INSTANTIATE_TEST_SUITE_P(Table, BrokenSite, testing::ValuesIn(table),
                         [](const auto& one) { return std::string(one.param.name); });

TEST(BrokenSites, TheGoodFileIsGood) {
  EXPECT_NO_THROW((void)read_site(std::filesystem::path(STILLHEAP_SOURCE_DIR) / "tests/data/site/good.toml"));
}

TEST(BrokenSites, AUSYardIsToldWhatIsAllowedInItsUnits) {
  std::string text = test::read_text(std::filesystem::path(STILLHEAP_SOURCE_DIR) / "tests/data/site/good.toml");
  for (const auto& [from, to] : {std::pair{"units = \"metric\"", "units = \"us\""}, {"height = \"1.50 m\"\n", ""}})
    text.replace(text.find(from), std::string(from).size(), to);
  const test::Folder folder;
  try {
    (void)read_site(folder.write("yard.toml", text));
    FAIL() << "nothing was refused";
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("at most 13 ft 1 in"), std::string::npos) << error.what();  // 4 m
  }
}

TEST(BrokenSites, AFileThatIsNotThereIsNamed) {
  EXPECT_THROW((void)read_site("/nowhere/yard.toml"), InputError);
  EXPECT_EQ(test::run_app("check /nowhere/yard.toml").code, 2);
}

}  // namespace
}  // namespace stillheap::site
