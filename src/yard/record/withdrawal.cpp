#include <array>

#include "yard/record/doubt_amounts.hpp"
#include "yard/record/entity.hpp"
#include "yard/record/load.hpp"

namespace stillheap::record {
namespace {

/// What would be hidden, and the SQL that counts it for the row of the thing that is taken back.
struct Hidden {
  const char* of;  ///< table of what is taken back
  const char* one;
  const char* several;
  const char* count;
};

constexpr std::array hidden{
    Hidden{"vessels", "fill", "fills", "SELECT count(*) FROM current_fills WHERE vessel = ?1"},
    Hidden{"vessels", "reading", "readings",
           "SELECT count(*) FROM current_readings AS r JOIN series AS s ON r.series = s.row WHERE s.fill IN "
           "(SELECT thing FROM current_fills WHERE vessel = ?1)"},
    Hidden{"vessels", "event", "events",
           "SELECT count(*) FROM current_events WHERE fill IN (SELECT thing FROM current_fills WHERE vessel = ?1)"},
    Hidden{"fills", "reading", "readings",
           "SELECT count(*) FROM current_readings AS r JOIN series AS s ON r.series = s.row WHERE s.fill = ?1"},
    Hidden{"fills", "event", "events", "SELECT count(*) FROM current_events WHERE fill = ?1"},
    Hidden{"fills", "use of a lot", "uses of lots", "SELECT count(*) FROM current_lot_uses WHERE fill = ?1"},
    Hidden{"fills", "laboratory test", "laboratory tests", "SELECT count(*) FROM current_lab_tests WHERE fill = ?1"},
    Hidden{"fills", "spreading", "spreadings", "SELECT count(*) FROM current_spreadings WHERE fill = ?1"},
    Hidden{"fills", "photo", "photos", "SELECT count(*) FROM current_photos WHERE fill = ?1"},
    Hidden{"lots", "use in a fill", "uses in fills", "SELECT count(*) FROM current_lot_uses WHERE lot = ?1"},
    Hidden{"lots", "laboratory test", "laboratory tests", "SELECT count(*) FROM current_lab_tests WHERE lot = ?1"}};

}  // namespace

Doubts withdrawal_doubts(const Store& store, const std::string& id) {
  const std::optional<std::string> table = kind_of(store, id);
  if (!table) return {};  // refused by name when it is to be stored
  return guarded(store.file(), [&]() -> Doubts {
    std::string text;
    for (const Hidden& one : hidden) {
      if (*table != one.of) continue;
      Query query(store.connection(), one.count);
      query->bind(1, thing_of(store.connection(), one.of, id));
      (void)query->executeStep();
      const auto count = query->getColumn(0).getInt64();
      if (count == 0) continue;
      text += (text.empty() ? "" : ", ") + std::to_string(count) + ' ' + (count == 1 ? one.one : one.several);
    }
    if (text.empty()) return {};
    const std::string word = table->substr(0, table->size() - 1);
    return {{word, "has " + text + ", which no list shows any more once it is withdrawn",
             "withdraw or correct those first; if all of it is to go, say that you are sure"}};
  });
}

}  // namespace stillheap::record
