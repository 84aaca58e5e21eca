#include "model/forecast/runner.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "model/forecast/fields.hpp"

namespace stillheap::forecast {
namespace {

using constant::seconds_per_day;

constexpr double hot_c = 55.0;
constexpr double largest_balance_error = 1e-6;

/// Days of an animation's frames: every 6 hours for ten days, then every day, from day 60 on every third. Chosen, so
/// that the hot phase is not over in the blink of an eye. A frame is taken at the first end of a step from then on: no
/// step is cut short for it, and the numbers are the same with and without an animation.
std::vector<double> frame_days(const TrackWish& wish, int days) {
  std::vector<double> list;
  if (!wish.frames) return list;
  const double first_gap = std::max(0.25, wish.history_every_s / seconds_per_day);
  double day = first_gap;
  while (day <= days) {
    list.push_back(day);
    day += day < 10.0 ? first_gap : day < 60.0 ? 1.0 : 3.0;
  }
  return list;
}

void run_clocks(const Heap& heap, const State& state, double dt_s, HotClock& clock) {
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
    if (state.temperature_c[i] >= hot_c) {
      clock.total_s[i] += dt_s;
      clock.in_a_row_s[i] += dt_s;
      clock.longest_s[i] = std::max(clock.longest_s[i], clock.in_a_row_s[i]);
    } else {
      clock.in_a_row_s[i] = 0.0;
    }
  }
}

/// Every account in the amounts of the full vessel.
Balances whole(const Balances& part, double copies) {
  Balances all = part;
  for (Balance* a : {&all.solids, &all.oxygen, &all.water, &all.energy, &all.salt, &all.dry_air})
    for (double* v : {&a->in, &a->out, &a->made, &a->stored, &a->held}) *v *= copies;
  for (double* v : {&all.evaporated_kg, &all.drained_kg, &all.sprinkled_kg, &all.rain_kg, &all.water_made_kg,
                    &all.salt_leached_kg, &all.oxygen_used_kg})
    *v *= copies;
  return all;
}

void note_extremes(const Diagnostics& now, double day, double dt_s, RunHistory& track) {
  if (now.hottest_c > track.peak_c) track.peak_c = now.hottest_c, track.peak_day = day, track.peak_cell = now.hottest;
  if (now.lowest_oxygen < track.lowest_oxygen)
    track.lowest_oxygen = now.lowest_oxygen, track.lowest_oxygen_day = day, track.lowest_oxygen_cell = now.airless;
  track.most_mass_below_5 = std::max(track.most_mass_below_5, now.share_below_5);
  if (now.lowest_oxygen < low_oxygen) track.days_any_below_5 += dt_s / seconds_per_day;
  track.driest = std::min(track.driest, now.driest);
  track.wettest = std::max(track.wettest, now.wettest);
}

HistoryRow row_of(const Heap& heap, const Stepper& stepper, const Diagnostics& now, const Balances& since,
                  double span_s) {
  const double copies = heap.heap_mesh.plan.sector.copies();
  const Balances& balances = stepper.balances();
  const double per_day = copies * seconds_per_day / span_s;
  HistoryRow row;
  row.day = stepper.state().time_s / seconds_per_day;
  row.outside_c = weather_at(heap.request, stepper.state().time_s).air_c;
  row.mean_c = now.mean_c;
  row.core_c = now.core_c;
  row.hottest_c = now.hottest_c;
  row.coldest_c = now.coldest_c;
  row.lowest_oxygen = now.lowest_oxygen;
  row.mean_oxygen = now.mean_oxygen;
  row.mean_moisture_wet = now.water_kg / (now.water_kg + now.dry_kg);
  row.dry_mass_kg = copies * now.dry_kg;
  for (const double h : stepper.state().layer_height_m) row.height_m += h;
  row.uptake_kg_s = copies * (balances.oxygen_used_kg - since.oxygen_used_kg) / span_s;
  row.evaporated_kg_day = per_day * (balances.evaporated_kg - since.evaporated_kg);
  row.drained_kg_day = per_day * (balances.drained_kg - since.drained_kg);
  row.sprinkled_kg_day = per_day * (balances.sprinkled_kg - since.sprinkled_kg);
  row.rain_kg_day = per_day * (balances.rain_kg - since.rain_kg);
  row.water_made_kg_day = per_day * (balances.water_made_kg - since.water_made_kg);
  return row;
}

void add_to_months(int month, const Balances& now, const Balances& before, double dt_s, Months& months) {
  months.span_s[month] += dt_s;
  months.evaporated_kg[month] += now.evaporated_kg - before.evaporated_kg - (now.water_made_kg - before.water_made_kg);
  months.drained_kg[month] += now.drained_kg - before.drained_kg;
  months.salt_kg[month] += now.salt_leached_kg - before.salt_leached_kg;
}

void finish_months(const Months& months, double copies, RunHistory& track) {
  for (std::size_t m = 0; m < 12; ++m) {
    if (months.span_s[m] <= 0.0) continue;
    track.evaporated_kg_s[m] = copies * months.evaporated_kg[m] / months.span_s[m];
    track.drained_kg_s[m] = copies * months.drained_kg[m] / months.span_s[m];
    track.salt_out_kg_s[m] = copies * months.salt_kg[m] / months.span_s[m];
  }
}

/// Share of the pools that is still there; 0 for a blend that has none.
double degradable_left(const Heap& heap, const State& state) {
  const double mass = std::accumulate(heap.first_dry_kg.begin(), heap.first_dry_kg.end(), 0.0);
  double now_kg = 0.0;
  double first_kg = 0.0;
  for (std::size_t p = 0; p < pools; ++p) {
    now_kg += std::accumulate(state.pool_kg[p].begin(), state.pool_kg[p].end(), 0.0);
    first_kg += heap.request.blend.pool_dry[p] * mass;
  }
  return first_kg > 0.0 ? now_kg / first_kg : 0.0;
}

void finish(const Heap& heap, const Stepper& stepper, const HotClock& clock, const Diagnostics& now,
            RunHistory& track) {
  const double copies = heap.heap_mesh.plan.sector.copies();
  const double mass = std::accumulate(heap.first_dry_kg.begin(), heap.first_dry_kg.end(), 0.0);
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
    track.days_above_55 += heap.first_dry_kg[i] / mass * clock.total_s[i] / seconds_per_day;
    if (clock.longest_s[i] >= 3.0 * seconds_per_day) track.share_3_days += heap.first_dry_kg[i] / mass;
  }
  const State& state = stepper.state();
  const double first_salt = stepper.memory().first.salt_kg;
  const double salt = std::accumulate(state.salt_kg.begin(), state.salt_kg.end(), 0.0);
  const double height = std::accumulate(state.layer_height_m.begin(), state.layer_height_m.end(), 0.0);
  track.degradable_left = degradable_left(heap, state);
  track.solids_lost = 1.0 - now.dry_kg / mass;
  track.height_lost = 1.0 - height / heap.request.design.fill_height_m;
  track.finished_kg = copies * (now.dry_kg + now.water_kg);
  track.finished_m3 = vessel::material_area_m2(heap.request.design) * height;
  track.salt_ratio = first_salt > 0.0 ? salt / now.dry_kg / (first_salt / mass) : 0.0;
  track.moisture_end = now.water_kg / (now.dry_kg + now.water_kg);
  track.balances = whole(stepper.balances(), copies);
  track.first_salt_kg = copies * first_salt;
  track.steps = stepper.steps();
}

void check_balances(const Balances& balances, double day) {
  const std::array<std::pair<const char*, const Balance*>, 6> accounts{{{"solids", &balances.solids},
                                                                        {"oxygen", &balances.oxygen},
                                                                        {"water", &balances.water},
                                                                        {"energy", &balances.energy},
                                                                        {"dry air", &balances.dry_air},
                                                                        {"salt", &balances.salt}}};
  for (const auto& [name, account] : accounts) {
    if (account->error() > largest_balance_error) {
      throw RunError("forecast",
                     std::string("the balance of ") + name + " is off by " + std::to_string(account->error()) +
                         " of what moved on day " + std::to_string(day),
                     "this is a fault of the program; please report it with the site file");
    }
  }
}

}  // namespace

Runner::Runner(const Heap& heap, const StepRule& rule, const TrackWish& wish)
    : heap_(heap),
      rule_(rule),
      wish_(wish),
      core_(core_cells(heap)),
      frame_days_(frame_days(wish, heap.request.days)),
      stepper_(heap, rule) {
  for (auto* v : {&walk_.clock.total_s, &walk_.clock.in_a_row_s, &walk_.clock.longest_s})
    v->assign(heap.heap_mesh.cells(), 0.0);
  walk_.at_row = stepper_.balances();
  walk_.next_row_s = wish.history_every_s;
  walk_.track.history.push_back(row_of(heap_, stepper_, diagnose(heap_, stepper_.state(), core_), walk_.at_row, 1.0));
}

Runner::Runner(const Heap& heap, const StepRule& rule, const TrackWish& wish, RunState begun)
    : heap_(heap),
      rule_(rule),
      wish_(wish),
      core_(core_cells(heap)),
      frame_days_(frame_days(wish, heap.request.days)),
      stepper_(heap, rule, std::move(begun.stepper)),
      walk_(std::move(begun)) {}

double Runner::end_s() const noexcept { return heap_.request.days * seconds_per_day; }

double Runner::share() const noexcept { return stepper_.state().time_s / end_s(); }

bool Runner::ended() const noexcept { return walk_.track.stopped || stepper_.state().time_s >= end_s() - 1e-6; }

bool Runner::wants_snapshot() const noexcept {
  return wish_.snapshots && walk_.next_snapshot < static_cast<int>(heap_.request.picture_days.size());
}

double Runner::next_stop_s() const noexcept {
  const double stop_s = std::min(walk_.next_row_s, end_s());
  return wants_snapshot() ? std::min(stop_s, heap_.request.picture_days[walk_.next_snapshot] * seconds_per_day)
                          : stop_s;
}

void Runner::step() {
  const double start_s = stepper_.state().time_s;
  const Balances before = stepper_.balances();
  try {
    stepper_.step(std::max(next_stop_s() - start_s, rule_.least_s));
  } catch (const RunError& error) {
    walk_.track.stopped = error.what();
    return;
  }
  note_step(start_s, before);
}

void Runner::note_step(double start_s, const Balances& before) {
  const double time_s = stepper_.state().time_s;
  const double dt_s = time_s - start_s;
  const Diagnostics now = diagnose(heap_, stepper_.state(), core_);
  note_extremes(now, time_s / seconds_per_day, dt_s, walk_.track);
  run_clocks(heap_, stepper_.state(), dt_s, walk_.clock);
  add_to_months(month_at(heap_.request, start_s), stepper_.balances(), before, dt_s, walk_.months);
  const double uptake = (stepper_.balances().oxygen_used_kg - before.oxygen_used_kg) / dt_s;
  walk_.track.peak_uptake_g_kg_h = std::max(walk_.track.peak_uptake_g_kg_h, uptake * 3.6e6 / now.volatile_kg);
  if (time_s >= walk_.next_row_s - 1.0) {
    walk_.track.history.push_back(row_of(heap_, stepper_, now, walk_.at_row, time_s - walk_.row_s));
    walk_.at_row = stepper_.balances();
    walk_.row_s = time_s;
    walk_.next_row_s += wish_.history_every_s;
    check_balances(stepper_.balances(), time_s / seconds_per_day);
  }
  keep_fields();
}

void Runner::keep_fields() {
  const double time_s = stepper_.state().time_s;
  if (wants_snapshot() && time_s >= heap_.request.picture_days[walk_.next_snapshot] * seconds_per_day - 1.0) {
    walk_.track.snapshots.push_back(take_snapshot(heap_, stepper_.state()));
    ++walk_.next_snapshot;
  }
  const int frames = static_cast<int>(frame_days_.size());
  if (walk_.next_frame >= frames || time_s < frame_days_[walk_.next_frame] * seconds_per_day - 1.0) return;
  walk_.track.frames.push_back(take_snapshot(heap_, stepper_.state()));
  while (walk_.next_frame < frames && frame_days_[walk_.next_frame] * seconds_per_day - 1.0 <= time_s)
    ++walk_.next_frame;
}

RunState Runner::walk() const {
  RunState copy = walk_;
  copy.stepper = stepper_.memory();
  return copy;
}

RunHistory Runner::track() const {
  RunHistory track = walk_.track;
  finish_months(walk_.months, heap_.heap_mesh.plan.sector.copies(), track);
  finish(heap_, stepper_, walk_.clock, diagnose(heap_, stepper_.state(), core_), track);
  return track;
}

}  // namespace stillheap::forecast
