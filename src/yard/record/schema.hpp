#pragma once
#include <span>
#include <string>

/// The tables of the store, as the steps that made them. A step that was ever released is never changed again.
namespace stillheap::record {

/// Marks our files among all SQLite files: "shrc".
inline constexpr int application_id = 0x73687263;

struct Migration {
  const char* what;
  std::string sql;
};

/// In order; a store with user_version n has had the first n.
[[nodiscard]] std::span<const Migration> migrations();

/// Every table whose rows are entries, in an order in which what is referred to comes first.
[[nodiscard]] std::span<const char* const> entry_tables() noexcept;

}  // namespace stillheap::record
