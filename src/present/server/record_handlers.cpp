#include <algorithm>
#include <fstream>
#include <map>
#include <mutex>
#include <sstream>
#include <tuple>
#include <utility>

#include "present/server/entry_json.hpp"
#include "present/server/handlers.hpp"
#include "present/server/thin.hpp"
#include "yard/record/batch.hpp"
#include "yard/record/check.hpp"
#include "yard/record/export.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/photo.hpp"
#include "yard/record/read.hpp"
#include "yard/record/series_rows.hpp"
#include "yard/record/write.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t most_entries = 500;  // chosen: a phone's queue of weeks
constexpr std::size_t most_points = 2000;  // chosen: more than a screen shows
constexpr record::Instant earliest{std::chrono::seconds{-(1LL << 60)}};
constexpr record::Instant latest{std::chrono::seconds{1LL << 60}};

record::Fill fill_of(const record::Store& store, const Request& ask) {
  const auto fill = record::current<record::Fill>(store, ask.named.at("fill"));
  if (!fill) throw NotThere{"no fill with this id stands in the records"};
  return *fill;
}

template <class Entry>
Json list_json(const std::vector<Entry>& entries) {
  Json list = Json::array();
  for (const Entry& one : entries) list.push_back(to_json(one));
  return list;
}

/// Those of another place that has the same words, in order of time.
void add_rows(record::SeriesRows& to, record::SeriesRows more) {
  if (to.at.empty()) {
    to = std::move(more);
    return;
  }
  std::vector<std::tuple<record::Instant, double, std::int64_t>> all;
  for (const record::SeriesRows* from : {&std::as_const(to), &std::as_const(more)}) {
    for (std::size_t i = 0; i < from->at.size(); ++i) all.emplace_back(from->at[i], from->value[i], from->row[i]);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return std::get<0>(a) < std::get<0>(b); });
  to.at.resize(all.size());
  to.value.resize(all.size());
  to.row.resize(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) std::tie(to.at[i], to.value[i], to.row[i]) = all[i];
}

/// What a chart shows of a series; ids of what it shows alone.
Json series_json(const record::Store& store, const std::string& measure, const std::string& place,
                 const record::SeriesRows& rows) {
  Json at = Json::array();
  Json value = Json::array();
  std::vector<std::int64_t> kept;
  for (const std::size_t i : thin(rows.value, most_points)) {
    at.push_back(rows.at[i].time_since_epoch().count());
    value.push_back(rows.value[i]);
    kept.push_back(rows.row[i]);
  }
  return {{"measure", measure}, {"place_words", place}, {"count", rows.at.size()},
          {"at_s", at},         {"value", value},       {"id", record::reading_ids(store, kept)}};
}

/// What was said at first and corrected later, oldest first.
Json corrected_readings(const record::Store& store, const std::string& fill_id) {
  Json list = Json::array();
  for (const record::Reading& one : record::correcting_readings(store, fill_id)) {
    list.push_back(list_json(record::history<record::Reading>(store, one.mark.id)));
  }
  return list;
}

/// The unlikely is asked back once; whoever sends it again with `sure` means it.
template <class Entry>
Json add_one(record::Store& store, const Json& json, const record::YardFacts& facts, bool sure) {
  const Entry entry = entry_from<Entry>(json);
  if (!sure) {
    if (!entry.mark.withdrawn) record::refuse_impossible(entry);
    const record::Doubts doubts = record::asked_back(store, entry, facts);
    if (!doubts.empty()) {
      Json asked = {{"outcome", "refused"}, {"unlikely", true}};  // a page that knows no `unlikely` keeps the entry
      asked.update(problems_json(doubts, facts.units));
      return asked;
    }
  }
  const record::Stored stored = record::add(store, entry);
  const char* const words[] = {"stored", "known", "duplicate"};
  return {{"outcome", words[static_cast<std::size_t>(stored.outcome)]}, {"id", stored.id}};
}

using AddOne = Json (*)(record::Store&, const Json&, const record::YardFacts&, bool);
const std::map<std::string, AddOne>& adders() {
  static const std::map<std::string, AddOne> table = {{"person", &add_one<record::Person>},
                                                      {"vessel", &add_one<record::Vessel>},
                                                      {"lot", &add_one<record::Lot>},
                                                      {"fill", &add_one<record::Fill>},
                                                      {"lot_use", &add_one<record::LotUse>},
                                                      {"reading", &add_one<record::Reading>},
                                                      {"event", &add_one<record::Event>},
                                                      {"lab_test", &add_one<record::LabTest>},
                                                      {"spreading", &add_one<record::Spreading>},
                                                      {"due_day", &add_one<record::DueDay>}};
  return table;
}

/// Stores one entry, or tells why not; one that is refused does not hold up the others.
Json add_or_refuse(record::Store& store, const Json& json, const record::YardFacts& facts) {
  try {
    const bool sure = json.is_object() && json.contains("sure") && json["sure"] == Json(true);
    const std::string kind = json.is_object() ? json.value("kind_of_entry", "") : "";
    const auto adder = adders().find(kind);
    if (adder == adders().end()) {
      throw InputError("kind_of_entry", "= \"" + kind + "\" is not known", "see docs/openapi.json for the names");
    }
    return adder->second(store, json, facts, sure);
  } catch (const InputError& error) {
    Json refused = {{"outcome", "refused"}};
    refused.update(problems_json(error.problems(), facts.units));
    return refused;
  } catch (const Json::exception&) {
    Json refused = {{"outcome", "refused"}};
    refused.update(problems_json({{"entry", "cannot be read", "see docs/openapi.json"}}));
    return refused;
  }
}

std::string file_bytes(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw NotThere{"the photo's file is not there"};
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return std::move(bytes).str();
}

std::string query_of(const Request& ask, const std::string& key) {
  const auto found = ask.query.find(key);
  return found == ask.query.end() ? std::string{} : found->second;
}

}  // namespace

Response get_fills(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const auto vessel = record::current<record::Vessel>(*store, ask.named.at("vessel"));
  if (!vessel) throw NotThere{"no vessel with this id stands in the records"};
  Json fills = Json::array();
  for (const record::VesselFill& one : record::fills_of(*store, vessel->mark.thing)) {
    fills.push_back(Json{{"fill", to_json(one.fill)}, {"ended", one.ended ? to_json(*one.ended) : Json(nullptr)}});
  }
  return answer({{"vessel", to_json(*vessel)}, {"fills", fills}});
}

Response get_fill(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const record::Fill fill = fill_of(*store, ask);
  const auto vessel = record::current<record::Vessel>(*store, fill.vessel_id);
  const std::string& id = fill.mark.thing;
  return answer({{"fill", to_json(fill)},
                 {"vessel", vessel ? to_json(*vessel) : Json(nullptr)},
                 {"events", list_json(record::of_fill<record::Event>(*store, id))},
                 {"lot_uses", list_json(record::of_fill<record::LotUse>(*store, id))},
                 {"lab_tests", list_json(record::of_fill<record::LabTest>(*store, id))},
                 {"spreadings", list_json(record::of_fill<record::Spreading>(*store, id))},
                 {"photos", list_json(record::of_fill<record::Photo>(*store, id))},
                 {"fill_history", list_json(record::history<record::Fill>(*store, id))}});
}

Response get_readings(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const record::Fill fill = fill_of(*store, ask);
  std::map<std::pair<std::string, std::string>, record::SeriesRows> series;
  for (record::SeriesRows& one : record::series_rows(*store, fill.mark.thing, earliest, latest)) {
    const std::pair key{std::string(record::info(one.measure).key), record::words(one.place, context.site.units)};
    add_rows(series[key], std::move(one));
  }
  Json list = Json::array();
  for (const auto& [name, rows] : series) list.push_back(series_json(*store, name.first, name.second, rows));
  return answer({{"series", list}, {"corrected", corrected_readings(*store, fill.mark.thing)}});
}

Response get_batch(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const std::string fill = fill_of(*store, ask).mark.thing;
  return answer_by_file("batch.json", "application/json",
                        [&](std::ostream& to) { record::write_batch_json(*store, fill, to); });
}

Response get_export(ServerContext& context, const Request&) {
  const auto store = context.stores.take();
  Response made =
      answer_by_file("records.json", "application/json", [&](std::ostream& to) { record::write_json(*store, to); });
  made.headers.emplace_back("Content-Disposition", "attachment; filename=\"records.json\"");
  return made;
}

Response add_entries(ServerContext& context, const Request& ask) {
  const Json json = body_json(ask);
  if (!json.is_object() || !json.contains("entries") || !json["entries"].is_array() ||
      json["entries"].size() > most_entries) {
    throw InputError("entries", "are no list of at most 500", "send {\"entries\": [...]}");
  }
  context.store_watch.refuse_damaged();
  Json results = Json::array();
  context.writes.run([&](record::Store& store) {
    for (const Json& one : json["entries"]) results.push_back(add_or_refuse(store, one, context.facts));
  });
  return answer({{"results", results}});
}

Response add_photo(ServerContext& context, const Request& ask) {
  context.store_watch.refuse_damaged();
  const record::Instant taken_at = record::parse_instant(query_of(ask, "taken_at"), "UTC", "taken_at");
  static std::mutex one_at_a_time;  // whoever is refused must not take away the file of another who sends the same
  const std::lock_guard lock(one_at_a_time);
  const auto store = context.stores.take();
  record::Photo photo = record::keep_photo(*store, ask.body);
  photo.mark.id = query_of(ask, "id");
  photo.mark.by = query_of(ask, "by");
  photo.fill_id = query_of(ask, "fill");
  photo.note = query_of(ask, "note");
  photo.taken_at = taken_at;
  record::Stored stored;
  try {
    context.writes.run([&](record::Store& to) { stored = record::add(to, photo); });
  } catch (...) {
    record::forget_photo(*store, photo);
    throw;
  }
  return answer({{"outcome", stored.outcome == record::Outcome::stored ? "stored" : "known"},
                 {"id", stored.id},
                 {"sha256", photo.sha256}});
}

Response send_photo(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const auto photos = record::all<record::Photo>(*store);
  const auto photo = std::find_if(photos.begin(), photos.end(), [&](const record::Photo& one) {
    return one.sha256 == ask.named.at("sha256");  // only what stands in the records is ever looked for on the disk
  });
  if (photo == photos.end()) throw NotThere{"no photo with this hash stands in the records"};
  Response made;
  made.body = file_bytes(record::photo_file(*store, *photo));
  if (record::sha256_hex(made.body) != photo->sha256) throw NotThere{"the photo's file was damaged; send it again"};
  made.type = photo->media_type;
  made.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
  return made;
}

}  // namespace stillheap::server
