#pragma once
#include <array>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "model/forecast/runner.hpp"

namespace stillheap::forecast {

/// The parts of a request by which it is recognised, in the order of its members.
inline constexpr std::array<std::string_view, 14> request_parts{
    "the vessel",     "the blend",
    "the weather",    "the surfaces",
    "the sprinkling", "the temperature of the fill",
    "the first day",  "the number of days",
    "the grid",       "the band's members",
    "the seed",       "the days of the pictures",
    "the animation",  "what the heap's own readings taught"};

/// A 64-bit print of each part: equal prints, equal parts.
using RequestPrint = std::array<std::uint64_t, request_parts.size()>;
[[nodiscard]] RequestPrint print_of(const Request& request);
[[nodiscard]] std::uint64_t print_of(const OwnReadings& own);

/// How far the forecast of one request has come: all that is needed to go on bit for bit.
struct Checkpoint {
  RequestPrint request{};
  std::optional<RunState> middle;                  ///< middle line on the asked grid
  std::optional<RunState> draft;                   ///< the same parameters on the draft grid, where that is another
  std::vector<std::optional<RunHistory>> members;  ///< of the band; nothing where one has not ended
};

[[nodiscard]] inline Checkpoint checkpoint_for(const Request& request) { return {print_of(request), {}, {}, {}}; }

/// Throws InputError, naming what changed, when the checkpoint belongs to another request.
void check_same_request(const Checkpoint& checkpoint, const Request& request);

/// Counts changes of meaning that keep the shape of what is written; changes of shape are found by themselves.
inline constexpr int checkpoint_version = 1;

/// Writes checkpoints (of forecasts that are run one after another) to one file, whole or not at all.
/// Throws RunError when that fails.
void write_checkpoints(const std::vector<Checkpoint>& checkpoints, const std::filesystem::path& file);

/// Throws InputError when the file is missing, damaged, or written by a program that keeps other things.
[[nodiscard]] std::vector<Checkpoint> read_checkpoints(const std::filesystem::path& file);

/// Where a run leaves its checkpoint on the way.
struct Keeper {
  std::function<bool()> due;                             ///< asked after each step; empty: never
  std::function<void(const Checkpoint& so_far)> keep{};  ///< called when it is due, never twice at once
};

}  // namespace stillheap::forecast
