#pragma once
#include <atomic>
#include <filesystem>
#include <string>
#include <vector>

#include "yard/record/moment.hpp"

/// The long look over all of a store, readings too, while others go on using it; and what it last found.
namespace stillheap::record {

enum class Soundness {
  unchecked,  ///< never looked over, or not since its result was thrown away
  checking,   ///< a check has begun and told no end yet
  whole,
  damaged,
  stopped  ///< the check was ended before it was through
};
[[nodiscard]] std::string_view key_of(Soundness soundness) noexcept;

struct WholeCheck {
  Soundness state = Soundness::unchecked;
  Instant began{}, ended{};
  std::vector<std::string> damage;  ///< what is wrong, at most some twenty lines
};

/// integrity_check and foreign_key_check on a connection of its own that cannot write. Most of a minute for five
/// million readings; `stop` ends it early, at the latest when the engine has read one table through.
[[nodiscard]] WholeCheck check_whole(const std::filesystem::path& store_file, const std::atomic<bool>& stop);

/// Keeps what a check found beside the store ("site.records.check.json"), outside it: a damaged store must still be
/// able to say so. Errors are passed over; the result is then only not remembered.
void keep_check(const std::filesystem::path& store_file, const WholeCheck& found) noexcept;

/// What was kept last; unchecked when nothing was.
[[nodiscard]] WholeCheck kept_check(const std::filesystem::path& store_file);

/// "store checked whole on 2026-05-03 16:05", "store is being checked since ...", "store is damaged (...): ...".
[[nodiscard]] std::string words(const WholeCheck& check, std::string_view zone);

/// How a damaged store is restored, in the order of doing.
[[nodiscard]] std::vector<std::string> steps_to_restore(const std::filesystem::path& store_file);

}  // namespace stillheap::record
