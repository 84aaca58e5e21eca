#include <algorithm>
#include <fstream>
#include <map>
#include <mutex>
#include <sstream>

#include "present/server/entry_json.hpp"
#include "present/server/handlers.hpp"
#include "present/server/thin.hpp"
#include "yard/record/export.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/photo.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t most_entries = 500;  // chosen: a phone's queue of weeks
constexpr std::size_t most_points = 2000;  // chosen: more than a screen shows

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

/// What was said at first and corrected later, oldest first.
Json corrected_readings(const record::Store& store, const std::vector<record::Reading>& readings) {
  Json list = Json::array();
  for (const record::Reading& one : readings) {
    if (one.mark.corrects.empty()) continue;
    list.push_back(list_json(record::history<record::Reading>(store, one.mark.id)));
  }
  return list;
}

template <class Entry>
Json add_one(record::Store& store, const Json& json) {
  const record::Stored stored = record::add(store, entry_from<Entry>(json));
  const char* const words[] = {"stored", "known", "duplicate"};
  return {{"outcome", words[static_cast<std::size_t>(stored.outcome)]}, {"id", stored.id}};
}

using AddOne = Json (*)(record::Store&, const Json&);
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
Json add_or_refuse(record::Store& store, const Json& json) {
  try {
    const std::string kind = json.is_object() ? json.value("kind_of_entry", "") : "";
    const auto adder = adders().find(kind);
    if (adder == adders().end()) {
      throw InputError("kind_of_entry", "= \"" + kind + "\" is not known", "see docs/openapi.json for the names");
    }
    return adder->second(store, json);
  } catch (const InputError& error) {
    Json refused = {{"outcome", "refused"}};
    refused.update(problems_json(error.problems()));
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
  const auto readings = record::of_fill<record::Reading>(*store, fill.mark.thing);
  std::map<std::pair<std::string, std::string>, std::vector<record::Reading>> series;
  for (const record::Reading& one : readings) {
    series[{std::string(record::info(one.measure).key), record::words(one.place, context.site.units)}].push_back(one);
  }
  Json list = Json::array();
  for (const auto& [name, points] : series) {
    Json at = Json::array();
    Json value = Json::array();
    Json ids = Json::array();
    for (const record::Reading& one : thin(points, most_points)) {
      at.push_back(one.at.time_since_epoch().count());
      value.push_back(one.value);
      ids.push_back(one.mark.id);
    }
    list.push_back(Json{{"measure", name.first},
                        {"place_words", name.second},
                        {"count", points.size()},
                        {"at_s", at},
                        {"value", value},
                        {"id", ids}});
  }
  return answer({{"series", list}, {"corrected", corrected_readings(*store, readings)}});
}

Response get_batch(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  Response made;
  made.body = record::batch_json(*store, fill_of(*store, ask).mark.thing);
  return made;
}

Response get_export(ServerContext& context, const Request&) {
  const auto store = context.stores.take();
  std::ostringstream text;
  record::write_json(*store, text);
  Response made;
  made.body = std::move(text).str();
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
    for (const Json& one : json["entries"]) results.push_back(add_or_refuse(store, one));
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
