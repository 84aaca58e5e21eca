#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>

#include "model/calibrate/learn.hpp"
#include "model/forecast/checkpoint.hpp"

/// What was learned, kept in a file until the readings, the heap or the model are others.
namespace stillheap::calibrate {

/// What it was learned from.
struct Basis {
  forecast::RequestPrint request{};  ///< what was forecast before any reading
  std::uint64_t model = 0;           ///< the model's constants and their spreads
  std::uint64_t readings = 0;        ///< all but the last day, which may still grow
  [[nodiscard]] bool operator==(const Basis&) const = default;
};
[[nodiscard]] Basis basis_of(forecast::Request request, std::span<const Observation> readings);

struct Kept {
  Basis basis;
  std::int64_t learned_at_s = 0;  ///< since 1970, UTC
  Learned learned;                ///< without its courses
};

/// The print of the first so many readings, as a basis holds it of all.
[[nodiscard]] std::uint64_t print_of(std::span<const Observation> readings, std::size_t count);

/// Throws RunError when it cannot be written.
void write_kept(const Kept& kept, const std::filesystem::path& file);

struct KeptFile {
  std::optional<Kept> kept;       ///< nothing when there is none, or none that this program can read
  bool of_other_version = false;  ///< whole, but another version of the program wrote it
};
/// Never throws for what a file holds: it can be learned anew.
[[nodiscard]] KeptFile read_kept(const std::filesystem::path& file);

}  // namespace stillheap::calibrate
