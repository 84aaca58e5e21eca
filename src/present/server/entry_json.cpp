#include "present/server/entry_json.hpp"

#include <set>

#include "yard/record/ident.hpp"

namespace stillheap::server {
namespace {

using record::Instant;

/// A visitor that takes each field from an object and remembers which keys there are.
class Take {
 public:
  Take(const Json& json, std::set<std::string>& keys, std::vector<Problem>& problems)
      : json_(json), keys_(keys), problems_(problems) {}

  void text(const char* key, std::string& to) { take(key, &Json::is_string, "a text", to); }
  /// Must be there: a number that could not be made comes as null, and no reading is zero for that.
  void number(const char* key, double& to) {
    const Json* value = find(key);
    if (value == nullptr && whole_) problems_.push_back({key, "is missing", "give a number"});
    take(key, &Json::is_number, "a number", to);
  }
  /// What takes an entry back need not say it again.
  void withdraws() noexcept { whole_ = false; }
  void count(const char* key, long long& to) { take(key, &Json::is_number_integer, "a whole number", to); }
  void flag(const char* key, bool& to) { take(key, &Json::is_boolean, "true or false", to); }
  void maybe(const char* key, std::optional<double>& to) {
    double value = 0.0;
    if (take(key, &Json::is_number, "a number", value)) to = value;
  }
  void instant(const char* key, Instant& to) {
    long long seconds = 0;
    if (take(key, &Json::is_number_integer, "whole seconds since 1970", seconds)) {
      to = Instant{std::chrono::seconds{seconds}};
    }
  }
  void measure(const char* key, record::Measure& to) {
    one_of(key, to, [](const std::string& text) { return record::measure_of(text); });
  }
  void event(const char* key, record::EventKind& to) {
    one_of(key, to, [](const std::string& text) { return record::event_kind_of(text); });
  }
  void refer(const char* key, std::string& to, const char*, bool) { text(key, to); }
  void named(const char* key, std::string& to, const char*) { text(key, to); }

 private:
  const Json* find(const char* key) {
    keys_.insert(key);
    const auto found = json_.find(key);
    return found == json_.end() || found->is_null() ? nullptr : &*found;
  }
  template <class Value>
  bool take(const char* key, bool (Json::*right)() const noexcept, const char* wanted, Value& to) {
    const Json* value = find(key);
    if (value == nullptr) return false;
    if (!(value->*right)()) {
      problems_.push_back({key, "= " + value->dump() + " cannot be", std::string("give ") + wanted});
      return false;
    }
    to = value->get<Value>();
    return true;
  }
  template <class Value, class Of>
  void one_of(const char* key, Value& to, Of&& of) {
    const Json* value = find(key);
    const auto known = value != nullptr && value->is_string() ? of(value->get<std::string>()) : std::nullopt;
    if (known) {
      to = *known;
    } else {
      problems_.push_back({key, "is missing or not known", "see docs/openapi.json for the names"});
    }
  }
  const Json& json_;
  std::set<std::string>& keys_;
  std::vector<Problem>& problems_;
  bool whole_ = true;
};

/// A visitor that puts each field into an object; empty ones are left out.
class Put {
 public:
  explicit Put(Json& json) : json_(json) {}
  void text(const char* key, const std::string& value) {
    if (!value.empty()) json_[key] = value;
  }
  void instant(const char* key, Instant value) { json_[key] = value.time_since_epoch().count(); }
  void number(const char* key, double value) { json_[key] = value; }
  void maybe(const char* key, const std::optional<double>& value) {
    if (value) json_[key] = *value;
  }
  void count(const char* key, long long value) { json_[key] = value; }
  void measure(const char* key, record::Measure value) { json_[key] = record::info(value).key; }
  void event(const char* key, record::EventKind value) { json_[key] = record::info(value).key; }
  void refer(const char* key, const std::string& id, const char*, bool) { text(key, id); }
  void named(const char* key, const std::string& name, const char*) { text(key, name); }

 private:
  Json& json_;
};

void take_mark(record::EntryMetadata& mark, Take& take) {
  take.text("id", mark.id);
  take.text("by", mark.by);
  take.instant("noted_at_s", mark.noted_at);
  take.text("zone", mark.zone);
  take.text("corrects", mark.corrects);
  take.text("reason", mark.reason);
  take.flag("withdrawn", mark.withdrawn);
  if (mark.withdrawn) take.withdraws();
}

}  // namespace

template <class Entry>
Entry entry_from(const Json& json) {
  if (!json.is_object()) throw InputError("entry", "is no object", "send a JSON object");
  Entry entry;
  std::set<std::string> keys{"kind_of_entry", "sure"};
  std::vector<Problem> problems;
  Take take(json, keys, problems);
  take_mark(entry.mark, take);
  visit(entry, take);
  for (const auto& [key, value] : json.items()) {
    if (!keys.contains(key)) problems.push_back({key, "is not known", "see docs/openapi.json for the names"});
  }
  if (!record::id_bytes(entry.mark.id)) problems.push_back({"id", "is no UUID", "make one for each entry"});
  if (!problems.empty()) throw InputError(problems);
  return entry;
}

template <class Entry>
Json to_json(const Entry& entry) {
  const record::EntryMetadata& mark = entry.mark;
  Json json = {{"id", mark.id}, {"thing", mark.thing}, {"noted_at_s", mark.noted_at.time_since_epoch().count()}};
  Put put(json);
  put.text("by", mark.by);
  put.text("zone", mark.zone);
  put.text("corrects", mark.corrects);
  put.text("reason", mark.reason);
  if (mark.withdrawn) json["withdrawn"] = true;
  visit(entry, put);
  return json;
}

#define STILLHEAP_ENTRY(Kind)                                  \
  template record::Kind entry_from<record::Kind>(const Json&); \
  template Json to_json<record::Kind>(const record::Kind&)
STILLHEAP_ENTRY(Person);
STILLHEAP_ENTRY(Vessel);
STILLHEAP_ENTRY(Lot);
STILLHEAP_ENTRY(Fill);
STILLHEAP_ENTRY(LotUse);
STILLHEAP_ENTRY(Reading);
STILLHEAP_ENTRY(Event);
STILLHEAP_ENTRY(LabTest);
STILLHEAP_ENTRY(Spreading);
STILLHEAP_ENTRY(Photo);
STILLHEAP_ENTRY(DueDay);
#undef STILLHEAP_ENTRY

}  // namespace stillheap::server
