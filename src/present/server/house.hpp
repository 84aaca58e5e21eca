#pragma once
#include <atomic>
#include <filesystem>
#include <memory>
#include <mutex>
#include <string_view>

#include "present/server/server_context.hpp"

namespace stillheap::server {

/// What stands behind the door: the yard, or, while there is no site file, the place where one may be begun.
class House {
 public:
  /// With a site file it is read at once; throws InputError for what is wrong with it. Without one throws InputError
  /// when records lie where its would: they have lost their site file. `copies` as ServerContext has them.
  House(std::filesystem::path site_file, Safety safety, std::filesystem::path copies = {});

  /// Nothing as long as there is no site file that can be read. One that somebody else put there is found. For many
  /// threads.
  [[nodiscard]] ServerContext* yard();
  /// Writes the site file and opens the yard. False when a file is there already, however late it came: nothing is
  /// written then. Its folder is made when missing. Throws RunError when it cannot be written.
  [[nodiscard]] bool begin(std::string_view text);

  [[nodiscard]] Door& door() noexcept { return *door_; }
  [[nodiscard]] const std::filesystem::path& site_file() const noexcept { return site_file_; }

 private:
  void open_locked();

  std::filesystem::path site_file_, copies_;
  std::shared_ptr<Door> door_;
  std::mutex mutex_;
  std::unique_ptr<ServerContext> kept_;
  std::atomic<ServerContext*> yard_ = nullptr;
};

}  // namespace stillheap::server
