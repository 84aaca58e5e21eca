#include "yard/record/due.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "core/json/strict.hpp"
#include "core/quantity/rounding.hpp"
#include "domain/rules/planned_work.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::record {
namespace {

using std::chrono::seconds;

constexpr double day_s = 86400.0;

seconds days_long(double days) { return seconds{std::llround(days * day_s)}; }

std::string days_text(double days) { return quantity::to_text(days, 3) + (days == 1.0 ? " day" : " days"); }

std::string when_text(Instant at, const std::string& zone) { return to_local_text(at, zone).substr(0, 16); }

std::optional<Instant> last_event(const VesselGlance& glance, EventKind kind) {
  const auto found = glance.events.find(kind);
  if (found == glance.events.end()) return std::nullopt;
  return found->second.at;
}

Due due_of(DueKind kind, const VesselGlance& glance, std::string what, std::string why, Instant since) {
  return {kind, glance.vessel.name, glance.fill->mark.thing, std::move(what), std::move(why), since, {}};
}

void add_forms(std::vector<Due>& list, const VesselGlance& glance, Instant at, const std::string& zone,
               const Rhythm& rhythm) {
  if (last_event(glance, EventKind::forms_out)) return;
  const Instant since = glance.fill->filled_at + days_long(rhythm.forms_out_after_h / 24.0);
  if (at < since) return;
  list.push_back(due_of(DueKind::forms_out, glance, "take the forms out",
                        "filled " + when_text(glance.fill->filled_at, zone) + ", no note that they are out", since));
}

/// By the calendar, not by 24 hours: one who sprinkles at eight and at seven the next day is not late.
void add_sprinkling(std::vector<Due>& list, const VesselGlance& glance, Instant at, const std::string& zone,
                    const Rhythm& rhythm) {
  const std::optional<Instant> last = last_event(glance, EventKind::sprinkled);
  const Instant from = last.value_or(glance.fill->filled_at);
  const auto days_since = static_cast<double>((local_day(at, zone) - local_day(from, zone)).count());
  if (days_since < 1.0) return;  // nothing is put on twice a day: what the programme says need not be asked for
  const std::optional<WaterAsked> asked =
      rhythm.water ? rhythm.water(glance, local_day(at, zone)) : std::optional<WaterAsked>{};
  const double every_days = asked ? asked->every_days : rhythm.sprinkle_every_days;
  if (every_days <= 0.0) return;
  if (days_since < every_days) return;
  list.push_back(due_of(DueKind::sprinkle, glance, asked ? asked->what : "sprinkle",
                        (last ? "last sprinkled " : "not sprinkled since filling ") + when_text(from, zone) + "; " +
                            (asked ? asked->rule : "every " + days_text(every_days)),
                        from + days_long(every_days)));
}

/// A fill that was never read is due at once: nobody can say how it stands.
void add_reading(std::vector<Due>& list, const VesselGlance& glance, Instant at, const std::string& zone,
                 const Rhythm& rhythm) {
  Instant last = glance.fill->filled_at;
  bool any = false;
  for (const Reading& one : glance.last) {
    if (one.measure != Measure::temperature) continue;
    any = true;
    last = std::max(last, one.at);
  }
  const bool young = at - glance.fill->filled_at < days_long(rhythm.young_days);
  const double every_days = young ? rhythm.reading_every_days : rhythm.old_reading_every_days;
  const auto days_since = static_cast<double>((local_day(at, zone) - local_day(last, zone)).count());
  if (any && days_since < every_days) return;
  list.push_back(due_of(DueKind::reading, glance, "read the temperatures",
                        (any ? "last read " : "not read since filling ") + when_text(last, zone) + "; every " +
                            days_text(every_days) + (young ? " while young" : ""),
                        any ? last + days_long(every_days) : last));
}

/// Whether this vessel's record shows the work, at the earliest `from`. A fill that was ended has left nothing to
/// harvest.
bool shows(const VesselGlance& glance, rules::DoneBy work, Instant from) {
  const auto since = [&](EventKind kind) {
    const std::optional<Instant> at = last_event(glance, kind);
    return at && *at >= from;
  };
  switch (work) {
    case rules::DoneBy::filling:
      return glance.fill && glance.fill->filled_at >= from;
    case rules::DoneBy::forms_out:
      return since(EventKind::forms_out);
    case rules::DoneBy::sprinkled:
      return since(EventKind::sprinkled);
    case rules::DoneBy::reading:
      return std::any_of(glance.last.begin(), glance.last.end(), [&](const Reading& one) { return one.at >= from; });
    case rules::DoneBy::worms_in:
      return since(EventKind::worms_in);
    case rules::DoneBy::harvested:
      return std::any_of(event_kinds().begin(), event_kinds().end(),
                         [&](const EventInfo& one) { return ends_fill(one.kind) && since(one.kind); });
  }
  return false;
}

/// A planned day is done when every vessel that is meant shows it: those of the day's design or name; of a day for the
/// whole yard any one will do, as ground that was levelled and stock that was bought serve all.
bool is_done(const DueDay& day, date::Day first, const std::vector<VesselGlance>& yard, const Rhythm& rhythm) {
  const std::optional<rules::PlannedWork> work = rules::planned_work(day.what);
  if (!work) return false;
  const Instant from = Instant{first} - days_long(rhythm.done_ahead_days);
  const auto shown = [&](const VesselGlance& glance) { return shows(glance, work->done_by, from); };
  if (day.vessel.empty()) return std::any_of(yard.begin(), yard.end(), shown);
  bool any = false;
  for (const VesselGlance& glance : yard) {
    if (glance.vessel.design != day.vessel && glance.vessel.name != day.vessel) continue;
    if (!shown(glance)) return false;
    any = true;
  }
  return any;
}

void add_planned(std::vector<Due>& list, const DueDay& day, const std::vector<VesselGlance>& yard, Instant at,
                 const std::string& zone, const Rhythm& rhythm) {
  const auto first = date::parse_iso(day.date);
  if (!first) return;
  const date::Day last = date::parse_iso(day.latest_date).value_or(*first);
  const date::Day today = local_day(at, zone);
  const std::chrono::days shown{std::lround(rhythm.planned_shown_days)};
  if (today < *first - shown || today > last + shown) return;
  if (is_done(day, *first, yard, rhythm)) return;
  const std::string span = day.date + (day.latest_date.empty() ? "" : " to " + day.latest_date);
  list.push_back({DueKind::planned,
                  day.vessel,
                  {},
                  day.what,
                  "planned for " + span,
                  Instant{*first},
                  day.mark.id,
                  today < *first});
}

/// A UUID of version 8 (RFC 9562: free content) out of a hash.
std::string id_from(const std::string& content) {
  std::string hex = sha256_hex(content).substr(0, 32);
  hex[12] = '8';
  hex[16] = 'a';
  for (const std::size_t at : {8U, 13U, 18U, 23U}) hex.insert(at, "-");
  return hex;
}

}  // namespace

Assumptions assumptions_of(const Rhythm& rhythm) {
  return {{"due: forms out", "after " + quantity::to_text(rhythm.forms_out_after_h, 3) + " h", "chosen"},
          rhythm.water ? Assumption{"due: sprinkling",
                                    "by the site's water programme; every " + days_text(rhythm.sprinkle_every_days) +
                                        " where there is none",
                                    "forecast of the site; common practice, no source"}
                       : Assumption{"due: sprinkling", "every " + days_text(rhythm.sprinkle_every_days),
                                    "common practice, no source"},
          {"due: readings",
           "the first at filling, then every " + days_text(rhythm.reading_every_days) + " for the first " +
               days_text(rhythm.young_days) + ", then every " + days_text(rhythm.old_reading_every_days),
           "chosen"}};
}

std::vector<Due> due_list(const std::vector<VesselGlance>& yard, const std::vector<DueDay>& planned, Instant at,
                          const std::string& zone, const Rhythm& rhythm) {
  std::vector<Due> list;
  for (const VesselGlance& glance : yard) {
    if (!glance.fill) continue;
    add_forms(list, glance, at, zone, rhythm);
    add_sprinkling(list, glance, at, zone, rhythm);
    add_reading(list, glance, at, zone, rhythm);
  }
  for (const DueDay& day : planned) add_planned(list, day, yard, at, zone, rhythm);
  std::stable_sort(list.begin(), list.end(), [](const Due& a, const Due& b) { return a.since < b.since; });
  return list;
}

bool is_of_plan(const DueDay& day) {
  constexpr std::size_t version_at = 14;
  return day.mark.thing.size() > version_at && day.mark.thing[version_at] == '8';
}

std::vector<DueDay> due_days_of_plan(std::string_view plan_json, const EntryMetadata& mark) {
  using nlohmann::json;
  constexpr std::size_t most_values = 1000000;  // chosen: plans of large yards
  strict_json::check(plan_json, "plan", "give the plan.json that plan wrote", {.most_values = most_values});
  std::vector<DueDay> days;
  try {
    const json plan = json::parse(plan_json);
    for (const json& line : plan.at("calendar")) {
      DueDay day;
      day.mark = mark;
      day.vessel = line.at("vessel").get<std::string>();
      day.date = line.at("date").get<std::string>();
      day.latest_date = line.at("latest_date").get<std::string>();
      day.what = line.at("what").get<std::string>();
      day.mark.id = id_from(day.vessel + '\n' + day.date + '\n' + day.latest_date + '\n' + day.what);
      days.push_back(std::move(day));
    }
  } catch (const json::exception& error) {
    throw InputError("plan", std::string("is no plan.json: ") + error.what(), "give the plan.json that plan wrote");
  }
  return days;
}

}  // namespace stillheap::record
