#include "present/server/json.hpp"

#include <gtest/gtest.h>

namespace stillheap::server {
namespace {

TEST(Json, TellsSentencesAsTheYardCounts) {
  Json json = {{"name", "the 1 m cage"},
               {"notes", {"channel 2 stands 50 mm from the wall"}},
               {"blend", {{"warnings", {{{"what", "300 kg/m3 is heavy"}, {"source", "read at 60 degC"}}}}}}};
  Json metric = json;
  tell_in(UnitSystem::metric, metric);
  EXPECT_EQ(metric, json);
  tell_in(UnitSystem::us, json);
  EXPECT_EQ(json["name"], "the 1 m cage");
  EXPECT_EQ(json["notes"][0], "channel 2 stands 1.97 in from the wall");
  EXPECT_EQ(json["blend"]["warnings"][0]["what"].get<std::string>().find("kg/m3"), std::string::npos);
  EXPECT_EQ(json["blend"]["warnings"][0]["source"], "read at 60 degC");
}

TEST(Json, TellsWhatIsAllowedAsTheYardCountsAndWhatWasSentAsItWasSent) {
  const Json told = problems_json({{"height", "= \"9 m\" is too much", "use 0.3 m to 4 m"}}, UnitSystem::us);
  EXPECT_EQ(told["problems"][0]["what"], "= \"9 m\" is too much");
  EXPECT_EQ(told["problems"][0]["mend"].get<std::string>().find(" m"), std::string::npos) << told.dump();
}

}  // namespace
}  // namespace stillheap::server
