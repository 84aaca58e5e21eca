#pragma once
#include <functional>
#include <nlohmann/json.hpp>
#include <string>

#include "yard/record/load.hpp"

/// Statements as JSON, one after the other out of the store. Only the files of this folder include this.
namespace stillheap::record {

using StatementJson = nlohmann::ordered_json;

/// Values as JSON knows them; missing ones as null.
class JsonFields {
 public:
  explicit JsonFields(StatementJson& to) : to_(to) {}
  void text(const char* column, const std::string& value) { to_[column] = value; }
  void instant(const char* column, Instant value) { to_[column] = to_utc_text(value); }
  void number(const char* column, double value) { to_[column] = value; }
  void maybe(const char* column, const std::optional<double>& value) {
    to_[column] = value ? StatementJson(*value) : StatementJson(nullptr);
  }
  void count(const char* column, long long value) { to_[column] = value; }
  void measure(const char* column, Measure value) { to_[column] = info(value).key; }
  void event(const char* column, EventKind value) { to_[column] = info(value).key; }
  void refer(const char* column, const std::string& id, const char*, bool) { to_[column] = id; }
  void named(const char* column, const std::string& name, const char*) { to_[column] = name; }

 private:
  StatementJson& to_;
};

/// "at_s" holds text in an export, so it is called "at" there.
inline std::string outside_name(std::string column) {
  if (column.ends_with("_s") && column != "duration_s") column.resize(column.size() - 2);
  return column;
}

template <class Entry>
StatementJson to_json(const Entry& one, bool stands) {
  StatementJson json = {{"id", one.mark.id},         {"thing", one.mark.thing},
                        {"stands", stands},          {"corrects", one.mark.corrects},
                        {"reason", one.mark.reason}, {"withdrawn", one.mark.withdrawn},
                        {"noted_by", one.mark.by},   {"noted", to_utc_text(one.mark.noted_at)},
                        {"zone", one.mark.zone},     {"stored", to_utc_text(one.mark.stored_at)}};
  StatementJson fields;
  visit(one, JsonFields(fields));
  for (const auto& [column, value] : fields.items()) json[outside_name(column)] = value;
  return json;
}

/// Calls `use(entry, stands)` for the statements of a kind that `tail` (SQL from WHERE on) chooses by one thing's row.
template <class Entry>
void each(const Store& store, const std::function<void(const Entry&, bool)>& use,
          const std::string& tail = "ORDER BY t.row", Row bound = 0) {
  guarded(store.file(), [&] {
    const std::string table = Kind<Entry>::table;
    // The last column of the select tells whether a later statement is about the same thing.
    std::string sql = select<Entry>(false, tail);
    const std::string stands = ", t.withdrawn = 0 AND NOT EXISTS (SELECT 1 FROM " + table +
                               " AS n WHERE n.revises = coalesce(t.revises, t.row) AND n.row > t.row)";
    sql.insert(sql.find(" FROM " + table + " AS t"), stands);
    Query query(store.connection(), sql);
    if (bound != 0) query->bind(1, bound);
    const int last = query->getColumnCount() - 1;
    while (query->executeStep()) use(load<Entry>(*query), query->getColumn(last).getInt() != 0);
  });
}

}  // namespace stillheap::record
