#pragma once
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include "core/base/error.hpp"

/// What the fuzz targets share. A target takes any bytes, and may only end well or with one of our own errors that says
/// where, what and how to mend; everything else ends the program.
namespace stillheap::fuzz {

/// A folder in memory where there is one, gone at the end.
class Scratch {
 public:
  explicit Scratch(const std::string& name) {
    const std::filesystem::path memory = "/dev/shm";
    const auto top = std::filesystem::is_directory(memory) ? memory : std::filesystem::temp_directory_path();
    path_ = top / ("stillheap-fuzz-" + name + "-" + std::to_string(::getpid()));
    std::filesystem::create_directories(path_);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }
  std::filesystem::path write(const std::string& name, std::string_view bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
    return path_ / name;
  }

 private:
  std::filesystem::path path_;
};

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// Ends the program, which is what the fuzzer looks for.
inline void expect(bool good, const char* what) {
  if (good) return;
  std::fprintf(stderr, "not as it should be: %s\n", what);
  std::abort();
}

/// Our errors are answers; each must help. Other exceptions go through and end the program.
template <class Work>
void try_it(Work&& work) {
  try {
    work();
  } catch (const Error& error) {
    expect(!error.problems().empty(), "an error without a problem");
    for (const Problem& one : error.problems()) {
      expect(!one.where.empty() && !one.what.empty() && !one.mend.empty(), "a problem that does not help");
    }
  }
}

}  // namespace stillheap::fuzz
