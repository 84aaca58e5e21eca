#pragma once
#include <condition_variable>
#include <filesystem>
#include <mutex>
#include <string>
#include <thread>

#include "yard/record/backup.hpp"

namespace stillheap::server {

/// Keeps a copy of every day while the server runs. For many threads.
class DailyCopies {
 public:
  /// `folder` empty: none are kept.
  DailyCopies(std::filesystem::path store_file, std::filesystem::path folder);
  DailyCopies(const DailyCopies&) = delete;
  DailyCopies& operator=(const DailyCopies&) = delete;
  ~DailyCopies();

  struct Found {
    std::filesystem::path folder;
    std::optional<record::LastCopy> last;
    std::string fault;                ///< why the last try failed; empty when it did not
    std::vector<std::string> damage;  ///< photos that are in no copy
  };
  [[nodiscard]] Found now() const;

 private:
  void keep();
  void try_once();

  std::filesystem::path file_, folder_;
  mutable std::mutex mutex_;
  std::condition_variable end_;
  bool closing_ = false;
  std::string fault_;
  std::vector<std::string> damage_;
  std::thread keeper_;
};

}  // namespace stillheap::server
