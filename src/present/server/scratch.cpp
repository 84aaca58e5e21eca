#include "present/server/scratch.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <ctime>

#include "core/base/error.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;

constexpr const char* prefix = "stillheap-scratch-";
constexpr std::time_t old_s = 86400;  // chosen: no request takes a day

bool is_left_over(const fs::path& folder) {
  if (!folder.filename().string().starts_with(prefix)) return false;
  struct stat about {};
  if (::lstat(folder.c_str(), &about) != 0 || !S_ISDIR(about.st_mode)) return false;
  return about.st_uid == ::geteuid() && std::time(nullptr) - about.st_mtime > old_s;
}

}  // namespace

Scratch::Scratch(const std::string& name) {
  std::string wanted = (fs::temp_directory_path() / (std::string(prefix) + "XXXXXX")).string();
  if (::mkdtemp(wanted.data()) == nullptr) {  // for its owner alone
    throw RunError("temporary folder", "cannot be written to", "make room in it");
  }
  folder_ = wanted;
  file_ = folder_ / name;
}

Scratch::~Scratch() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void clear_scratch() noexcept {
  try {
    std::error_code failure;
    for (fs::directory_iterator one(fs::temp_directory_path(), failure), end; !failure && one != end;
         one.increment(failure)) {
      std::error_code ignored;
      if (is_left_over(one->path())) fs::remove_all(one->path(), ignored);
    }
  } catch (const std::exception&) {
    return;  // what cannot be looked through stays
  }
}

}  // namespace stillheap::server
