#pragma once
#include <filesystem>

namespace stillheap {

/// Gives `part` the name `target` unless something has it: then false, and `part` stays. Both lie in one folder, whose
/// change of names is on the disk when this returns. Throws RunError.
[[nodiscard]] bool put_in_place(const std::filesystem::path& part, const std::filesystem::path& target);

/// Waits until a folder's names are on the disk; passed over where the system cannot.
void sync_folder(const std::filesystem::path& folder) noexcept;

}  // namespace stillheap
