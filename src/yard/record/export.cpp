#include "yard/record/export.hpp"

#include <ostream>

#include "core/base/csv.hpp"
#include "core/base/error.hpp"
#include "yard/record/contents.hpp"
#include "yard/record/read.hpp"
#include "yard/record/statements.hpp"

namespace stillheap::record {
namespace {

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

}  // namespace stillheap::record
