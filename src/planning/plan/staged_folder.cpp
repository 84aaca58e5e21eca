#include "planning/plan/staged_folder.hpp"

#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <vector>

#include "core/base/error.hpp"

namespace stillheap::plan {
namespace {

namespace fs = std::filesystem;

RunError cannot(const fs::path& path, const std::string& what, const std::error_code& error) {
  return {path.string(), what + (error ? " (" + error.message() + ")" : ""),
          "choose a folder that can be written and has room"};
}

/// The highest folder of a path that does not exist yet; empty when all of it exists.
fs::path first_missing(const fs::path& path) {
  fs::path missing;
  for (fs::path at = path; !at.empty() && !fs::exists(at); at = at.parent_path()) {
    missing = at;
    if (at == at.parent_path()) break;
  }
  return missing;
}

void replace_file(const fs::path& from, const fs::path& to) {
  std::error_code error;
  fs::create_directories(to.parent_path(), error);
  if (!error) fs::rename(from, to, error);
  if (error) throw cannot(to, "cannot be put in place", error);
}

constexpr std::string_view unfinished = ".unfinished-";

/// Takes away what programs left that were killed before they could: folders of this name whose writer is gone.
void clear_left_over(const fs::path& beside, const std::string& name) {
  std::error_code ignored;
  for (const auto& one : fs::directory_iterator(beside, ignored)) {
    const std::string found = one.path().filename().string();
    if (!found.starts_with(name) || found.find_first_not_of("0123456789", name.size()) != std::string::npos) continue;
    const pid_t writer = static_cast<pid_t>(std::strtol(found.c_str() + name.size(), nullptr, 10));
    if (writer > 0 && ::kill(writer, 0) != 0 && errno == ESRCH) fs::remove_all(one.path(), ignored);
  }
}

fs::path without_trailing_slash(const fs::path& path) {
  fs::path clean = fs::absolute(path).lexically_normal();
  return clean.has_filename() ? clean : clean.parent_path();
}

}  // namespace

StagedFolder::StagedFolder(const fs::path& target) : target_(without_trailing_slash(target)) {
  std::error_code error;
  const bool existed = fs::exists(target_, error);
  if (existed && !fs::is_directory(target_))
    throw InputError(target_.string(), "is a file, not a folder", "name a folder; it is made if it does not exist");
  const fs::path beside = existed ? target_ : target_.parent_path();
  made_ = first_missing(beside);
  fs::create_directories(beside, error);
  if (error) throw cannot(beside, "cannot be made", error);
  // One file system with the target, or the renames of commit() would not be at once.
  const std::string name = "." + target_.filename().string() + std::string(unfinished);
  clear_left_over(beside, name);
  aside_ = beside / (name + std::to_string(::getpid()));
  fs::create_directory(aside_, error);
  if (error) throw cannot(beside, "cannot be written", error);
}

StagedFolder::~StagedFolder() {
  std::error_code ignored;
  fs::remove_all(aside_, ignored);
  // A checkpoint may have made the target meanwhile: that stays.
  if (!done_ && !made_.empty() && !fs::exists(target_, ignored)) fs::remove_all(made_, ignored);
}

void StagedFolder::commit() {
  std::error_code error;
  if (!fs::exists(target_)) {  // now, not at first: a checkpoint may have made it meanwhile
    fs::rename(aside_, target_, error);
    if (error) throw cannot(target_, "cannot be put in place", error);
    done_ = true;
    return;
  }
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(aside_)) {
    if (entry.is_regular_file()) files.push_back(entry.path());
  }
  for (const fs::path& file : files) replace_file(file, target_ / file.lexically_relative(aside_));
  done_ = true;
}

void write_text(const fs::path& file, const std::string& text) {
  errno = 0;
  std::ofstream out(file, std::ios::binary);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.close();
  if (!out) throw cannot(file, "cannot be written", {errno, std::generic_category()});
}

}  // namespace stillheap::plan
