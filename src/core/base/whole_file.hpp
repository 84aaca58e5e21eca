#pragma once
#include <filesystem>
#include <string>
#include <string_view>

namespace stillheap {

/// Writes `bytes` to `<file>.part`, waits until they are on the disk, and renames that to `file`, which it replaces: a
/// power cut leaves the old file or the new one. On failure the part is taken
/// away again and RunError says which file and why.
void write_whole_file(const std::filesystem::path& file, std::string_view bytes);

/// The same, but never over a file that is there already: false when there is one, however late it came. Nothing is
/// written then.
[[nodiscard]] bool write_new_file(const std::filesystem::path& file, std::string_view bytes);

/// The bytes of a file; empty when it cannot be read.
[[nodiscard]] std::string read_whole_file(const std::filesystem::path& file);

}  // namespace stillheap
