#pragma once
#include <filesystem>
#include <string>

namespace stillheap::plan {

/// A folder that is written aside and put in place at once, so that a failure leaves nothing half-written.
/// A new target is renamed into place as a whole. In a target that exists already, each written file replaces
/// the one of the same name after all have been written; other files there stay untouched.
class StagedFolder {
 public:
  /// Makes the folder aside. Throws InputError when the target is a file, RunError when its place
  /// cannot be written.
  explicit StagedFolder(const std::filesystem::path& target);
  StagedFolder(const StagedFolder&) = delete;
  StagedFolder& operator=(const StagedFolder&) = delete;
  /// Removes what was not put in place.
  ~StagedFolder();

  /// Where to write.
  [[nodiscard]] const std::filesystem::path& path() const noexcept { return aside_; }
  [[nodiscard]] const std::filesystem::path& target() const noexcept { return target_; }

  /// Puts everything in place. Throws RunError on failure.
  void commit();

 private:
  std::filesystem::path target_;
  std::filesystem::path aside_;
  std::filesystem::path made_;  ///< highest folder that had to be made to reach the target; empty: none
  bool done_ = false;
};

/// Writes a whole text file. Throws RunError when it cannot be written to the last byte.
void write_text(const std::filesystem::path& file, const std::string& text);

}  // namespace stillheap::plan
