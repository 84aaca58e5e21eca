#include <gtest/gtest.h>

#include <filesystem>

#include "core/base/error.hpp"
#include "present/draw/qr.hpp"
#include "present/sheet/labels_page.hpp"

namespace stillheap::sheet {
namespace {

namespace fs = std::filesystem;

class Labels : public testing::Test {
 protected:
  [[nodiscard]] fs::path file() const { return fs::path(testing::TempDir()) / "labels-test.pdf"; }
  ~Labels() override { fs::remove(file()); }
};

TEST_F(Labels, StandEightOnAPage) {
  const auto some = [](std::size_t count) {
    return std::vector<VesselLabel>(count, {"Ring 1", "https://shed:8340/#/note/1"});
  };
  EXPECT_EQ(write_labels(some(8), file(), UnitSystem::metric), 1);
  EXPECT_EQ(write_labels(some(9), file(), UnitSystem::us), 2);
}

TEST_F(Labels, TakeNamesOfAnyLength) {
  const std::string endless(400, 'n');
  const std::string wordy =
      "the third ring behind the mill, by the old pear tree, left of the water butt, refilled in spring";
  EXPECT_EQ(write_labels({{endless, "https://shed:8340"}, {wordy, "https://shed:8340"}}, file(), UnitSystem::metric),
            1);
}

TEST_F(Labels, AreRefusedWhereNoneCanBeMade) {
  EXPECT_THROW((void)write_labels({}, file(), UnitSystem::metric), InputError);
  EXPECT_THROW((void)write_labels({{"Ring 1", std::string(4000, 'a')}}, file(), UnitSystem::metric), InputError);
}

// ISO/IEC 18004, table of capacities (from memory): version 2, 25 modules, holds 26 bytes at level M, version 3
// holds 42.
TEST(QrModules, AreAsManyAsTheTextNeeds) {
  EXPECT_EQ(qr_modules(std::string(26, 'a')).size(), 25U);
  EXPECT_EQ(qr_modules(std::string(27, 'a')).size(), 29U);
  EXPECT_EQ(qr_modules(std::string(42, 'a')).size(), 29U);
}

}  // namespace
}  // namespace stillheap::sheet
