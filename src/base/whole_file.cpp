#include "base/whole_file.hpp"

#include <cerrno>
#include <fstream>
#include <string>
#include <system_error>

#include "base/error.hpp"

namespace stillheap {
namespace {

[[noreturn]] void fail(const std::filesystem::path& file, const std::string& reason) {
  throw RunError(file.string(), "the file cannot be written: " + reason,
                 "see that the folder is there, may be written to and has room, or name another");
}

/// Empty when all bytes are in the file, else the system's reason.
std::string write_bytes(const std::filesystem::path& file, std::string_view bytes) {
  errno = 0;
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (out) return {};
  return errno != 0 ? std::generic_category().message(errno) : "output error";
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

}  // namespace stillheap
