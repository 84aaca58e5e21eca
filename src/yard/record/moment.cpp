#include "yard/record/moment.hpp"

// Its reader of streams keeps fields that g++ 12 cannot see being set.
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#include <date/tz.h>

#include <algorithm>
#include <cstdlib>
#include <sstream>

#include "core/base/error.hpp"

namespace stillheap::record {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;

/// "+02:00", "-0530", "Z"
std::optional<minutes> fixed_offset(std::string_view text) {
  if (text == "Z") return minutes{0};
  if (text.size() < 5 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  std::string digits(text.substr(1));
  if (digits.size() == 5 && digits[2] == ':') digits.erase(2, 1);
  if (digits.size() != 4 || digits.find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
  const minutes offset{60 * std::stoi(digits.substr(0, 2)) + std::stoi(digits.substr(2))};
  if (offset > minutes{14 * 60}) return std::nullopt;  // no zone is farther from UTC
  return text[0] == '-' ? -offset : offset;
}

const ::date::time_zone* find_zone(std::string_view name) {
  try {
    return ::date::locate_zone(std::string(name));
  } catch (const std::runtime_error&) {
    return nullptr;
  }
}

const ::date::time_zone& zone_called(std::string_view name) {
  if (const ::date::time_zone* zone = find_zone(name)) return *zone;
  throw InputError("zone", "= \"" + std::string(name) + "\" is not known to this machine",
                   "give an IANA zone (\"Europe/Paris\") or an offset (\"+02:00\")");
}

minutes offset_at(Instant at, std::string_view zone) {
  if (const auto fixed = fixed_offset(zone)) return *fixed;
  return std::chrono::floor<minutes>(zone_called(zone).get_info(at).offset);
}

::date::local_seconds to_date(WallTime wall) { return ::date::local_seconds{wall.time_since_epoch()}; }
Instant to_instant(::date::local_seconds wall, seconds offset) { return Instant{wall.time_since_epoch() - offset}; }

std::string offset_text(minutes offset) {
  char text[32];
  const long all = std::labs(offset.count());
  std::snprintf(text, sizeof text, "%c%02ld:%02ld", offset < minutes{0} ? '-' : '+', all / 60, all % 60);
  return text;
}

constexpr const char* iso_patterns[] = {"%Y-%m-%dT%H:%M:%S%Ez", "%Y-%m-%dT%H:%M%Ez", "%Y-%m-%dT%H:%M:%S",
                                        "%Y-%m-%dT%H:%M", "%Y-%m-%d"};

/// A colon of a time leads to a digit. Where none follows, the date library turns a number it has not read into seconds
/// before it says that it failed.
bool colons_lead_to_digits(std::string_view text) noexcept {
  for (std::size_t at = text.find(':'); at != std::string_view::npos; at = text.find(':', at + 1)) {
    if (at + 1 == text.size() || text[at + 1] < '0' || text[at + 1] > '9') return false;
  }
  return true;
}

/// The whole text by one pattern, seconds with decimals allowed.
std::optional<ReadTime> read_whole(const std::string& text, const std::string& pattern) {
  std::istringstream in(text);
  ::date::local_time<std::chrono::milliseconds> wall{};
  minutes offset{0};
  std::string abbreviation;
  ::date::from_stream(in, pattern.c_str(), wall, &abbreviation, &offset);
  if (in.fail() || in.peek() != std::istringstream::traits_type::eof()) return std::nullopt;
  ReadTime read;
  read.wall = WallTime{std::chrono::floor<seconds>(wall.time_since_epoch())};
  if (pattern.find("%z") != std::string::npos || pattern.find("%Ez") != std::string::npos) read.offset = offset;
  return read;
}

/// As read_whole; an offset at the end is read here: the date library negates one that it could not read.
std::optional<ReadTime> read_by(const std::string& text, const std::string& pattern) {
  const std::size_t ending = pattern.ends_with("%Ez") ? 3 : pattern.ends_with("%z") ? 2 : 0;
  if (ending == 0) return read_whole(text, pattern);
  const std::size_t sign = std::min(text.find_last_of("+-"), text.size());
  const std::optional<minutes> offset = fixed_offset(std::string_view(text).substr(sign));
  if (!offset) return std::nullopt;
  std::optional<ReadTime> read = read_whole(text.substr(0, sign), pattern.substr(0, pattern.size() - ending));
  if (read) read->offset = offset;
  return read;
}

}  // namespace

bool is_zone(std::string_view zone) { return fixed_offset(zone).has_value() || find_zone(zone) != nullptr; }

std::string here() {
  // POSIX: the environment tells before the machine's setting; a leading colon is allowed. What names no zone is passed
  // over, as rules written out ("CET-1CEST,M3.5.0") have no name to keep with an entry.
  if (const char* const told = std::getenv("TZ"); told != nullptr) {
    const std::string zone = *told == ':' ? told + 1 : told;
    if (!zone.empty() && is_zone(zone)) return zone;
  }
  try {
    return ::date::current_zone()->name();
  } catch (const std::runtime_error&) {
    return "UTC";
  }
}

Instant now() { return std::chrono::floor<seconds>(std::chrono::system_clock::now()); }

std::string to_utc_text(Instant at) { return ::date::format("%Y-%m-%dT%H:%M:%SZ", at); }

std::string to_local_text(Instant at, std::string_view zone) {
  const minutes offset = offset_at(at, zone);
  return ::date::format("%Y-%m-%dT%H:%M:%S", at + offset) + offset_text(offset);
}

std::chrono::sys_days local_day(Instant at, std::string_view zone) {
  return std::chrono::floor<std::chrono::days>(at + offset_at(at, zone));
}

std::vector<Instant> instants_of(WallTime wall, std::string_view zone) {
  if (const auto fixed = fixed_offset(zone)) return {to_instant(to_date(wall), *fixed)};
  const ::date::local_info found = zone_called(zone).get_info(to_date(wall));
  if (found.result == ::date::local_info::nonexistent) return {};
  std::vector<Instant> instants{to_instant(to_date(wall), found.first.offset)};
  if (found.result == ::date::local_info::ambiguous) {
    instants.push_back(to_instant(to_date(wall), found.second.offset));
  }
  return instants;
}

std::optional<ReadTime> read_time(std::string_view text, const std::string& pattern) {
  if (!colons_lead_to_digits(text)) return std::nullopt;
  std::string plain(text);
  if (pattern != "iso") return read_by(plain, pattern);
  if (plain.size() > 10 && plain[10] == ' ') plain[10] = 'T';
  if (!plain.empty() && plain.back() == 'Z') plain.replace(plain.size() - 1, 1, "+00:00");
  for (const char* one : iso_patterns) {
    if (const auto read = read_by(plain, one)) return read;
  }
  return std::nullopt;
}

Instant parse_instant(std::string_view text, std::string_view zone, std::string_view where) {
  const std::optional<ReadTime> read = read_time(text, "iso");
  const std::string shown = "= \"" + std::string(text) + "\"";
  if (!read) throw InputError(std::string(where), shown + " is no time", "write it as 2026-05-03T14:05 or 2026-05-03");
  if (read->offset) return Instant{read->wall.time_since_epoch() - *read->offset};
  const std::vector<Instant> instants = instants_of(read->wall, zone);
  if (instants.empty()) {
    throw InputError(std::string(where), shown + " does not exist in " + std::string(zone),
                     "the clocks jumped over that hour; give the time with its offset");
  }
  return instants.front();
}

}  // namespace stillheap::record
