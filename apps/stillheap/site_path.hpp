#pragma once
#include <filesystem>
#include <string>

namespace stillheap::app {

/// The site file a user means: the file itself, or site.toml in a folder.
[[nodiscard]] inline std::filesystem::path site_file(const std::string& named) {
  const std::filesystem::path path(named);
  std::error_code unreadable;  // told when the file is opened
  return std::filesystem::is_directory(path, unreadable) ? path / "site.toml" : path;
}

}  // namespace stillheap::app
