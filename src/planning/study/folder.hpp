#pragma once
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "planning/study/case_result.hpp"
#include "planning/study/study.hpp"

/// The folder of a study, shared by all who work on it: study.json, cases/ with a file for each finished case, and
/// claims/ with those in work. Docs: docs/decisions/0009.
namespace stillheap::study {

struct Folder {
  std::filesystem::path path;
  [[nodiscard]] std::filesystem::path cases() const { return path / "cases"; }
  [[nodiscard]] std::filesystem::path claims() const { return path / "claims"; }
  [[nodiscard]] std::filesystem::path result(int number) const;
};

/// "000007"
[[nodiscard]] std::string case_name(int number);

/// A 64-bit print of all that the results depend on: the program's version, site file, weather file, every case.
[[nodiscard]] std::uint64_t print_of(const Study& study, const std::vector<Case>& cases, const std::string& version);

/// Whether the folder holds this study already. Throws InputError when it holds another one.
[[nodiscard]] bool holds(const Folder& folder, std::uint64_t print);

/// Makes the folder and writes study.json; several at once may do so. Throws RunError when that fails, InputError when
/// another study was quicker.
void set_up(const Folder& folder, const Study& study, std::uint64_t print, std::size_t cases);

[[nodiscard]] bool is_finished(const Folder& folder, int number);
/// By number, from one listing; place 0 stands empty.
[[nodiscard]] std::vector<bool> finished_cases(const Folder& folder, std::size_t cases);
[[nodiscard]] std::size_t count_finished(const Folder& folder);

/// Puts the result of a case in place, whole or not at all, whoever else does the same. Throws RunError.
void keep(const Folder& folder, const CaseResult& result);

/// This process, for people: "host-4711".
[[nodiscard]] std::string process_name();

/// Where a file is written before it is put in place: hidden beside it, ".host-4711-3", never the same twice. Two may
/// write the same file (or folder) at once, on two hosts: neither may write into the other's.
[[nodiscard]] std::filesystem::path aside_of(const std::filesystem::path& file);

/// Renames what was written aside over the old file, or takes it away and throws RunError.
void move_in_place(const std::filesystem::path& aside, const std::filesystem::path& file);

/// Writes a file of the results: aside, on the disk, then renamed over the old one. Throws RunError.
void put_in_place(const std::filesystem::path& file, const std::string& bytes);

}  // namespace stillheap::study
