#pragma once
#include <filesystem>
#include <string>

namespace stillheap::server {

/// A file of this name in a folder of its own that nobody else may read, gone at the end.
class Scratch {
 public:
  /// Throws RunError when the folder cannot be made.
  explicit Scratch(const std::string& name);
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch();
  [[nodiscard]] const std::filesystem::path& file() const noexcept { return file_; }

 private:
  std::filesystem::path folder_, file_;
};

/// Takes away the folders of programs that were killed: ours, and a day old.
void clear_scratch() noexcept;

}  // namespace stillheap::server
