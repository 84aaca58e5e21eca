#include "yard/record/export.hpp"

#include <functional>
#include <nlohmann/json.hpp>
#include <ostream>

#include "core/base/csv.hpp"
#include "core/base/error.hpp"
#include "yard/record/contents.hpp"
#include "yard/record/load.hpp"
#include "yard/record/read.hpp"

namespace stillheap::record {
namespace {

using Json = nlohmann::ordered_json;

/// Values as JSON knows them; missing ones as null.
class JsonFields {
 public:
  explicit JsonFields(Json& to) : to_(to) {}
  void text(const char* column, const std::string& value) { to_[column] = value; }
  void instant(const char* column, Instant value) { to_[column] = to_utc_text(value); }
  void number(const char* column, double value) { to_[column] = value; }
  void maybe(const char* column, const std::optional<double>& value) {
    to_[column] = value ? Json(*value) : Json(nullptr);
  }
  void count(const char* column, long long value) { to_[column] = value; }
  void measure(const char* column, Measure value) { to_[column] = info(value).key; }
  void event(const char* column, EventKind value) { to_[column] = info(value).key; }
  void refer(const char* column, const std::string& id, const char*, bool) { to_[column] = id; }
  void named(const char* column, const std::string& name, const char*) { to_[column] = name; }

 private:
  Json& to_;
};

/// "at_s" holds text in an export, so it is called "at" there.
std::string outside_name(std::string column) {
  if (column.ends_with("_s") && column != "duration_s") column.resize(column.size() - 2);
  return column;
}

Contents mark_contents(const EntryMetadata& mark, bool stands) {
  return {{"id", mark.id},
          {"thing", mark.thing},
          {"stands", stands ? "yes" : "no"},
          {"corrects", mark.corrects},
          {"reason", mark.reason},
          {"withdrawn", mark.withdrawn ? "yes" : "no"},
          {"noted_by", mark.by},
          {"noted", to_utc_text(mark.noted_at)},
          {"zone", mark.zone},
          {"stored", to_utc_text(mark.stored_at)}};
}

template <class Entry>
Json to_json(const Entry& one, bool stands) {
  Json json = {{"id", one.mark.id},         {"thing", one.mark.thing},
               {"stands", stands},          {"corrects", one.mark.corrects},
               {"reason", one.mark.reason}, {"withdrawn", one.mark.withdrawn},
               {"noted_by", one.mark.by},   {"noted", to_utc_text(one.mark.noted_at)},
               {"zone", one.mark.zone},     {"stored", to_utc_text(one.mark.stored_at)}};
  Json fields;
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

template <class Entry>
void csv_of(const Store& store, std::ostream& to) {
  std::vector<std::string> header;
  const Entry sample{};
  for (const auto& [name, value] : mark_contents(sample.mark, true)) header.push_back(name);
  for (const auto& [name, value] : contents(sample)) header.push_back(outside_name(name));
  to << csv::row(header);
  each<Entry>(store, [&](const Entry& one, bool stands) {
    std::vector<std::string> cells;
    for (const auto& [name, value] : mark_contents(one.mark, stands)) cells.push_back(csv::cell(value));
    for (const auto& [name, value] : contents(one)) cells.push_back(csv::cell(value));
    to << csv::row(cells);
  });
}

template <class Entry>
void json_of(const Store& store, std::ostream& to) {
  const char* between = "\n";
  to << '"' << Kind<Entry>::table << "\": [";
  each<Entry>(store, [&](const Entry& one, bool stands) {
    to << between << to_json(one, stands).dump();
    between = ",\n";
  });
  to << "\n]";
}

struct KindWriters {
  const char* name;
  void (*csv)(const Store&, std::ostream&);
  void (*json)(const Store&, std::ostream&);
};

template <class Entry>
constexpr KindWriters writers_of() {
  return {Kind<Entry>::table, &csv_of<Entry>, &json_of<Entry>};
}

constexpr KindWriters writers[] = {writers_of<Person>(),    writers_of<Vessel>(), writers_of<Lot>(),
                                   writers_of<Fill>(),      writers_of<LotUse>(), writers_of<CsvSource>(),
                                   writers_of<Reading>(),   writers_of<Event>(),  writers_of<LabTest>(),
                                   writers_of<Spreading>(), writers_of<Photo>(),  writers_of<DueDay>()};

/// Every statement about the things whose first rows the SQL `things` names, by thing and then by age.
template <class Entry>
Json statements(const Store& store, const std::string& things, Row fill) {
  Json told = Json::array();
  each<Entry>(
      store, [&](const Entry& one, bool stands) { told.push_back(to_json(one, stands)); },
      "WHERE t.row IN (" + things + ") OR t.revises IN (" + things + ") ORDER BY coalesce(t.revises, t.row), t.row",
      fill);
  return told;
}

/// Things of which any statement, even a corrected one, spoke of the fill.
template <class Entry>
Json of_the_fill(const Store& store, Row fill) {
  const std::string table = Kind<Entry>::table;
  const std::string series = std::same_as<Entry, Reading> ? " JOIN series AS z ON z.row = x.series" : "";
  return statements<Entry>(
      store, "SELECT coalesce(x.revises, x.row) FROM " + table + " AS x" + series + " WHERE fill = ?1", fill);
}

}  // namespace

std::vector<std::string> exported_kinds() {
  std::vector<std::string> names;
  for (const KindWriters& one : writers) names.emplace_back(one.name);
  return names;
}

void write_csv(const Store& store, const std::string& kind, std::ostream& to) {
  for (const KindWriters& one : writers) {
    if (kind == one.name) return one.csv(store, to);
  }
  throw InputError("kind", "= \"" + kind + "\" is not in the records", "use readings, events, fills, ...");
}

void write_json(const Store& store, std::ostream& to) {
  const char* between = "{\n";
  for (const KindWriters& one : writers) {
    to << between;
    one.json(store, to);
    between = ",\n";
  }
  to << "\n}\n";
}

std::string batch_json(const Store& store, const std::string& fill_id) {
  const Row fill = thing_of(store.connection(), "fills", fill_id);
  if (fill == 0) throw InputError("fill", "= \"" + fill_id + "\" is not in the records", "name a fill that is");
  const std::string lots = "SELECT lot FROM lot_uses WHERE fill = ?1";
  Json json;
  json["fills"] = statements<Fill>(store, "SELECT ?1", fill);
  json["vessels"] = statements<Vessel>(store, "SELECT vessel FROM fills WHERE row = ?1 OR revises = ?1", fill);
  json["lots"] = statements<Lot>(store, lots, fill);
  json["lot_uses"] = of_the_fill<LotUse>(store, fill);
  json["events"] = of_the_fill<Event>(store, fill);
  json["readings"] = of_the_fill<Reading>(store, fill);
  json["lab_tests"] = statements<LabTest>(
      store, "SELECT coalesce(x.revises, x.row) FROM lab_tests AS x WHERE x.fill = ?1 OR x.lot IN (" + lots + ")",
      fill);
  json["spreadings"] = of_the_fill<Spreading>(store, fill);
  json["photos"] = of_the_fill<Photo>(store, fill);
  return json.dump(1) + "\n";
}

}  // namespace stillheap::record
