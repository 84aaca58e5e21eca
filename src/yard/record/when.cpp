#include "yard/record/when.hpp"

#include <algorithm>
#include <array>

#include "yard/record/load.hpp"
#include "yard/record/moment.hpp"

namespace stillheap::record {
namespace {

using Connection = Store::Connection;

/// A fill's beginning, and when it was taken out if it was.
struct Span {
  std::string batch;
  Instant begin{};
  std::optional<Instant> end;
};

/// `but`: an event that does not count, as it is being corrected.
std::optional<Span> span_of(Connection& connection, const std::string& fill_id, Row but) {
  const Row fill = thing_of(connection, "fills", fill_id);
  Query query(connection, "SELECT batch, filled_s FROM current_fills WHERE row = ?1 OR revises = ?1");
  query->bind(1, fill);
  if (!query->executeStep()) return std::nullopt;
  Span span{query->getColumn(0).getString(), Instant{std::chrono::seconds{query->getColumn(1).getInt64()}}, {}};
  Query end(connection, "SELECT max(at_s) FROM current_events WHERE fill = ?1 AND thing <> ?2 AND kind IN " +
                            kinds_that_end_a_fill());
  end->bind(1, fill);
  end->bind(2, but);
  if (end->executeStep() && !end->getColumn(0).isNull()) {
    span.end = Instant{std::chrono::seconds{end->getColumn(0).getInt64()}};
  }
  return span;
}

void need_after_filling(Instant at, const Span& span, const std::string& where, Problems& problems) {
  if (at >= span.begin) return;
  problems.push_back(
      {where, "= " + to_utc_text(at) + " is before batch " + span.batch + " was filled, " + to_utc_text(span.begin),
       "give the right time, or correct the fill"});
}

void need_before_end(Instant at, const Span& span, const std::string& where, Problems& problems) {
  if (!span.end || at <= *span.end) return;
  problems.push_back(
      {where, "= " + to_utc_text(at) + " is after batch " + span.batch + " was taken out, " + to_utc_text(*span.end),
       "give the right time, or the batch that is in the vessel now"});
}

/// Done to a heap in its vessel; the others may follow its end.
bool needs_a_heap(EventKind kind) {
  constexpr std::array in_vessel{EventKind::forms_out, EventKind::sprinkled, EventKind::covered,
                                 EventKind::channel_cleared, EventKind::worms_in};
  return std::find(in_vessel.begin(), in_vessel.end(), kind) != in_vessel.end();
}

void refuse_earlier(Connection& connection, const char* sql, Row fill, Instant begin, const char* what,
                    Problems& problems) {
  Query query(connection, sql);
  query->bind(1, fill);
  if (!query->executeStep() || query->getColumn(0).isNull()) return;
  const Instant first{std::chrono::seconds{query->getColumn(0).getInt64()}};
  if (first >= begin) return;
  problems.push_back({"fill: filled_s",
                      "= " + to_utc_text(begin) + " is after " + what + " of this fill, " + to_utc_text(first),
                      "give a time before it, or correct that entry first"});
}

/// What was read in a heap was read before it was taken out.
void refuse_later_readings(Connection& connection, const Event& event, const Span& span, Problems& problems) {
  Query query(connection,
              "SELECT max(r.at_s) FROM current_readings AS r JOIN series AS s ON r.series = s.row WHERE s.fill = ?1");
  query->bind(1, thing_of(connection, "fills", event.fill_id));
  if (!query->executeStep() || query->getColumn(0).isNull()) return;
  const Instant last{std::chrono::seconds{query->getColumn(0).getInt64()}};
  if (last <= event.at) return;
  problems.push_back(
      {"event: at_s",
       "= " + to_utc_text(event.at) + " is before the last reading of batch " + span.batch + ", " + to_utc_text(last),
       "give the right time, or withdraw what was read later"});
}

/// A vessel holds one heap at a time.
void refuse_overlap(Connection& connection, const Fill& fill, Row thing, Problems& problems) {
  Query query(connection,
              "SELECT t.batch, max(e.at_s) AS ended FROM current_fills AS t JOIN current_events AS e "
              "ON e.fill = t.thing AND e.kind IN " +
                  kinds_that_end_a_fill() +
                  " WHERE t.vessel = ?1 AND t.thing <> ?2 AND t.filled_s <= ?3 GROUP BY t.thing HAVING ended > ?3");
  query->bind(1, thing_of(connection, "vessels", fill.vessel_id));
  query->bind(2, thing);
  query->bind(3, static_cast<std::int64_t>(fill.filled_at.time_since_epoch().count()));
  if (!query->executeStep()) return;
  const Instant ended{std::chrono::seconds{query->getColumn(1).getInt64()}};
  problems.push_back({"fill: filled_s",
                      "= " + to_utc_text(fill.filled_at) + " is while batch " + query->getColumn(0).getString() +
                          " was in the vessel, until " + to_utc_text(ended),
                      "give a time after it"});
}

}  // namespace

void check_when(Connection& connection, const Reading& reading, Row, Problems& problems) {
  const auto span = span_of(connection, reading.fill_id, 0);
  if (!span) return;
  need_after_filling(reading.at, *span, "reading: at_s", problems);
  need_before_end(reading.at, *span, "reading: at_s", problems);
}

void check_when(Connection& connection, const Event& event, Row thing, Problems& problems) {
  const auto span = span_of(connection, event.fill_id, thing);
  if (!span) return;
  need_after_filling(event.at, *span, "event: at_s", problems);
  if (needs_a_heap(event.kind)) need_before_end(event.at, *span, "event: at_s", problems);
  if (ends_fill(event.kind)) refuse_later_readings(connection, event, *span, problems);
}

void check_when(Connection& connection, const Spreading& spreading, Row, Problems& problems) {
  const auto span = span_of(connection, spreading.fill_id, 0);
  if (span) need_after_filling(spreading.at, *span, "spreading: at_s", problems);
}

void check_when(Connection& connection, const Fill& fill, Row thing, Problems& problems) {
  refuse_overlap(connection, fill, thing, problems);
  if (thing == 0) return;
  refuse_earlier(connection,
                 "SELECT min(r.at_s) FROM current_readings AS r JOIN series AS s ON r.series = s.row WHERE s.fill = ?1",
                 thing, fill.filled_at, "a reading", problems);
  refuse_earlier(connection, "SELECT min(at_s) FROM current_events WHERE fill = ?1", thing, fill.filled_at, "an event",
                 problems);
}

}  // namespace stillheap::record
