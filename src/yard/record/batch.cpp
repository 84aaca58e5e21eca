#include "yard/record/batch.hpp"

#include <map>
#include <ostream>
#include <sstream>

#include "core/base/error.hpp"
#include "yard/record/sha256.hpp"
#include "yard/record/statements.hpp"

namespace stillheap::record {
namespace {

struct BatchSink {
  std::function<void(std::string_view)> text;
  std::function<void(const char* kind, const StatementJson& one, const std::string& as_text)> statement;
};

/// A JSON value inside another one: its lines after the first further in. Line ends inside of strings are escaped.
std::string set_in(const std::string& value, std::string_view by) {
  std::string text;
  for (const char c : value) {
    text += c;
    if (c == '\n') text += by;
  }
  return text;
}

/// Every statement about the things whose first rows the SQL `things` names, by thing and then by age.
template <class Entry>
void tell(const Store& store, const char* name, const std::string& things, Row fill, const BatchSink& to) {
  to.text(std::string(Kind<Entry>::table) == "fills" ? "{\n \"" : ",\n \"");
  to.text(std::string(name) + "\": [");
  bool any = false;
  each<Entry>(
      store,
      [&](const Entry& one, bool stands) {
        const StatementJson json = to_json(one, stands);
        to.text(any ? ",\n  " : "\n  ");
        const std::string text = json.dump(1);
        to.text(set_in(text, "  "));
        to.statement(name, json, text);
        any = true;
      },
      "WHERE t.row IN (" + things + ") OR t.revises IN (" + things + ") ORDER BY coalesce(t.revises, t.row), t.row",
      fill);
  to.text(any ? "\n ]" : "]");
}

/// Things of which any statement, even a corrected one, spoke of the fill.
template <class Entry>
void tell_of_the_fill(const Store& store, Row fill, const BatchSink& to) {
  const std::string table = Kind<Entry>::table;
  const std::string series = std::same_as<Entry, Reading> ? " JOIN series AS z ON z.row = x.series" : "";
  tell<Entry>(store, Kind<Entry>::table,
              "SELECT coalesce(x.revises, x.row) FROM " + table + " AS x" + series + " WHERE fill = ?1", fill, to);
}

void tell_batch(const Store& store, const std::string& fill_id, const BatchSink& to) {
  const Row fill = thing_of(store.connection(), "fills", fill_id);
  if (fill == 0) throw InputError("fill", "= \"" + fill_id + "\" is not in the records", "name a fill that is");
  const std::string lots = "SELECT lot FROM lot_uses WHERE fill = ?1";
  tell<Fill>(store, "fills", "SELECT ?1", fill, to);
  tell<Vessel>(store, "vessels", "SELECT vessel FROM fills WHERE row = ?1 OR revises = ?1", fill, to);
  tell<Lot>(store, "lots", lots, fill, to);
  tell_of_the_fill<LotUse>(store, fill, to);
  tell_of_the_fill<Event>(store, fill, to);
  tell_of_the_fill<Reading>(store, fill, to);
  tell<LabTest>(store, "lab_tests",
                "SELECT coalesce(x.revises, x.row) FROM lab_tests AS x WHERE x.fill = ?1 OR x.lot IN (" + lots + ")",
                fill, to);
  tell_of_the_fill<Spreading>(store, fill, to);
  tell_of_the_fill<Photo>(store, fill, to);
  to.text("\n}\n");
}

/// Statements of one thing come together, oldest first: what is corrected is never further back than these.
class Corrections {
 public:
  explicit Corrections(std::vector<BatchCorrection>& found) : found_(found) {}
  void take(const char* kind, const StatementJson& one, const std::string& as_text) {
    const auto text = [&](const char* key) { return one.at(key).get<std::string>(); };
    if (text("thing") != thing_) so_far_.clear();
    thing_ = text("thing");
    const auto before = so_far_.find(text("corrects"));
    if (before != so_far_.end()) found_.push_back({kind, before->second, as_text});
    so_far_.insert_or_assign(text("id"), as_text);
  }

 private:
  std::vector<BatchCorrection>& found_;
  std::string thing_;
  std::map<std::string, std::string> so_far_;
};

}  // namespace

void write_batch_json(const Store& store, const std::string& fill_id, std::ostream& to) {
  tell_batch(
      store, fill_id,
      {[&](std::string_view text) { to << text; }, [](const char*, const StatementJson&, const std::string&) {}});
}

std::string batch_json(const Store& store, const std::string& fill_id) {
  std::ostringstream text;
  write_batch_json(store, fill_id, text);
  return std::move(text).str();
}

BatchDigest digest_batch(const Store& store, const std::string& fill_id) {
  BatchDigest digest;
  Sha256 hash;
  Corrections corrections(digest.corrections);
  tell_batch(store, fill_id,
             {[&](std::string_view text) { hash.add(text); },
              [&](const char* kind, const StatementJson& one, const std::string& text) {
                corrections.take(kind, one, text);
              }});
  digest.sha256 = hash.hex();
  return digest;
}

}  // namespace stillheap::record
