#include "yard/record/may_write.hpp"

#include <unistd.h>

namespace stillheap::record {

bool may_be_written(const std::filesystem::path& file) noexcept {
  const std::filesystem::path folder = file.parent_path();
  if (::access(folder.empty() ? "." : folder.c_str(), W_OK) != 0) return false;
  return ::access(file.c_str(), F_OK) != 0 || ::access(file.c_str(), W_OK) == 0;
}

}  // namespace stillheap::record
