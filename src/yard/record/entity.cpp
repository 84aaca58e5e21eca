#include "yard/record/entity.hpp"

#include "core/base/error.hpp"
#include "yard/record/load.hpp"
#include "yard/record/read.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

template <class Entry>
std::vector<Statement> told(const Store& store, const std::string& id) {
  std::vector<Statement> found;
  for (const Entry& one : history<Entry>(store, id)) found.push_back({one.mark, contents(one)});
  return found;
}

template <class Entry>
Stored take_back(Store& store, const EntryMetadata& mark) {
  Entry entry;
  entry.mark = mark;
  return add(store, entry);
}

struct KindWork {
  const char* table;
  std::vector<Statement> (*told)(const Store&, const std::string&);
  Stored (*take_back)(Store&, const EntryMetadata&);
};

template <class Entry>
constexpr KindWork work_of() {
  return {Kind<Entry>::table, &told<Entry>, &take_back<Entry>};
}

constexpr KindWork kinds[] = {work_of<Person>(),    work_of<Vessel>(),  work_of<Lot>(),       work_of<Fill>(),
                              work_of<LotUse>(),    work_of<Reading>(), work_of<Event>(),     work_of<LabTest>(),
                              work_of<Spreading>(), work_of<Photo>(),   work_of<CsvSource>(), work_of<DueDay>()};

const KindWork& work(const Store& store, const std::string& id) {
  const std::optional<std::string> table = kind_of(store, id);
  for (const KindWork& one : kinds) {
    if (table && *table == one.table) return one;
  }
  throw InputError("id", "= \"" + id + "\" is not in the records",
                   "take it from an export or from what record printed");
}

}  // namespace

std::optional<std::string> kind_of(const Store& store, const std::string& id) {
  return guarded(store.file(), [&]() -> std::optional<std::string> {
    for (const char* table : entry_tables()) {
      if (thing_of(store.connection(), table, id) != 0) return table;
    }
    return std::nullopt;
  });
}

std::vector<Statement> statements(const Store& store, const std::string& id) { return work(store, id).told(store, id); }

Stored withdraw(Store& store, const std::string& id, EntryMetadata mark) {
  const KindWork& kind = work(store, id);
  mark.corrects = kind.told(store, id).back().mark.id;
  mark.withdrawn = true;
  return kind.take_back(store, mark);
}

}  // namespace stillheap::record
