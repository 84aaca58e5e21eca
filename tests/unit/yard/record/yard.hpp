#pragma once
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "yard/record/read.hpp"
#include "yard/record/store.hpp"
#include "yard/record/write.hpp"

/// A small invented yard for the tests of the records.
namespace stillheap::record::test {

/// A folder that is gone after the test.
class Folder {
 public:
  Folder() : path_(std::filesystem::temp_directory_path() / ("stillheap-record-" + new_name())) {
    std::filesystem::create_directories(path_);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::filesystem::path store() const { return path_ / "site.records.sqlite"; }
  [[nodiscard]] std::filesystem::path write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return path_ / name;
  }

 private:
  static std::string new_name() {
    static int count = 0;
    return std::to_string(::getpid()) + "-" + std::to_string(++count);
  }
  std::filesystem::path path_;
};

inline std::string read_text(const std::filesystem::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

inline Instant at(const std::string& text) { return parse_instant(text, "UTC", "test"); }

inline EntryMetadata by(const std::string& initials) {
  EntryMetadata mark;
  mark.by = initials;
  mark.zone = "Europe/Paris";
  return mark;
}

inline Vessel vessel(const std::string& name) { return {by("ab"), name, "north", ""}; }

inline Fill fill(const std::string& vessel_id, const std::string& batch,
                 const std::string& when = "2025-03-02T09:00Z") {
  Fill one;
  one.mark = by("ab");
  one.vessel_id = vessel_id;
  one.batch = batch;
  one.filled_at = at(when);
  return one;
}

inline Reading reading(const std::string& fill_id, double celsius, const std::string& when,
                       const std::string& place = "core") {
  Reading one;
  one.mark = by("ab");
  one.fill_id = fill_id;
  one.value = celsius;
  one.at = at(when);
  one.place.name = place;
  one.place.depth_m = 0.4572;
  return one;
}

inline Event event(const std::string& fill_id, EventKind kind, const std::string& when) {
  Event one;
  one.mark = by("ab");
  one.fill_id = fill_id;
  one.kind = kind;
  one.at = at(when);
  return one;
}

/// "line|column|value|why" of each cell that a preview of an import refuses.
template <class Preview>
std::string refusals(const Preview& preview) {
  std::string text;
  for (const auto& one : preview.refused) {
    text += std::to_string(one.line) + "|" + one.column + "|" + one.value + "|" + one.why + "\n";
  }
  return text;
}

inline bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// A store with one vessel, filled.
struct Yard {
  Folder folder;
  Store store = Store::open(folder.store());
  std::string vessel_id = add(store, vessel("north 1")).id;
  std::string fill_id = add(store, fill(vessel_id, "2026-1")).id;
};

}  // namespace stillheap::record::test
