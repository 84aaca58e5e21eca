#include "yard/record/whole_check.hpp"

#include <sqlite3.h>

#include <array>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/json/strict.hpp"
#include "yard/record/damage.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 5> keys{"unchecked", "checking", "whole", "damaged", "stopped"};
constexpr int steps_between_looks = 100000;  // chosen: some milliseconds

fs::path kept_file(const fs::path& store_file) {
  fs::path path = store_file;
  return path.replace_extension(".check.json");
}

int asked_to_stop(void* stop) { return static_cast<const std::atomic<bool>*>(stop)->load() ? 1 : 0; }

std::string minute(Instant at, std::string_view zone) {
  std::string text = to_local_text(at, zone).substr(0, 16);
  text[10] = ' ';
  return text;
}

nlohmann::json to_json(const WholeCheck& found) {
  return {{"state", key_of(found.state)},
          {"began_s", found.began.time_since_epoch().count()},
          {"ended_s", found.ended.time_since_epoch().count()},
          {"damage", found.damage}};
}

WholeCheck from_json(const nlohmann::json& json) {
  WholeCheck found;
  const auto key = std::find(keys.begin(), keys.end(), json.at("state").get<std::string>());
  if (key == keys.end()) return found;
  found.state = static_cast<Soundness>(key - keys.begin());
  found.began = Instant{std::chrono::seconds{json.at("began_s").get<std::int64_t>()}};
  found.ended = Instant{std::chrono::seconds{json.at("ended_s").get<std::int64_t>()}};
  found.damage = json.at("damage").get<std::vector<std::string>>();
  return found;
}

}  // namespace

std::string_view key_of(Soundness soundness) noexcept { return keys.at(static_cast<std::size_t>(soundness)); }

WholeCheck check_whole(const fs::path& store_file, const std::atomic<bool>& stop) {
  WholeCheck found;
  found.began = now();
  try {
    SQLite::Database database(store_file.string(), SQLite::OPEN_READONLY, Store::busy_timeout_ms);
    // The handler takes what it cannot change as changeable; it only reads it.
    sqlite3_progress_handler(database.getHandle(), steps_between_looks, &asked_to_stop,
                             const_cast<std::atomic<bool>*>(&stop));
    found.damage = damage_of(database, Check::whole, store_file);
  } catch (const SQLite::Exception& error) {
    found.damage.emplace_back(error.what());
  }
  found.ended = now();
  found.state = stop.load() ? Soundness::stopped : (found.damage.empty() ? Soundness::whole : Soundness::damaged);
  if (found.state == Soundness::stopped) found.damage.clear();
  return found;
}

void keep_check(const fs::path& store_file, const WholeCheck& found) noexcept {
  try {
    const fs::path file = kept_file(store_file);
    const fs::path part = file.string() + ".part";
    {
      std::ofstream out(part, std::ios::binary);
      out << to_json(found).dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
      if (!out.flush()) return;
    }
    fs::rename(part, file);
  } catch (const std::exception&) {
    return;  // a folder that cannot be written to: the next check tells it anew
  }
}

WholeCheck kept_check(const fs::path& store_file) {
  try {
    std::ifstream in(kept_file(store_file));
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    if (!strict_json::what_is_wrong(text).empty()) return {};
    return from_json(nlohmann::json::parse(text));
  } catch (const nlohmann::json::exception&) {
    return {};
  }
}

std::string words(const WholeCheck& check, std::string_view zone) {
  switch (check.state) {
    case Soundness::checking:
      return "store is being checked since " + minute(check.began, zone);
    case Soundness::whole:
      return "store checked whole on " + minute(check.ended, zone);
    case Soundness::damaged:
      return "store is damaged, found on " + minute(check.ended, zone) +
             (check.damage.empty() ? std::string{} : ": " + check.damage.front());
    case Soundness::stopped:
      return "store not checked to its end; the check of " + minute(check.began, zone) + " was stopped";
    case Soundness::unchecked:
      break;
  }
  return "store not yet checked as a whole";
}

std::vector<std::string> steps_to_restore(const fs::path& store_file) {
  const std::string name = store_file.filename().string();
  return {"Stop noting, and end every stillheap that uses this yard.",
          "Move " + name + " and, if they are there, " + name + "-wal and " + name +
              "-shm into a folder of their own; keep them.",
          "Copy the last backup (stillheap export --backup) to " + name + ".",
          "Start again: what the phones still hold is sent once more and stands once.",
          "No backup: sqlite3 .recover can often save most rows; let someone who knows it try on a copy."};
}

}  // namespace stillheap::record
