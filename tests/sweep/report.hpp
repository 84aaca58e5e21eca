#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "judge.hpp"

namespace stillheap::sweep {

struct Judged {
  int number = 0;
  int drawn_again = 0;
  std::string toml;
  Verdict verdict;
};

/// Cases with at least one fault.
[[nodiscard]] int faults_of(const std::vector<Judged>& all);

/// The summary: ends with their reasons, worst errors with their case, slowest run, and every fault with the command
/// that runs it again.
[[nodiscard]] std::string table_of(const std::vector<Judged>& all, std::uint64_t seed);

}  // namespace stillheap::sweep
