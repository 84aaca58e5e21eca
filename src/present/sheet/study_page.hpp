#pragma once
#include <filesystem>

#include "planning/study/findings.hpp"
#include "present/sheet/pack.hpp"

namespace stillheap::sheet {

/// Writes tradeoffs.pdf (the best case in each goal, a table of those that no other beats, what was varied, six plots
/// of all cases against each other) and the plots alone as tradeoffs.svg and .png. The same findings give the same
/// bytes. Returns the files. Throws RunError when one cannot be written.
std::vector<std::filesystem::path> write_study_sheet(const study::Findings& findings,
                                                     const std::filesystem::path& folder);

/// Lays the sheet out without writing it.
[[nodiscard]] PackLayout lay_out_study_sheet(const study::Findings& findings);

}  // namespace stillheap::sheet
