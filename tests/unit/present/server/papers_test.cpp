#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <thread>

#include "model/forecast/ensemble.hpp"
#include "present/server/serve.hpp"
#include "yard/learned/learned.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr long long day_s = 86400;

/// A server without its socket, with one vessel filled on 1 January 2026.
class Papers : public testing::Test {
 protected:
  Papers() : folder_(fs::path(testing::TempDir()) / ("papers-" + record::new_id())) {
    fs::create_directories(folder_);
    fs::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml", folder_ / "site.toml");
    house_ = std::make_unique<House>(folder_ / "site.toml", Safety{});
    const json vessel = entry("vessel", {{"name", "North 1"}, {"design", house_->yard()->site.vessels.front().name}});
    const json fill =
        entry("fill", {{"vessel", vessel.at("id")}, {"batch", "2026-1 \"first\""}, {"filled_s", filled_s}});
    fill_ = fill.at("id");
    add(json::array({vessel, fill}));
  }
  ~Papers() override {
    house_.reset();
    fs::remove_all(folder_);
  }
  static json entry(const std::string& kind, json fields) {
    fields["kind_of_entry"] = kind;
    fields["id"] = record::new_id();
    fields["by"] = "ab";
    return fields;
  }
  void add(const json& entries) {
    const Response told = ask("POST", "/api/entries", {{"entries", entries}});
    const json results = json::parse(told.body).at("results");
    for (const json& one : results) EXPECT_EQ(one.at("outcome"), "stored") << one;
  }
  /// Daily core readings of a heap that stays at `celsius`.
  void read(int days, double celsius) {
    json entries = json::array();
    for (int day = 0; day < days; ++day) {
      entries.push_back(entry("reading", {{"fill", fill_},
                                          {"measure", "temperature"},
                                          {"place", "core"},
                                          {"at_s", filled_s + day * day_s + 3600},
                                          {"value", celsius + 0.1 * day}}));
    }
    add(entries);
  }
  /// As if the fill's readings had said that it is wetter than planned, and another run of the program had kept it.
  void teach(double deviations) {
    const record::Store store = record::Store::open(record::store_path(house_->yard()->site.file));
    const record::Fill fill = *record::current<record::Fill>(store, fill_);
    const auto readings = yard::readings_to_learn(store, fill, record::now());
    std::vector<double> wetter(forecast::input_count(), 0.0);
    wetter[forecast::input_moisture] = deviations;
    calibrate::Learned learned;
    learned.readings = calibrate::core_days(readings);
    learned.observations = static_cast<int>(readings.size());
    learned.follows = true;
    learned.own = {{wetter}, 1.0};
    const auto request = plan::fill_request(house_->yard()->site, house_->yard()->site.vessels.front(),
                                            yard::filling_of(fill, record::here()), yard::learned_days);
    yard::keep_learned(store.file(), fill, calibrate::basis_of(request, readings), learned, record::now());
  }
  /// The fill's draft forecast, without a band.
  json drafted() {
    house_->yard()->site.members = 0;
    house_->yard()->site.forecast_days = 30;
    const json asked = json::parse(ask("POST", "/api/forecasts", {{"fill", fill_}, {"grid", "draft"}}).body);
    const std::string path = "/api/forecasts/" + asked.at("id").get<std::string>();
    for (int tries = 0; tries < 6000; ++tries) {
      json state = json::parse(ask("GET", path).body);
      if (state.at("state") != "waiting" && state.at("state") != "running") return state;
      std::this_thread::sleep_for(std::chrono::milliseconds{20});
    }
    return {};
  }
  Response ask(const std::string& method, const std::string& path, const json& body = nullptr) {
    Request ask;
    ask.method = method;
    ask.path = path;
    ask.body = body.is_null() ? "" : body.dump();
    ask.header["host"] = "localhost:8340";
    ask.header["origin"] = "http://localhost:8340";
    ask.header["content-type"] = "application/json";
    ask.header["content-length"] = std::to_string(ask.body.size());
    return respond(*house_, {}, ask);
  }
  [[nodiscard]] std::string at(const std::string& rest) const { return "/api/fills/" + fill_ + rest; }
  json import(const std::string& path, const std::string& text, const json& more = json::object()) {
    json body = {{"text", text}, {"source", "logger 7"}, {"fill", fill_}, {"by", "ab"}, {"zone", "UTC"}};
    body.update(more);
    return json::parse(ask("POST", path, body).body);
  }

  static constexpr long long filled_s = 1767225600;
  std::string fill_;

  fs::path folder_;

 private:
  std::unique_ptr<House> house_;
};

std::string header(const Response& answer, const std::string& name) {
  for (const auto& [key, value] : answer.headers) {
    if (key == name) return value;
  }
  return {};
}

TEST_F(Papers, BatchRecordIsAPdfWithAPlainName) {
  read(6, 60.0);
  const Response pdf = ask("GET", at("/batch.pdf"));
  EXPECT_EQ(pdf.status, 200) << pdf.body;
  EXPECT_EQ(pdf.type, "application/pdf");
  EXPECT_TRUE(pdf.body.starts_with("%PDF-"));
  EXPECT_EQ(header(pdf, "Content-Disposition"), "attachment; filename=\"batch-2026-1--first-.pdf\"");
  EXPECT_EQ(ask("GET", at("/batch.pdf")).body, pdf.body) << "the same records, another sheet";
  EXPECT_EQ(ask("GET", "/api/fills/" + record::new_id() + "/batch.pdf").status, 404);
}

TEST_F(Papers, CalendarHoldsWhatIsDue) {
  const Response calendar = ask("GET", "/api/calendar.ics");
  EXPECT_TRUE(calendar.type.starts_with("text/calendar"));
  EXPECT_TRUE(calendar.body.starts_with("BEGIN:VCALENDAR\r\n"));
  EXPECT_NE(calendar.body.find("North 1: take the forms out"), std::string::npos) << calendar.body;
}

TEST_F(Papers, AHarvestedFillIsStillFoundByItsVessel) {
  const json yard = json::parse(ask("GET", "/api/yard").body).at("vessels").at(0);
  const std::string fills = "/api/vessels/" + yard.at("vessel").at("id").get<std::string>() + "/fills";
  EXPECT_TRUE(json::parse(ask("GET", fills).body).at("fills").at(0).at("ended").is_null());
  add(json::array({entry("event", {{"fill", fill_}, {"kind", "harvested"}, {"at_s", filled_s + 90 * day_s}})}));
  EXPECT_TRUE(json::parse(ask("GET", "/api/yard").body).at("vessels").at(0).at("fill").is_null());
  const json told = json::parse(ask("GET", fills).body);
  ASSERT_EQ(told.at("fills").size(), 1U) << told;
  EXPECT_EQ(told.at("fills").at(0).at("fill").at("id"), fill_);
  EXPECT_EQ(told.at("fills").at(0).at("ended").at("kind"), "harvested");
  EXPECT_TRUE(ask("GET", at("/batch.pdf")).body.starts_with("%PDF-"));
  EXPECT_EQ(ask("GET", "/api/vessels/" + record::new_id() + "/fills").status, 404);
}

TEST_F(Papers, LotsAreListed) {
  add(json::array({entry("lot", {{"name", "straw 3"}, {"received_s", filled_s - day_s}})}));
  const json lots = json::parse(ask("GET", "/api/lots").body).at("lots");
  ASSERT_EQ(lots.size(), 1U);
  EXPECT_EQ(lots.at(0).at("name"), "straw 3");
}

const char* const log_text = "Time,T1 (F)\n2026-01-02 08:00,140\n2026-01-02 09:00,900\n2026-01-02 10:00,141\n";

json mapping() {
  return {{"time", "Time"},
          {"zone", "UTC"},
          {"probes",
           {{{"column", "T1 (F)"}, {"measure", "temperature"}, {"unit", "degF"}, {"place", {{"name", "core"}}}}}}};
}

TEST_F(Papers, ALoggersFileIsShownBeforeItIsStored) {
  const json shown = import("/api/imports/preview", log_text, {{"mapping", mapping()}});
  EXPECT_EQ(shown.at("good"), 2) << shown;
  EXPECT_EQ(shown.at("refused_count"), 1);
  EXPECT_EQ(shown.at("refused").at(0).at("line"), 3);
  EXPECT_NEAR(shown.at("first").at(0).at("value").get<double>(), 60.0, 1e-9);
  EXPECT_TRUE(json::parse(ask("GET", at("/readings")).body).at("series").empty());
}

TEST_F(Papers, ALoggersFileGoesInWholeOrOnRequestItsGoodCells) {
  EXPECT_TRUE(import("/api/imports", log_text, {{"mapping", mapping()}}).contains("problems"));
  EXPECT_TRUE(json::parse(ask("GET", at("/readings")).body).at("series").empty());
  EXPECT_TRUE(json::parse(ask("GET", "/api/loggers").body).at("loggers").empty());
  const json done = import("/api/imports", log_text, {{"mapping", mapping()}, {"take_good", true}});
  EXPECT_EQ(done.at("stored"), 2) << done;
}

TEST_F(Papers, HowALoggerIsReadIsRemembered) {
  (void)import("/api/imports", log_text, {{"mapping", mapping()}, {"take_good", true}});
  EXPECT_EQ(json::parse(ask("GET", "/api/loggers").body).at("loggers").at(0).at("name"), "logger 7");
  const json more = import("/api/imports", "Time,T1 (F)\n2026-01-02 08:00,140\n2026-01-03 08:00,142\n");
  EXPECT_EQ(more.at("stored"), 1) << more;
  EXPECT_EQ(more.at("known"), 1);
}

TEST_F(Papers, AForecastDoesNotLearnFromTooLittle) {
  read(4, 55.0);
  const json told = json::parse(ask("GET", at("/calibration")).body);
  EXPECT_EQ(told.at("state"), "refused");
  EXPECT_NE(told.at("doing").get<std::string>().find("at least 10"), std::string::npos) << told;
  EXPECT_EQ(ask("POST", at("/calibration"), json::object()).status, 422);
}

TEST_F(Papers, WhatWasLearnedIsThereAfterAStartAndTheForecastFollowsIt) {
  read(14, 50.0);
  teach(1.5);
  const json told = json::parse(ask("GET", at("/calibration")).body);
  EXPECT_EQ(told.at("state"), "ready") << told;
  EXPECT_EQ(told.at("learned").at("readings"), 14);
  const json forecast = drafted();
  EXPECT_EQ(forecast.at("follows_readings"), true);
  fs::remove_all(folder_ / "site.learned");
  const json plain = drafted();
  EXPECT_EQ(plain.at("follows_readings"), false);
  EXPECT_NE(plain.at("forecast").at("summary"), forecast.at("forecast").at("summary"));
}

TEST_F(Papers, AForecastThatLearnsShowsItsProgressAndCanBeStopped) {
  read(14, 50.0);
  EXPECT_EQ(json::parse(ask("GET", at("/calibration")).body).at("state"), "none");
  const Response taken = ask("POST", at("/calibration"), json::object());
  ASSERT_EQ(taken.status, 202) << taken.body;
  const auto state = [&] { return json::parse(ask("GET", at("/calibration")).body); };
  constexpr int wait_tries = 6000;  // two minutes: under the thread sanitizer one run takes half of one
  for (int tries = 0; tries < wait_tries && state().at("share").get<double>() <= 0.0; ++tries) {
    std::this_thread::sleep_for(std::chrono::milliseconds{20});
  }
  EXPECT_GT(state().at("share").get<double>(), 0.0);
  EXPECT_EQ(ask("DELETE", at("/calibration")).status, 200);
  for (int tries = 0; tries < wait_tries && state().at("state") == "running"; ++tries) {
    std::this_thread::sleep_for(std::chrono::milliseconds{20});
  }
  EXPECT_EQ(state().at("state"), "stopped") << state();
  EXPECT_TRUE(state().at("learned").is_null());
}

TEST_F(Papers, WhatIsDueTodayFollowsANewReading) {
  read(8, 60.0);
  const auto today = [&] { return ask("GET", "/api/today").body; };
  constexpr std::string_view new_reading = "190.4 degF";  // 88 degC
  EXPECT_EQ(today().find(new_reading), std::string::npos);
  add(json::array({entry("reading", {{"fill", fill_},
                                     {"measure", "temperature"},
                                     {"place", "core"},
                                     {"at_s", filled_s + 8 * day_s},
                                     {"value", 88.0},
                                     {"sure", true}})}));
  EXPECT_NE(today().find(new_reading), std::string::npos);
  const json phases = json::parse(today()).at("phases");
  EXPECT_EQ(phases.size(), 1U);
  EXPECT_NE(json::parse(ask("GET", at("/state")).body).dump(), "");
}

}  // namespace
}  // namespace stillheap::server
