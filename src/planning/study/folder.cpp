#include "planning/study/folder.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <set>

#include "core/base/error.hpp"
#include "core/base/fingerprint.hpp"
#include "core/base/whole_file.hpp"
#include "core/json/strict.hpp"

namespace stillheap::study {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* kind = "stillheap study";

/// So that "ab", "c" is not "a", "bc".
void add_text(Fingerprint& print, std::string_view text) {
  print.add(text);
  constexpr char end = '\0';
  print.add(std::string_view(&end, 1));
}

std::string hex(std::uint64_t print) { return fmt::format("{:016x}", print); }

RunError cannot(const fs::path& path, const std::string& what, const std::error_code& error) {
  return {path.string(), what + " (" + error.message() + ')', "choose a folder that can be written and has room"};
}

void make(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) throw cannot(folder, "the folder cannot be made", error);
}

/// The weather files that any case names, each once: what stands in them decides too.
void add_weather(const Study& study, const std::vector<Case>& cases, Fingerprint& print) {
  std::set<fs::path> read;
  for (const Case& one : cases) {
    try {
      const fs::path file = site_of(study, one).weather.file;
      if (!file.empty() && read.insert(file).second) add_text(print, read_whole_file(file));
      const bool varied = std::any_of(study.axes.begin(), study.axes.end(),
                                      [](const Axis& axis) { return axis.row->form == site::Form::file; });
      if (!varied) return;
    } catch (const InputError&) {  // impossible: told elsewhere; the next one names the file as well
    }
  }
}

}  // namespace

std::string case_name(int number) { return fmt::format("{:06}", number); }

fs::path Folder::result(int number) const { return cases() / (case_name(number) + ".json"); }

std::uint64_t print_of(const Study& study, const std::vector<Case>& cases, const std::string& version) {
  Fingerprint print;
  add_text(print, version);
  for (const Measure& measure : measures()) add_text(print, std::string(measure.name));
  add_text(print, study.site_text);
  for (const site::Setting& one : study.fixed) add_text(print, one.key + " = " + one.value);
  for (const Case& one : cases) add_text(print, words_of(study, one));
  add_weather(study, cases, print);
  return print.value();
}

bool holds(const Folder& folder, std::uint64_t print) {
  const fs::path file = folder.path / "study.json";
  if (!fs::exists(file)) return false;
  const std::string text = read_whole_file(file);
  const Json json = strict_json::what_is_wrong(text).empty() ? Json::parse(text) : Json();
  const bool ours = json.is_object() && json.value("kind", "") == kind;
  if (ours && json.value("print", "") == hex(print)) return true;
  throw InputError(folder.path.string(),
                   ours ? "holds the results of another study, or of this one before it, its site file or the program "
                          "was changed"
                        : "has a study.json that is none of this program",
                   "name another folder");
}

void set_up(const Folder& folder, const Study& study, std::uint64_t print, std::size_t cases) {
  make(folder.cases());
  make(folder.claims());
  Json json{{"kind", kind}, {"print", hex(print)}, {"cases", cases}, {"study", study.file.filename().string()}};
  for (const Axis& axis : study.axes) json["varied"].push_back(axis.key);
  const fs::path file = folder.path / "study.json";
  const fs::path aside = aside_of(file);
  write_whole_file(aside, json.dump(1) + '\n');
  // A link, not a rename: the first one stays, and the others see whether it is theirs too.
  std::error_code error;
  fs::create_hard_link(aside, file, error);
  std::error_code ignored;
  fs::remove(aside, ignored);
  if (error && error != std::errc::file_exists) throw cannot(file, "cannot be put in place", error);
  (void)holds(folder, print);
}

bool is_finished(const Folder& folder, int number) { return fs::exists(folder.result(number)); }

std::vector<bool> finished_cases(const Folder& folder, std::size_t cases) {
  std::vector<bool> finished(cases + 1, false);
  std::error_code ignored;
  for (const auto& one : fs::directory_iterator(folder.cases(), ignored)) {
    const std::size_t number = std::strtoul(one.path().filename().c_str(), nullptr, 10);
    if (number > 0 && number <= cases && one.path().extension() == ".json") finished[number] = true;
  }
  return finished;
}

std::size_t count_finished(const Folder& folder) {
  const std::vector<bool> finished = finished_cases(folder, most_cases);
  return static_cast<std::size_t>(std::count(finished.begin(), finished.end(), true));
}

void keep(const Folder& folder, const CaseResult& result) {
  put_in_place(folder.result(result.number), to_text(result));
}

std::string process_name() {
  std::array<char, 256> host{};
  if (::gethostname(host.data(), host.size() - 1) != 0) host = {'h'};
  return fmt::format("{}-{}", host.data(), ::getpid());
}

fs::path aside_of(const fs::path& file) {
  static std::atomic<int> count{0};
  return file.parent_path() / fmt::format(".{}-{}", process_name(), ++count);
}

void move_in_place(const fs::path& aside, const fs::path& file) {
  std::error_code error;
  fs::rename(aside, file, error);
  if (!error) return;
  std::error_code ignored;
  fs::remove(aside, ignored);
  throw cannot(file, "cannot be put in place", error);
}

void put_in_place(const fs::path& file, const std::string& bytes) {
  const fs::path aside = aside_of(file);
  write_whole_file(aside, bytes);
  move_in_place(aside, file);
}

}  // namespace stillheap::study
