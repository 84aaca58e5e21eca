#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "present/server/guard.hpp"
#include "present/server/serve.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

/// A server without its socket, on a folder that is yet to be made.
class EmptyHouse : public testing::Test {
 protected:
  EmptyHouse() : folder_(fs::path(testing::TempDir()) / ("empty-house-" + record::new_id())) {
    fs::create_directories(folder_);
  }
  ~EmptyHouse() override {
    house_.reset();
    fs::remove_all(folder_);
  }
  House& house(const Safety& safety = {}) {
    if (!house_) house_ = std::make_unique<House>(file(), safety);
    return *house_;
  }
  [[nodiscard]] fs::path file() const { return folder_ / "yard" / "site.toml"; }
  Response ask(const std::string& method, const std::string& path, const json& body = nullptr) {
    Request ask;
    ask.method = method;
    ask.path = path;
    ask.address = "127.0.0.1";
    ask.header = header_;
    ask.header["host"] = "localhost:8340";
    ask.header.emplace("origin", "http://localhost:8340");
    ask.header.emplace("content-type", "application/json");
    if (!body.is_null()) ask.body = body.dump();
    ask.header["content-length"] = std::to_string(ask.body.size());
    return respond(house(), {}, ask);
  }
  static json wish() {
    return {{"units", "metric"},
            {"name", "Hill yard"},
            {"first_fill", "2026-12-01"},
            {"latitude_deg", 47.0},
            {"longitude_deg", 8.0},
            {"elevation_m", 500.0},
            {"climate",
             {{"coldest_low_c", -3.0},
              {"coldest_high_c", 4.0},
              {"warmest_low_c", 13.0},
              {"warmest_high_c", 25.0},
              {"rain_m_year", 1.0}}},
            {"materials", {{{"like", "wood-chips"}}, {{"like", "leaves"}}, {{"like", "horse-manure"}}}},
            {"vessels", 3}};
  }
  /// The problems of an answer as "where what: mend", a line each.
  static std::string told(const Response& answer) {
    std::string text;
    const json body = json::parse(answer.body);
    for (const json& one : body.at("problems")) {
      text += one.at("where").get<std::string>() + ' ' + one.at("what").get<std::string>() + ": " +
              one.at("mend").get<std::string>() + '\n';
    }
    return text;
  }
  bool has_site() { return json::parse(ask("GET", "/api/session").body).at("has_site").get<bool>(); }

  fs::path folder_;
  std::map<std::string, std::string> header_;

 private:
  std::unique_ptr<House> house_;
};

TEST_F(EmptyHouse, OffersWhatAYardIsBegunWith) {
  EXPECT_FALSE(has_site());
  const json offer = json::parse(ask("GET", "/api/beginning").body);
  EXPECT_EQ(offer.at("file"), "site.toml");
  EXPECT_EQ(offer.at("feedstocks").size(), 44U);  // docs/feedstocks.md
  EXPECT_NEAR(offer.at("starter").at("diameter_m").get<double>(), 1.2, 1e-9);
  EXPECT_EQ(ask("GET", "/api/yard").status, 409);
  EXPECT_EQ(ask("GET", "/api/nothing").status, 404);
  EXPECT_FALSE(fs::exists(file().parent_path())) << "looking makes nothing";
}

TEST_F(EmptyHouse, ProposesWithoutWriting) {
  const Response answer = ask("POST", "/api/beginning/proposal", wish());
  ASSERT_EQ(answer.status, 200) << answer.body;
  const json proposal = json::parse(answer.body);
  EXPECT_EQ(proposal.at("mix"), "found") << proposal.at("no_mix");
  EXPECT_LE(proposal.at("layout").at("air_path").at("length_m").get<double>(), 0.30 + 1e-9);
  EXPECT_NE(proposal.at("text").get<std::string>().find("Hill yard"), std::string::npos);
  EXPECT_FALSE(fs::exists(file().parent_path()));
}

TEST_F(EmptyHouse, LaysMoreChannelsInAWiderVessel) {
  json wide = wish();
  wide["diameter_m"] = 2.6;
  wide["fill_height_m"] = 1.2;
  const json layout = json::parse(ask("POST", "/api/beginning/proposal", wide).body).at("layout");
  EXPECT_NEAR(layout.at("design").at("diameter_m").get<double>(), 2.6, 1e-3);
  EXPECT_NEAR(layout.at("design").at("fill_height_m").get<double>(), 1.2, 1e-3);
  EXPECT_GT(layout.at("design").at("channels").size(), 6U);
  EXPECT_LE(layout.at("air_path").at("length_m").get<double>(), 0.30 + 2e-3);  // as written, to the millimetre
}

TEST_F(EmptyHouse, SharesEvenlyWhereNoMixIsFoundAndTellsWhy) {
  json dry = wish();
  dry["materials"] = {{{"like", "wood-chips"}}};
  const json proposal = json::parse(ask("POST", "/api/beginning/proposal", dry).body);
  EXPECT_EQ(proposal.at("mix"), "even");
  EXPECT_FALSE(proposal.at("no_mix").empty());
  EXPECT_EQ(proposal.at("shares_by_volume").at("wood-chips"), 1.0);
}

TEST_F(EmptyHouse, BeginsTheYardOnce) {
  ASSERT_EQ(ask("POST", "/api/beginning", wish()).status, 201);
  EXPECT_TRUE(has_site());
  EXPECT_EQ(json::parse(ask("GET", "/api/site").body).at("name"), "Hill yard");
  EXPECT_EQ(ask("GET", "/api/yard").status, 200);
  EXPECT_EQ(ask("GET", "/api/beginning").status, 404);
  const std::string written = read_whole_file(file());
  json other = wish();
  other["name"] = "Other yard";
  EXPECT_EQ(ask("POST", "/api/beginning", other).status, 409);
  EXPECT_EQ(read_whole_file(file()), written);
}

TEST_F(EmptyHouse, ReplacesNoFileThatAppearedMeanwhile) {
  EXPECT_FALSE(has_site());
  fs::create_directories(file().parent_path());
  write_whole_file(file(), "not yet TOML = = ");
  EXPECT_EQ(ask("POST", "/api/beginning", wish()).status, 409);
  EXPECT_EQ(read_whole_file(file()), "not yet TOML = = ");
  write_whole_file(file(), site::starter_text(UnitSystem::metric));
  EXPECT_TRUE(has_site()) << "the one that somebody else put there is opened";
  EXPECT_EQ(json::parse(ask("GET", "/api/site").body).at("name"), "My yard");
}

TEST_F(EmptyHouse, TellsWhatIsAllowedInTheUnitsThatWereChosen) {
  json bad = wish();
  bad["units"] = "us";
  bad["latitude_deg"] = 91.0;
  bad["elevation_m"] = 9000.0;
  bad["vessels"] = 0;
  const Response answer = ask("POST", "/api/beginning", bad);
  EXPECT_EQ(answer.status, 422);
  const std::string words = told(answer);
  EXPECT_NE(words.find("place.latitude"), std::string::npos) << words;
  EXPECT_NE(words.find(" ft"), std::string::npos) << words;
  EXPECT_NE(words.find("goal.vessels"), std::string::npos) << words;
  EXPECT_EQ(words.find(folder_.string()), std::string::npos) << words;
  EXPECT_FALSE(fs::exists(file()));
  bad = wish();
  bad["units"] = "us";
  bad["diameter_m"] = 9.0;
  const std::string wide = told(ask("POST", "/api/beginning", bad));
  EXPECT_NE(wide.find("vessel.diameter is too small or too large: give "), std::string::npos) << wide;
  EXPECT_NE(wide.find("to 19 ft 8 in"), std::string::npos) << wide;  // 6 m
}

TEST_F(EmptyHouse, RefusesWhatIsNoWish) {
  const std::vector<std::pair<const char*, json>> slips{
      {"site.name", {{"name", "  "}}},
      {"site.name", {{"name", "two\nlines"}}},
      {"site.first_fill", {{"first_fill", "2026-02-30"}}},
      {"site.first_fill", {{"first_fill", "2026-01-01\n[evil]"}}},
      {"place.longitude", {{"longitude_deg", "east"}}},
      {"weather",
       {{"climate",
         {{"coldest_low_c", 20},
          {"coldest_high_c", 30},
          {"warmest_low_c", 5},
          {"warmest_high_c", 10},
          {"rain_m_year", 1}}}}},
      {"weather.rain",
       {{"climate", {{"coldest_low_c", 1}, {"coldest_high_c", 2}, {"warmest_low_c", 5}, {"warmest_high_c", 10}}}}},
      {"feedstock", {{"materials", json::array()}}},
      {"feedstock", {{"materials", {{{"like", "leaves"}}, {{"like", "leaves"}}}}}},
      {"feedstock.like", {{"materials", {{{"like", "x\" ]"}}}}}},
      {"feedstock.leaves.stock", {{"materials", {{{"like", "leaves"}, {"stock_m3", -1}}}}}},
      {"blend.shares", {{"materials", {{{"like", "leaves"}, {"share_by_volume", -1}}}}}},
      {"goal.vessels", {{"vessels", 1.5}}},
      {"goal", {{"vessels", nullptr}}},
      {"goal", {{"compost_m3", 4}}},
      {"vessel.fill_height", {{"fill_height_m", 1e300}}},
      {"place.elevation", {{"elevation_m", 1e300}}}};
  for (const auto& [key, change] : slips) {
    json one = wish();
    one.update(change);
    const Response answer = ask("POST", "/api/beginning", one);
    EXPECT_EQ(answer.status, 422) << one << answer.body;
    if (answer.status != 422) continue;
    EXPECT_NE(told(answer).find(key), std::string::npos) << told(answer);
  }
  EXPECT_EQ(ask("POST", "/api/beginning", json::array()).status, 422);
  EXPECT_FALSE(fs::exists(file()));
}

TEST_F(EmptyHouse, IsBegunByItsOwnPageAloneAndNotByStrangers) {
  header_["origin"] = "http://elsewhere.example";
  EXPECT_EQ(ask("POST", "/api/beginning", wish()).status, 403);
  EXPECT_FALSE(fs::exists(file()));
}

TEST_F(EmptyHouse, OnTheNetworkIsBegunWithThePassphraseAlone) {
  Safety safety;
  safety.lan = true;
  (void)house(safety);
  EXPECT_EQ(ask("GET", "/api/beginning").status, 401);
  EXPECT_EQ(ask("POST", "/api/beginning/proposal", wish()).status, 401);
  EXPECT_EQ(ask("POST", "/api/beginning", wish()).status, 401);
  EXPECT_FALSE(fs::exists(file()));
  header_["cookie"] = std::string(session_cookie) + "=" + house().door().sessions.open(Clock::now());
  EXPECT_EQ(ask("POST", "/api/beginning", wish()).status, 201);
  EXPECT_EQ(ask("GET", "/api/yard").status, 200) << "still signed in";
}

TEST_F(EmptyHouse, IsNotBegunOverRecordsThatLostTheirSiteFile) {
  ASSERT_EQ(ask("POST", "/api/beginning", wish()).status, 201);
  ASSERT_EQ(ask("GET", "/api/yard").status, 200);
  fs::remove(file());
  EXPECT_THROW((void)House(file(), {}), InputError);
}

}  // namespace
}  // namespace stillheap::server
