#pragma once
#include <filesystem>

namespace stillheap::record {

/// Whether the store's file, and what SQLite keeps beside it, may be written to. Also when it is not there yet.
[[nodiscard]] bool may_be_written(const std::filesystem::path& file) noexcept;

}  // namespace stillheap::record
