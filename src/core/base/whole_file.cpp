#include "core/base/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <system_error>

#include "core/base/error.hpp"

namespace stillheap {
namespace {

[[noreturn]] void fail(const std::filesystem::path& file, const std::string& reason) {
  throw RunError(file.string(), "the file cannot be written: " + reason,
                 "see that the folder is there, may be written to and has room, or name another");
}

bool write_all(int handle, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(handle, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

/// Empty when all bytes are on the disk, else the system's reason. Without fsync a power cut after the rename could
/// leave the name with nothing behind it.
std::string write_bytes(const std::filesystem::path& file, std::string_view bytes) {
  const int handle = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
  if (handle < 0) return std::generic_category().message(errno);
  const bool good = write_all(handle, bytes) && ::fsync(handle) == 0;
  const int reason = errno;
  ::close(handle);
  return good ? std::string{} : std::generic_category().message(reason);
}

}  // namespace

void write_whole_file(const std::filesystem::path& file, std::string_view bytes) {
  const std::filesystem::path part = file.string() + ".part";
  std::error_code failure;
  if (const std::string reason = write_bytes(part, bytes); !reason.empty()) {
    std::filesystem::remove(part, failure);
    fail(file, reason);
  }
  std::filesystem::rename(part, file, failure);
  if (!failure) return;
  const std::string reason = failure.message();
  std::filesystem::remove(part, failure);
  fail(file, reason);
}

bool write_new_file(const std::filesystem::path& file, std::string_view bytes) {
  std::string part = file.string() + ".XXXXXX";  // two who begin at once write two parts
  const int handle = ::mkostemp(part.data(), O_CLOEXEC);
  if (handle < 0) fail(file, std::generic_category().message(errno));
  const bool good = write_all(handle, bytes) && ::fchmod(handle, 0644) == 0 && ::fsync(handle) == 0;
  int reason = good ? 0 : errno;
  ::close(handle);
  if (good && ::renameat2(AT_FDCWD, part.c_str(), AT_FDCWD, file.c_str(), RENAME_NOREPLACE) != 0) reason = errno;
  if (reason == 0) return true;
  // a link cannot replace either, where the file system does not know the other way
  if (good && (reason == EINVAL || reason == ENOSYS)) reason = ::link(part.c_str(), file.c_str()) == 0 ? 0 : errno;
  ::unlink(part.c_str());
  if (reason != 0 && reason != EEXIST) fail(file, std::generic_category().message(reason));
  return reason == 0;
}

std::string read_whole_file(const std::filesystem::path& file) {
  std::ostringstream bytes;
  bytes << std::ifstream(file, std::ios::binary).rdbuf();
  return bytes.str();
}

}  // namespace stillheap
