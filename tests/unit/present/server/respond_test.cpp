#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <thread>

#include "present/server/passphrase.hpp"
#include "present/server/serve.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

/// A server without its socket, on a copy of the common vessel's site.
class Respond : public testing::Test {
 protected:
  Respond() : folder_(fs::path(testing::TempDir()) / ("respond-" + record::new_id())) {
    fs::create_directories(folder_);
    fs::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml", folder_ / "site.toml");
  }
  ~Respond() override {
    house_.reset();
    fs::remove_all(folder_);
  }
  ServerContext& context(const Safety& safety = {}) { return *house(safety).yard(); }
  House& house(const Safety& safety = {}) {
    if (!house_) house_ = std::make_unique<House>(folder_ / "site.toml", safety);
    return *house_;
  }
  Response ask(const std::string& method, const std::string& path, const std::string& body = "") {
    Request ask;
    ask.method = method;
    ask.path = path;
    ask.body = body;
    ask.address = "127.0.0.1";
    ask.header = header_;
    ask.header["host"] = "localhost:8340";
    ask.header["content-length"] = std::to_string(body.size());
    ask.header.emplace("origin", "http://localhost:8340");
    ask.header.emplace("content-type", "application/json");
    return respond(house(), {}, ask);
  }
  json entries(const json& list) {
    return json::parse(ask("POST", "/api/entries", json{{"entries", list}}.dump()).body).at("results");
  }
  /// A vessel with a fill; returns the fill's id.
  std::string filled() {
    const std::string vessel = record::new_id();
    const std::string fill = record::new_id();
    const json results = entries({{{"kind_of_entry", "vessel"},
                                   {"id", vessel},
                                   {"name", "North 1"},
                                   {"by", "ab"},
                                   {"design", context().site.vessels.front().name}},
                                  {{"kind_of_entry", "fill"},
                                   {"id", fill},
                                   {"vessel", vessel},
                                   {"batch", "2026-1"},
                                   {"by", "ab"},
                                   {"filled_s", 1767225600}}});
    EXPECT_EQ(results.at(1).at("outcome"), "stored") << results;
    return fill;
  }
  static json reading(const std::string& fill, double value) {
    return {{"kind_of_entry", "reading"},
            {"id", record::new_id()},
            {"fill", fill},
            {"measure", "temperature"},
            {"place", "core"},
            {"at_s", 1767312000},
            {"value", value},
            {"by", "ab"}};
  }

  std::map<std::string, std::string> header_;

 private:
  fs::path folder_;
  std::unique_ptr<House> house_;
};

TEST_F(Respond, TellsTheSiteAndAnEmptyYard) {
  EXPECT_EQ(json::parse(ask("GET", "/api/site").body).at("units"), "us");
  EXPECT_TRUE(json::parse(ask("GET", "/api/yard").body).at("vessels").empty());
}

TEST_F(Respond, TellsTheHeatLimitsOfTheRules) {
  const json heat = json::parse(ask("GET", "/api/site").body).at("heat_limits_c");
  // docs/rules.md: fire-risk at 85 degC, too-hot at 70, the phase hot from 45 on, worms at most 80 degF
  EXPECT_NEAR(heat.at("fire").get<double>(), 85.0, 1e-9);
  EXPECT_NEAR(heat.at("too_hot").get<double>(), 70.0, 1e-9);
  EXPECT_NEAR(heat.at("hot").get<double>(), 45.0, 1e-9);
  EXPECT_NEAR(heat.at("warm").get<double>(), 26.6667, 1e-3);
}

TEST_F(Respond, TellsPhonesNoAddressWhenTheNetworkMayNotAsk) {
  EXPECT_TRUE(json::parse(ask("GET", "/api/addresses").body).at("addresses").empty());
}

TEST_F(Respond, LooksTheStoreOverInTheBackgroundAndTellsThatItIsWhole) {
  json told = json::parse(ask("GET", "/api/store").body);
  for (int tries = 0; tries < 500 && told.at("state") == "checking"; ++tries) {
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
    told = json::parse(ask("GET", "/api/store").body);
  }
  EXPECT_EQ(told.at("state"), "whole") << told;
  EXPECT_TRUE(told.at("damage").empty());
  EXPECT_TRUE(told.at("restore").empty());
}

TEST_F(Respond, StoresAReadingOnceHoweverOftenItIsSent) {
  const std::string fill = filled();
  const json one = reading(fill, 61.5);
  EXPECT_EQ(entries(json::array({one})).at(0).at("outcome"), "stored");
  EXPECT_EQ(entries(json::array({one, one})).at(1).at("outcome"), "known");
  const json series = json::parse(ask("GET", "/api/fills/" + fill + "/readings").body).at("series");
  ASSERT_EQ(series.size(), 1U);
  EXPECT_EQ(series.at(0).at("count"), 1);
  EXPECT_EQ(series.at(0).at("value").at(0), 61.5);
}

TEST_F(Respond, StoresNoReadingWithoutItsValue) {
  const std::string fill = filled();
  json null = reading(fill, 0.0);
  null["value"] = nullptr;  // what a browser makes of a number that is none
  json missing = reading(fill, 0.0);
  missing.erase("value");
  const json stored = reading(fill, 50.0);
  const json back = {
      {"kind_of_entry", "reading"}, {"id", record::new_id()}, {"fill", fill},      {"measure", "temperature"},
      {"corrects", stored["id"]},   {"reason", "wrong heap"}, {"withdrawn", true}, {"by", "ab"}};
  const json results = entries(json::array({null, missing, stored, back}));
  EXPECT_EQ(results.at(0).at("outcome"), "refused");
  EXPECT_EQ(results.at(1).at("outcome"), "refused");
  EXPECT_EQ(results.at(1).at("problems").at(0).at("where"), "value");
  EXPECT_EQ(results.at(3).at("outcome"), "stored") << results;
}

TEST_F(Respond, TakesNoNameThatLooksLikeAnother) {
  for (const char* const name : {"North\u200b 1", "\u202e1 htroN", "North\ufeff 1"}) {
    const json results = entries(
        {{{"kind_of_entry", "vessel"}, {"id", record::new_id()}, {"name", name}, {"by", "ab"}, {"design", ""}}});
    EXPECT_EQ(results.at(0).at("outcome"), "refused") << name;
  }
}

TEST_F(Respond, ShowsTheReadingsThatStandWithTheirIdsAndWhatWasCorrected) {
  const std::string fill = filled();
  const json first = reading(fill, 61.5);
  json second = reading(fill, 55.0);
  second["at_s"] = 1767398400;
  json mended = first;
  mended["id"] = record::new_id();
  mended["value"] = 51.5;
  mended["corrects"] = first["id"];
  mended["reason"] = "misread";
  const json results = entries(json::array({first, second, mended}));
  for (const json& one : results) ASSERT_EQ(one.at("outcome"), "stored") << results;
  const json told = json::parse(ask("GET", "/api/fills/" + fill + "/readings").body);
  ASSERT_EQ(told.at("series").size(), 1U);
  EXPECT_EQ(told.at("series").at(0).at("value"), (json{51.5, 55.0}));
  EXPECT_EQ(told.at("series").at(0).at("id"), (json{mended["id"], second["id"]}));
  ASSERT_EQ(told.at("corrected").size(), 1U);
  EXPECT_EQ(told.at("corrected").at(0).size(), 2U) << told;
}

TEST_F(Respond, SendsTheRecordsFromAFileThatGoes) {
  filled();
  std::filesystem::path file;
  {
    const Response made = ask("GET", "/api/export");
    ASSERT_TRUE(made.file);
    EXPECT_TRUE(made.body.empty());
    file = made.file->file();
    EXPECT_EQ(json::parse(std::ifstream(file)).at("fills").size(), 1U);
  }
  EXPECT_FALSE(fs::exists(file));
}

TEST_F(Respond, RefusesOneEntryWithoutLosingTheOthers) {
  const std::string fill = filled();
  json unknown_key = reading(fill, 50.0);
  unknown_key["colour"] = "brown";
  const json results = entries({reading(fill, 400.0), unknown_key, reading(fill, 60.0), {{"kind_of_entry", "cow"}}});
  EXPECT_EQ(results.at(0).at("outcome"), "refused");
  EXPECT_EQ(results.at(1).at("outcome"), "refused");
  EXPECT_EQ(results.at(1).at("problems").at(0).at("where"), "colour");
  EXPECT_EQ(results.at(2).at("outcome"), "stored");
  EXPECT_EQ(results.at(3).at("outcome"), "refused");
}

TEST_F(Respond, TellsWhatTheReadingsSay) {
  const std::string fill = filled();
  json hot = reading(fill, 88.0);
  hot["sure"] = true;
  EXPECT_EQ(entries(json::array({hot})).at(0).at("outcome"), "stored");
  const json state = json::parse(ask("GET", "/api/fills/" + fill + "/state").body);
  EXPECT_TRUE(state.at("phase").contains("statement"));
  EXPECT_FALSE(state.at("worms").at("points").empty());
  const json today = json::parse(ask("GET", "/api/today").body);
  EXPECT_FALSE(today.at("tasks").empty());
  EXPECT_EQ(today.at("phases").at(0).at("fill"), fill);
}

TEST_F(Respond, TellsThatAWaterProgrammeIsBeingWorkedOutUntilItIsKnown) {
  (void)filled();
  const auto waits = [&] { return json::parse(ask("GET", "/api/today").body).at("water_waits").get<int>(); };
  EXPECT_EQ(waits(), 1);
  const auto until = std::chrono::steady_clock::now() + std::chrono::minutes{2};  // a draft forecast takes seconds
  while (waits() > 0 && std::chrono::steady_clock::now() < until) {
    std::this_thread::sleep_for(std::chrono::milliseconds{100});
  }
  EXPECT_EQ(waits(), 0);
}

TEST_F(Respond, AsksBackBeforeAFillIsTakenBackWithItsReadings) {
  const std::string fill = filled();
  (void)entries(json::array({reading(fill, 55.0)}));
  json back = {{"kind_of_entry", "fill"}, {"id", record::new_id()}, {"corrects", fill},
               {"reason", "double"},      {"withdrawn", true},      {"by", "ab"}};
  const json asked = entries(json::array({back})).at(0);
  EXPECT_EQ(asked.at("outcome"), "refused");
  EXPECT_EQ(asked.at("unlikely"), true);
  back["sure"] = true;
  EXPECT_EQ(entries(json::array({back})).at(0).at("outcome"), "stored");
}

TEST_F(Respond, AsksTheUnlikelyBackAndRefusesTheImpossibleThoughSomebodyIsSure) {
  const std::string fill = filled();
  json hot = reading(fill, 99.0);
  json asked = entries(json::array({hot})).at(0);
  EXPECT_EQ(asked.at("outcome"), "refused") << "a page that knows no more keeps it";
  EXPECT_EQ(asked.at("unlikely"), true);
  EXPECT_FALSE(asked.at("problems").empty());
  hot["sure"] = true;
  EXPECT_EQ(entries(json::array({hot})).at(0).at("outcome"), "stored");
  json early = hot;
  early["id"] = record::new_id();
  early["at_s"] = 1767225600 - 3600;  // an hour before the fill
  asked = entries(json::array({early})).at(0);
  EXPECT_EQ(asked.at("outcome"), "refused");
  EXPECT_FALSE(asked.contains("unlikely")) << "before the fill, sure or not";
}

TEST_F(Respond, TellsWhatIsNotThere) {
  EXPECT_EQ(ask("GET", "/api/fills/" + record::new_id()).status, 404);
  EXPECT_EQ(ask("GET", "/../etc/passwd").status, 404);
  EXPECT_EQ(ask("GET", "/api/photos/..%2F..%2Fsite.toml").status, 404);
  EXPECT_EQ(ask("PUT", "/api/yard").status, 405);
}

TEST_F(Respond, RefusesChangesFromOtherPages) {
  header_["origin"] = "http://elsewhere.example";
  EXPECT_EQ(ask("POST", "/api/entries", R"({"entries":[]})").status, 403);
}

TEST_F(Respond, RefusesWhatIsTooLargeOrNoJson) {
  EXPECT_EQ(ask("POST", "/api/drafts", std::string(70000, ' ')).status, 413);
  EXPECT_EQ(ask("POST", "/api/drafts", "{").status, 422);
  header_["content-type"] = "text/plain";
  EXPECT_EQ(ask("POST", "/api/entries", R"({"entries":[]})").status, 422);
}

TEST_F(Respond, RefusesAPhotoThatIsNone) {
  header_["content-type"] = "image/png";
  EXPECT_EQ(ask("POST", "/api/photos", "not a picture").status, 422);
}

TEST_F(Respond, AsksForThePassphraseOnTheNetwork) {
  Safety safety;
  safety.lan = true;
  safety.passphrase_hash = hash_passphrase("four plain yard words");
  context(safety);
  EXPECT_EQ(ask("GET", "/api/yard").status, 401);
  EXPECT_EQ(ask("POST", "/api/session", R"({"passphrase":"wrong words here"})").status, 401);
  const Response opened = ask("POST", "/api/session", R"({"passphrase":"four plain yard words"})");
  ASSERT_EQ(opened.status, 200);
  std::string set;
  for (const auto& [name, value] : opened.headers) {
    if (name == "Set-Cookie") set = value;
  }
  EXPECT_NE(set.find("HttpOnly; SameSite=Strict"), std::string::npos);
  header_["cookie"] = set.substr(0, set.find(';'));
  EXPECT_EQ(ask("GET", "/api/yard").status, 200);
  EXPECT_EQ(ask("DELETE", "/api/session").status, 200);
  EXPECT_EQ(ask("GET", "/api/yard").status, 401);
}

TEST_F(Respond, DraftsAChangeOfChannelsAndFollowsIt) {
  const std::string design = context().site.vessels.front().name;
  const json none = {{"design", design}, {"channels", json::array()}};
  const json as_is = {{"design", design}};
  const json without = json::parse(ask("POST", "/api/drafts", none.dump()).body);
  const json with = json::parse(ask("POST", "/api/drafts", as_is.dump()).body);
  EXPECT_GT(without.at("air_path").at("length_m").get<double>(), with.at("air_path").at("length_m").get<double>());
  EXPECT_FALSE(with.at("forecast").at("history").at("core_c").empty());
  const json clash = {{"design", design}, {"channels", {{{"x_m", 50.0}, {"y_m", 0.0}, {"diameter_m", 0.1}}}}};
  EXPECT_EQ(ask("POST", "/api/drafts", clash.dump()).status, 422);
}

}  // namespace
}  // namespace stillheap::server
