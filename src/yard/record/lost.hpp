#pragma once
#include <filesystem>

#include "yard/record/store.hpp"

/// A store whose file goes away.
namespace stillheap::record {

/// "yard/site.photos" for "yard/site.records.sqlite".
[[nodiscard]] std::filesystem::path photos_beside(const std::filesystem::path& store_file);

/// Throws RunError when the file of an open store was moved, deleted or replaced: what is stored from then
/// on is on no disk that anybody finds. Transaction asks this itself, before and after.
void refuse_moved(const Store& store);

}  // namespace stillheap::record
