#include "planning/plan/staged_folder.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>
#include <sstream>

#include "core/base/error.hpp"
#include "planning/plan/forecast_files.hpp"

namespace stillheap::plan {
namespace {

namespace fs = std::filesystem;

class Staged : public testing::Test {
 protected:
  void SetUp() override { fs::create_directories(root_); }
  void TearDown() override { fs::remove_all(root_); }
  [[nodiscard]] static std::string read(const fs::path& file) {
    std::ifstream in(file);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }
  [[nodiscard]] std::size_t entries() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(root_), fs::directory_iterator{}));
  }
  // One test of a program runs at a time, but two builds may share the folder.
  fs::path root_ = fs::temp_directory_path() / ("stillheap-staged-" + std::to_string(::getpid()));
};

TEST_F(Staged, AppearsOnlyWhenCommitted) {
  const fs::path target = root_ / "deep" / "out";
  {
    StagedFolder folder(target);
    write_text(folder.path() / "plan.json", "{}");
    EXPECT_FALSE(fs::exists(target));
    folder.commit();
  }
  EXPECT_EQ(read(target / "plan.json"), "{}");
  EXPECT_EQ(std::distance(fs::directory_iterator(root_ / "deep"), fs::directory_iterator{}), 1);
}

TEST_F(Staged, LeavesNothingWhenNotCommitted) {
  {
    const StagedFolder folder(root_ / "deep" / "out");
    write_text(folder.path() / "plan.json", "{}");
  }
  EXPECT_EQ(entries(), 0U);
}

TEST_F(Staged, KeepsOtherFilesOfAFolderThatExists) {
  const fs::path target = root_ / "out";
  fs::create_directories(target);
  write_text(target / "notes.txt", "mine");
  write_text(target / "plan.json", "old");
  {
    StagedFolder folder(target / "");
    write_text(folder.path() / "plan.json", "new");
    fs::create_directories(folder.path() / "plots");
    write_text(folder.path() / "plots" / "core.svg", "<svg/>");
    EXPECT_EQ(read(target / "plan.json"), "old");
    folder.commit();
  }
  EXPECT_EQ(read(target / "plan.json"), "new");
  EXPECT_EQ(read(target / "notes.txt"), "mine");
  EXPECT_EQ(read(target / "plots" / "core.svg"), "<svg/>");
  EXPECT_EQ(std::distance(fs::directory_iterator(target), fs::directory_iterator{}), 3);
}

TEST_F(Staged, RefusesAFileAndAPlaceBelowAFile) {
  write_text(root_ / "file", "x");
  EXPECT_THROW(StagedFolder(root_ / "file"), InputError) << "a slip of the command line";
  EXPECT_THROW(StagedFolder(root_ / "file" / "out"), RunError);
  EXPECT_EQ(read(root_ / "file"), "x");
  EXPECT_EQ(entries(), 1U);
  EXPECT_THROW(write_text(root_ / "missing" / "a.txt", "x"), RunError);
}

TEST(FolderNames, KeepOnlySafeLetters) {
  EXPECT_EQ(folder_name("north bed"), "north-bed");
  EXPECT_EQ(folder_name("../../etc"), "etc");
  EXPECT_EQ(folder_name("Bed_2 (tall)"), "Bed_2-tall");
  EXPECT_EQ(folder_name("///"), "vessel");
}

}  // namespace
}  // namespace stillheap::plan
