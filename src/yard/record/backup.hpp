#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "yard/record/moment.hpp"
#include "yard/record/store.hpp"

/// Copies of the records with their photos, made while others go on, checked, and put back.
namespace stillheap::record {

struct Copied {
  std::filesystem::path file;
  std::size_t photos = 0;           ///< that the copy has beside it now, in photos_beside(file), lost.hpp
  std::vector<std::string> damage;  ///< photos that are missing or changed, so that they are in no copy of today
};

/// Copies the store and its photos, and checks both. Never overwrites: throws InputError when `target` is there
/// already; RunError when it cannot be written.
/// backup() of store.hpp is this for whoever does not ask what came of the photos.
Copied back_up(const Store& store, const std::filesystem::path& target);

/// Copies of every day: "site.records-2026-05-03.sqlite" in a folder, which may be on another disk.
struct DailyRule {
  int days = 14;    ///< chosen: of so many last days each is kept
  int months = 12;  ///< chosen: and of so many last months the first
};

/// "yard/site.backups" for "yard/site.records.sqlite".
[[nodiscard]] std::filesystem::path backups_beside(const std::filesystem::path& store_file);

/// Makes today's copy unless it is there, then takes away the ones that `rule` does not keep. Nothing: it was there.
std::optional<Copied> keep_daily(const std::filesystem::path& store_file, const std::filesystem::path& folder,
                                 Instant at, const DailyRule& rule = {});

struct LastCopy {
  std::filesystem::path file;
  Instant at{};
};
/// The newest copy in the folder.
[[nodiscard]] std::optional<LastCopy> last_copy(const std::filesystem::path& store_file,
                                                const std::filesystem::path& folder);

/// Statements in a store or a copy, corrected ones too, so that a restore can be weighed.
struct Holds {
  long long vessels = 0, fills = 0, readings = 0, events = 0;
  [[nodiscard]] long long all() const noexcept { return vessels + fills + readings + events; }
};
/// Read only, nothing is brought up to date. Nothing where it cannot be read.
[[nodiscard]] std::optional<Holds> what_it_holds(const std::filesystem::path& store_file);

struct Restored {
  std::size_t photos = 0;                          ///< put back
  std::optional<std::filesystem::path> set_aside;  ///< where the store that was there lies now
};

/// Puts a copy in the place of the store: checks it first, sets what is there aside in a folder of its own, and puts
/// back photos that are missing or changed. Throws InputError when `copy` is no store; RunError when it is damaged, or
/// another program uses the store.
Restored restore(const std::filesystem::path& store_file, const std::filesystem::path& copy, Instant at);

}  // namespace stillheap::record
