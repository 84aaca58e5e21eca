#include "core/base/whole_file.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <thread>
#include <vector>

#include "core/base/error.hpp"

namespace stillheap {
namespace {

namespace fs = std::filesystem;

class WholeFile : public testing::Test {
 protected:
  WholeFile() : folder_(fs::path(testing::TempDir()) / ("whole-file-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
  }
  ~WholeFile() override { fs::remove_all(folder_); }
  [[nodiscard]] std::ptrdiff_t files() const {
    return std::distance(fs::directory_iterator(folder_), fs::directory_iterator());
  }
  fs::path folder_;
};

TEST_F(WholeFile, NewIsWrittenWholeAndReadableByOthers) {
  EXPECT_TRUE(write_new_file(folder_ / "a", "one\n"));
  EXPECT_EQ(read_whole_file(folder_ / "a"), "one\n");
  EXPECT_EQ(fs::status(folder_ / "a").permissions(), fs::perms{0644});
  EXPECT_EQ(files(), 1);
}

TEST_F(WholeFile, NewNeverReplacesWhatIsThere) {
  write_whole_file(folder_ / "a", "mine");
  EXPECT_FALSE(write_new_file(folder_ / "a", "yours"));
  EXPECT_EQ(read_whole_file(folder_ / "a"), "mine");
  fs::create_symlink("nowhere", folder_ / "b");
  EXPECT_FALSE(write_new_file(folder_ / "b", "yours")) << "a link that leads nowhere is there too";
  EXPECT_EQ(files(), 2) << "no part is left";
}

TEST_F(WholeFile, OfManyWhoWriteANewOneAtOnceOneDoes) {
  std::vector<int> wrote(16, 0);
  std::vector<std::thread> all;
  for (std::size_t i = 0; i < wrote.size(); ++i) {
    all.emplace_back([&, i] { wrote[i] = write_new_file(folder_ / "a", std::string(4096, char('a' + i))) ? 1 : 0; });
  }
  for (std::thread& one : all) one.join();
  EXPECT_EQ(std::count(wrote.begin(), wrote.end(), 1), 1);
  const std::string bytes = read_whole_file(folder_ / "a");
  const auto who = std::find(wrote.begin(), wrote.end(), 1) - wrote.begin();
  EXPECT_EQ(bytes, std::string(4096, char('a' + who)));
  EXPECT_EQ(files(), 1);
}

TEST_F(WholeFile, NewIsToldWhereItCannotBe) {
  EXPECT_THROW((void)write_new_file(folder_ / "none" / "a", "x"), RunError);
  EXPECT_EQ(files(), 0);
}

}  // namespace
}  // namespace stillheap
