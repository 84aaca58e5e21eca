#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Moments and time zones. The store counts UTC seconds; the zone a moment was noted in is kept beside it.
namespace stillheap::record {

using Instant = std::chrono::sys_seconds;

/// Whether `zone` is an IANA zone that this machine knows ("Europe/Madrid", "UTC") or a fixed offset ("+02:00").
[[nodiscard]] bool is_zone(std::string_view zone);

/// The zone of the environment's TZ (POSIX) when it names one, else the one this machine is set to; "UTC" when neither
/// can be told.
[[nodiscard]] std::string here();

/// The clock's time, whole seconds.
[[nodiscard]] Instant now();

/// "2026-05-03T14:05:00Z"
[[nodiscard]] std::string to_utc_text(Instant at);

/// Local time with its offset, "2026-05-03T16:05:00+02:00". Throws InputError when the zone is unknown.
[[nodiscard]] std::string to_local_text(Instant at, std::string_view zone);

/// The calendar day of a moment in a zone. Throws InputError when the zone is unknown.
[[nodiscard]] std::chrono::sys_days local_day(Instant at, std::string_view zone);

/// What a clock on the wall showed, without zone.
using WallTime = std::chrono::local_seconds;

/// The moments a wall time stands for: none in the hour a clock jumps over in spring, two in the hour that comes
/// twice in autumn (earlier first), else one. Throws InputError when the zone is unknown.
[[nodiscard]] std::vector<Instant> instants_of(WallTime wall, std::string_view zone);

/// A moment as read: either fixed by its own offset, or a wall time that still needs a zone.
struct ReadTime {
  WallTime wall{};
  std::optional<std::chrono::minutes> offset;
};

/// Reads a time by a pattern of the C and C++ libraries ("%d/%m/%Y %H:%M", "%m/%d/%Y %I:%M:%S %p"); "iso" stands for
/// ISO 8601 with T or blank, seconds and offset optional ("2026-05-03 14:05", "2026-05-03T14:05:00.5Z", "2026-05-03").
/// Fractions of a second are cut off. Nothing when the text does not follow the pattern to its end.
[[nodiscard]] std::optional<ReadTime> read_time(std::string_view text, const std::string& pattern);

/// Reads an ISO 8601 moment of one entry; without an offset it counts in `zone`. In the hour that comes twice the
/// first is meant. Throws InputError (where = `where`) for anything else and for an hour that does not exist.
[[nodiscard]] Instant parse_instant(std::string_view text, std::string_view zone, std::string_view where);

}  // namespace stillheap::record
