#pragma once
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "model/forecast/result.hpp"

/// What the tests of a forecast's files share.
namespace stillheap::forecast {

/// A folder of its own for each test, gone afterwards.
class OutputFolder : public testing::Test {
 protected:
  void SetUp() override {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    folder = std::filesystem::temp_directory_path() /
             ("stillheap_" + std::string(info->name()) + "_" + std::to_string(getpid()));
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
  }
  void TearDown() override { std::filesystem::remove_all(folder); }
  std::filesystem::path folder;
};

inline std::string read(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  EXPECT_TRUE(in) << file;
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

/// Two triangles on a slanted four-sided plan of 2.0 m2, the second one turned clockwise, on three levels.
inline Result small_result() {
  Result result;
  result.mesh.points = {{0.0, 0.0}, {2.0, 0.0}, {2.5, 1.0}, {0.5, 1.0}};
  result.mesh.triangles = {{0, 1, 2}, {0, 3, 2}};
  result.mesh.levels = 3;
  for (const double day : {0.5, 21.0}) {
    Snapshot snapshot;
    snapshot.day = day;
    snapshot.level_m = {0.0, 0.4, 1.0 - 0.01 * day};
    for (int i = 0; i < 12; ++i) {
      const auto value = static_cast<float>(i + day);
      snapshot.temperature_c.push_back(20.1F + value);
      snapshot.oxygen.push_back(0.2F / (1.0F + value));
      snapshot.moisture_wet.push_back(0.7F - 0.01F * value);
    }
    result.snapshots.push_back(snapshot);
  }
  return result;
}

}  // namespace stillheap::forecast
