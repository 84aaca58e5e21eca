#include "planning/study/launcher.hpp"

#include <charconv>
#include <cstdlib>
#include <cstring>
#include <optional>

namespace stillheap::study {
namespace {

std::optional<int> number_in(const char* name) {
  const char* text = std::getenv(name);
  if (text == nullptr) return std::nullopt;
  int number = 0;
  const char* end = text + std::strlen(text);
  const auto [at, error] = std::from_chars(text, end, number);
  if (error != std::errc{} || at != end) return std::nullopt;
  return number;
}

constexpr const char* names[][2] = {{"OMPI_COMM_WORLD_RANK", "OMPI_COMM_WORLD_SIZE"},
                                    {"PMI_RANK", "PMI_SIZE"},
                                    {"SLURM_PROCID", "SLURM_STEP_NUM_TASKS"}};

}  // namespace

Rank rank_from_environment() {
  for (const auto& [rank_name, size_name] : names) {
    const std::optional<int> rank = number_in(rank_name);
    const std::optional<int> size = number_in(size_name);
    if (rank && size && *rank >= 0 && *rank < *size) return {*rank, *size, true};
  }
  return {};
}

}  // namespace stillheap::study
