#include "study/folder.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "base/error.hpp"
#include "base/whole_file.hpp"

namespace stillheap::study {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* kind = "stillheap study";

/// FNV-1a, 64 bits. Source: Fowler, Noll & Vo; offset basis and prime from memory.
class Print {
 public:
  void add(const std::string& text) {
    for (const char sign : text) step(static_cast<unsigned char>(sign));
    step(0);  // so that "ab", "c" is not "a", "bc"
  }
  [[nodiscard]] std::uint64_t value() const noexcept { return value_; }

 private:
  void step(std::uint64_t byte) noexcept { value_ = (value_ ^ byte) * 0x100000001b3; }
  std::uint64_t value_ = 0xcbf29ce484222325;
};

std::string bytes_of(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
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
void add_weather(const Study& study, const std::vector<Case>& cases, Print& print) {
  std::set<fs::path> read;
  for (const Case& one : cases) {
    try {
      const fs::path file = site_of(study, one).weather.file;
      if (!file.empty() && read.insert(file).second) print.add(bytes_of(file));
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
  Print print;
  print.add(version);
  for (const Measure& measure : measures()) print.add(std::string(measure.name));
  print.add(study.site_text);
  for (const site::Setting& one : study.fixed) print.add(one.key + " = " + one.value);
  for (const Case& one : cases) print.add(words_of(study, one));
  add_weather(study, cases, print);
  return print.value();
}

bool holds(const Folder& folder, std::uint64_t print) {
  const fs::path file = folder.path / "study.json";
  if (!fs::exists(file)) return false;
  const Json json = Json::parse(bytes_of(file), nullptr, false);
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
  const fs::path aside = folder.path / ("." + own_name());
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

std::string own_name() {
  static std::atomic<int> count{0};
  return fmt::format("{}-{}", process_name(), ++count);
}

void put_in_place(const fs::path& file, const std::string& bytes) {
  // Two may write the same file at once, on two hosts: neither may write into the other's.
  const fs::path aside = file.parent_path() / ("." + own_name());
  write_whole_file(aside, bytes);
  std::error_code error;
  fs::rename(aside, file, error);
  if (!error) return;
  std::error_code ignored;
  fs::remove(aside, ignored);
  throw cannot(file, "cannot be put in place", error);
}

}  // namespace stillheap::study
