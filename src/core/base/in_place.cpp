#include "core/base/in_place.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

#include "core/base/error.hpp"

namespace stillheap {

bool put_in_place(const std::filesystem::path& part, const std::filesystem::path& target) {
  int failed = ::renameat2(AT_FDCWD, part.c_str(), AT_FDCWD, target.c_str(), RENAME_NOREPLACE);
  if (failed != 0 && (errno == EINVAL || errno == ENOSYS)) {  // a file system without it
    failed = ::link(part.c_str(), target.c_str());
    if (failed == 0) (void)::unlink(part.c_str());
  }
  if (failed != 0 && errno == EEXIST) return false;
  if (failed != 0) {
    throw RunError(target.string(), "cannot get its name: " + std::generic_category().message(errno),
                   "see that the folder is there, may be written to and has room, or name another");
  }
  sync_folder(target.parent_path());
  return true;
}

void sync_folder(const std::filesystem::path& folder) noexcept {
  const int handle = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  (void)::fsync(handle);
  ::close(handle);
}

}  // namespace stillheap
