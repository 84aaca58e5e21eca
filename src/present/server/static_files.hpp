#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "present/server/message.hpp"

namespace stillheap::server {

/// The built page, read whole into memory at the start: no path of a request ever reaches the disk.
class StaticFiles {
 public:
  /// Throws InputError when there is no index.html in the folder.
  explicit StaticFiles(const std::filesystem::path& folder);
  /// For tests: no page at all.
  StaticFiles() = default;

  /// The file at a path; index.html for "/". Nothing when there is none.
  [[nodiscard]] std::optional<Response> find(const std::string& path) const;

 private:
  std::map<std::string, Response> files_;
};

/// Where the built page lies: beside the program's build folder or in share/ beside its bin/. Empty: nowhere.
[[nodiscard]] std::filesystem::path find_page_folder();

}  // namespace stillheap::server
