#pragma once
#include <chrono>
#include <functional>
#include <string>

#include "planning/study/findings.hpp"

namespace stillheap::study {

/// Reads every case's site and counts those that cannot be. Throws InputError with what is wrong, each problem once and
/// with the first case that has it: when the study refuses impossible cases and there is one, or when all are.
[[nodiscard]] std::size_t check_cases(const Study& study, const std::vector<Case>& cases);

/// Makes the folder ready for work, or sees that it is: a study that was begun goes on. Throws as check_cases, `holds`
/// and set_up.
void prepare(const Folder& folder, const Study& study, const std::vector<Case>& cases, const std::string& version);

/// Lets just one of all processes that share the folder do the last piece of work; the others wait until it is done.
/// One that is lost over it is replaced by one that waits. False when `keep_on` said stop meanwhile. Throws RunError.
bool do_once(const Folder& folder, std::chrono::duration<double> stale_after, const std::function<bool()>& keep_on,
             const std::function<void()>& last_work);

/// Takes away what lost workers left in claims/ of a study whose cases are all finished: one that was killed right
/// after it put a result in place had no time for that. For `last_work`.
void clear_claims(const Folder& folder);

/// Writes runs.nc, runs.csv and summary.txt. The same findings give the same numbers and texts. Throws RunError.
void write_results(const Findings& findings, const Folder& folder);

}  // namespace stillheap::study
