#pragma once
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

/// Folders and the built program for tests of site files.
namespace stillheap::site::test {

/// A folder of its own for the running test, emptied before and removed after.
class Folder {
 public:
  Folder() {
    const auto* const info = testing::UnitTest::GetInstance()->current_test_info();
    std::string name = std::string(info->test_suite_name()) + "-" + info->name();
    std::replace(name.begin(), name.end(), '/', '-');
    path_ = std::filesystem::temp_directory_path() / ("stillheap-" + name + "-" + std::to_string(::getpid()));
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }

  [[nodiscard]] std::filesystem::path write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
    return path_ / name;
  }

  [[nodiscard]] std::ptrdiff_t file_count() const {
    return std::distance(std::filesystem::recursive_directory_iterator(path_),
                         std::filesystem::recursive_directory_iterator());
  }

 private:
  std::filesystem::path path_;
};

inline std::string read_text(const std::filesystem::path& file) {
  std::ifstream in(file);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

struct Outcome {
  int code = -1;
  std::string text;  ///< standard output and error
};

/// The program that was built beside this test.
inline std::string app() { return (std::filesystem::canonical("/proc/self/exe").parent_path() / "stillheap").string(); }

/// Starts a program, found as a shell finds it, with its output thrown away.
inline pid_t start(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const pid_t child = ::fork();
  if (child != 0) return child;
  (void)std::freopen("/dev/null", "w", stdout);
  (void)std::freopen("/dev/null", "w", stderr);
  ::execvp(arguments.front(), arguments.data());
  ::_exit(127);
}

/// Runs the program that was built beside this test.
inline Outcome run_app(const std::string& arguments) {
  const std::string command = '\'' + app() + "' " + arguments + " 2>&1";
  std::FILE* pipe = popen(command.c_str(), "r");
  Outcome outcome;
  if (pipe == nullptr) return outcome;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    outcome.text.append(buffer.data(), n);
  const int status = pclose(pipe);
  outcome.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return outcome;
}

}  // namespace stillheap::site::test
