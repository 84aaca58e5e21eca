#include "forecast/track.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/constants.hpp"
#include "base/error.hpp"
#include "forecast/fields.hpp"
#include "physics/gas.hpp"

namespace stillheap::forecast {
namespace {

using constant::seconds_per_day;

constexpr double hot_c = 55.0;
constexpr double low_oxygen = 0.05;
constexpr double largest_balance_error = 1e-6;

/// Days on which fields are kept.
constexpr std::array<double, 20> snapshot_days{0.5, 1,  2,  3,   5,   7,   10,  14,  21,  28,
                                               42,  60, 90, 120, 180, 240, 300, 365, 450, 540};

/// Per-cell clocks above 55 degC.
struct HotClock {
  std::vector<double> total_s, in_a_row_s, longest_s;
};

/// Heap-wide numbers at one moment.
struct Moment {
  double mean_c = 0.0, core_c = 0.0, hottest_c = -300.0, coldest_c = 300.0;
  int hottest = 0, airless = 0;
  double lowest_oxygen = 1.0, mean_oxygen = 0.0, share_below_5 = 0.0;
  double driest = 1.0, wettest = 0.0, water_kg = 0.0, dry_kg = 0.0, volatile_kg = 0.0;
};

Moment look_at(const Heap& heap, const State& state, const std::vector<int>& core) {
  Moment now;
  double mass = 0.0;
  for (int i = 0; i < heap.lattice.cells(); ++i) {
    const double weight = heap.first_dry_kg[i];
    const double dry = dry_kg(heap, state, i);
    const double celsius = state.temperature_c[i];
    const double oxygen = physics::oxygen_share(state.oxygen_ratio[i]);
    const double moisture = state.water_kg[i] / (state.water_kg[i] + dry);
    mass += weight;
    now.mean_c += weight * celsius;
    now.mean_oxygen += weight * oxygen;
    now.share_below_5 += oxygen < low_oxygen ? weight : 0.0;
    if (celsius > now.hottest_c) now.hottest_c = celsius, now.hottest = i;
    now.coldest_c = std::min(now.coldest_c, celsius);
    if (oxygen < now.lowest_oxygen) now.lowest_oxygen = oxygen, now.airless = i;
    now.driest = std::min(now.driest, moisture);
    now.wettest = std::max(now.wettest, moisture);
    now.water_kg += state.water_kg[i];
    now.dry_kg += dry;
    now.volatile_kg += dry - heap.ash_kg[i];
  }
  now.mean_c /= mass;
  now.mean_oxygen /= mass;
  now.share_below_5 /= mass;
  for (const int i : core) now.core_c += state.temperature_c[i] / static_cast<double>(core.size());
  return now;
}

void run_clocks(const Heap& heap, const State& state, double dt_s, HotClock& clock) {
  for (int i = 0; i < heap.lattice.cells(); ++i) {
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
Ledger whole(const Ledger& part, double copies) {
  Ledger all = part;
  for (Account* a : {&all.solids, &all.oxygen, &all.water, &all.energy, &all.salt, &all.dry_air})
    for (double* v : {&a->in, &a->out, &a->made, &a->stored}) *v *= copies;
  for (double* v : {&all.evaporated_kg, &all.drained_kg, &all.sprinkled_kg, &all.rain_kg, &all.water_made_kg,
                    &all.salt_leached_kg, &all.oxygen_used_kg})
    *v *= copies;
  return all;
}

void note_extremes(const Moment& now, double day, double dt_s, Track& track) {
  if (now.hottest_c > track.peak_c) track.peak_c = now.hottest_c, track.peak_day = day, track.peak_cell = now.hottest;
  if (now.lowest_oxygen < track.lowest_oxygen)
    track.lowest_oxygen = now.lowest_oxygen, track.lowest_oxygen_day = day, track.lowest_oxygen_cell = now.airless;
  track.most_mass_below_5 = std::max(track.most_mass_below_5, now.share_below_5);
  if (now.lowest_oxygen < low_oxygen) track.days_any_below_5 += dt_s / seconds_per_day;
  track.driest = std::min(track.driest, now.driest);
  track.wettest = std::max(track.wettest, now.wettest);
  if (now.core_c >= worm_c) track.last_warm_day = day;
  // A heap that never warmed has nothing to cool from.
  track.cool_at_end = track.last_warm_day > 0.0 && now.core_c < worm_c;
}

HistoryRow row_of(const Heap& heap, const Stepper& stepper, const Moment& now, const Ledger& since, double span_s) {
  const double copies = heap.lattice.plan.sector.copies();
  const Ledger& ledger = stepper.ledger();
  const double per_day = copies * seconds_per_day / span_s;
  HistoryRow row;
  row.day = stepper.state().time_s / seconds_per_day;
  row.outside_c = weather_at(heap.request, stepper.state().time_s).air_c;
  row.mean_c = now.mean_c;
  row.core_c = row.core_low_c = row.core_high_c = now.core_c;
  row.hottest_c = now.hottest_c;
  row.coldest_c = now.coldest_c;
  row.lowest_oxygen = now.lowest_oxygen;
  row.mean_oxygen = now.mean_oxygen;
  row.mean_moisture_wet = row.moisture_low_wet = row.moisture_high_wet = now.water_kg / (now.water_kg + now.dry_kg);
  row.dry_mass_kg = copies * now.dry_kg;
  for (const double h : stepper.state().layer_height_m) row.height_m += h;
  row.uptake_kg_s = copies * (ledger.oxygen_used_kg - since.oxygen_used_kg) / span_s;
  row.evaporated_kg_day = per_day * (ledger.evaporated_kg - since.evaporated_kg);
  row.drained_kg_day = per_day * (ledger.drained_kg - since.drained_kg);
  row.sprinkled_kg_day = per_day * (ledger.sprinkled_kg - since.sprinkled_kg);
  return row;
}

/// Sums by calendar month, turned into means at the end.
struct Months {
  std::array<double, 12> span_s{}, evaporated_kg{}, drained_kg{}, salt_kg{};

  void add(int month, const Ledger& now, const Ledger& before, double dt_s) {
    span_s[month] += dt_s;
    evaporated_kg[month] += now.evaporated_kg - before.evaporated_kg - (now.water_made_kg - before.water_made_kg);
    drained_kg[month] += now.drained_kg - before.drained_kg;
    salt_kg[month] += now.salt_leached_kg - before.salt_leached_kg;
  }
  void finish(double copies, Track& track) const {
    for (std::size_t m = 0; m < 12; ++m) {
      if (span_s[m] <= 0.0) continue;
      track.evaporated_kg_s[m] = copies * evaporated_kg[m] / span_s[m];
      track.drained_kg_s[m] = copies * drained_kg[m] / span_s[m];
      track.salt_out_kg_s[m] = copies * salt_kg[m] / span_s[m];
    }
  }
};

void finish(const Heap& heap, const Stepper& stepper, const HotClock& clock, const Moment& now, Track& track) {
  const double copies = heap.lattice.plan.sector.copies();
  const double mass = std::accumulate(heap.first_dry_kg.begin(), heap.first_dry_kg.end(), 0.0);
  for (int i = 0; i < heap.lattice.cells(); ++i) {
    track.days_above_55 += heap.first_dry_kg[i] / mass * clock.total_s[i] / seconds_per_day;
    if (clock.longest_s[i] >= 3.0 * seconds_per_day) track.share_3_days += heap.first_dry_kg[i] / mass;
  }
  const State& state = stepper.state();
  const double first_salt = mass * heap.request.blend.conductivity_s_m * heap.parameters.salt_per_conductivity;
  const double salt = std::accumulate(state.salt_kg.begin(), state.salt_kg.end(), 0.0);
  const double height = std::accumulate(state.layer_height_m.begin(), state.layer_height_m.end(), 0.0);
  track.solids_lost = 1.0 - now.dry_kg / mass;
  track.height_lost = 1.0 - height / heap.request.design.fill_height_m;
  track.finished_kg = copies * (now.dry_kg + now.water_kg);
  track.finished_m3 = vessel::material_area_m2(heap.request.design) * height;
  track.salt_ratio = first_salt > 0.0 ? salt / now.dry_kg / (first_salt / mass) : 0.0;
  track.moisture_end = now.water_kg / (now.dry_kg + now.water_kg);
  track.ledger = whole(stepper.ledger(), copies);
  track.first_salt_kg = copies * first_salt;
  track.ledger.salt.stored = copies * (salt - first_salt);
  track.steps = stepper.steps();
}

void check_balances(const Ledger& ledger, double day) {
  const std::array<std::pair<const char*, const Account*>, 4> accounts{
      {{"solids", &ledger.solids}, {"oxygen", &ledger.oxygen}, {"water", &ledger.water}, {"energy", &ledger.energy}}};
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

std::vector<int> core_cells(const Heap& heap) {
  std::vector<int> order(heap.lattice.cells());
  std::iota(order.begin(), order.end(), 0);
  const auto& distance = heap.lattice.air_distance_m;
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return distance[a] > distance[b]; });
  const double total = std::accumulate(heap.first_dry_kg.begin(), heap.first_dry_kg.end(), 0.0);
  double sum = 0.0;
  std::size_t count = 0;
  while (count < order.size() && sum < 0.1 * total) sum += heap.first_dry_kg[order[count++]];
  order.resize(count);
  return order;
}

Track follow(const Heap& heap, const StepRule& rule, const TrackWish& wish,
             const std::function<bool(double)>& keep_on) {
  Track track;
  Stepper stepper(heap, rule);
  const double end_s = heap.request.days * seconds_per_day;
  const std::vector<int> core = core_cells(heap);
  HotClock clock;
  for (auto* v : {&clock.total_s, &clock.in_a_row_s, &clock.longest_s}) v->assign(heap.lattice.cells(), 0.0);
  Months months;
  Ledger before = stepper.ledger(), at_row = before;
  double row_s = 0.0, next_row_s = wish.history_every_s;
  std::size_t next_snapshot = 0;
  Moment now = look_at(heap, stepper.state(), core);
  track.history.push_back(row_of(heap, stepper, now, at_row, 1.0));
  while (stepper.state().time_s < end_s - 1e-6) {
    const double start_s = stepper.state().time_s;
    double stop_s = std::min(next_row_s, end_s);
    if (wish.snapshots && next_snapshot < snapshot_days.size())
      stop_s = std::min(stop_s, snapshot_days[next_snapshot] * seconds_per_day);
    try {
      stepper.step(std::max(stop_s - start_s, rule.least_s));
    } catch (const RunError& error) {
      track.stopped = error.what();
      break;
    }
    const double time_s = stepper.state().time_s;
    const double dt_s = time_s - start_s;
    now = look_at(heap, stepper.state(), core);
    note_extremes(now, time_s / seconds_per_day, dt_s, track);
    run_clocks(heap, stepper.state(), dt_s, clock);
    months.add(month_at(heap.request, start_s), stepper.ledger(), before, dt_s);
    const double uptake = (stepper.ledger().oxygen_used_kg - before.oxygen_used_kg) / dt_s;
    track.peak_uptake_g_kg_h = std::max(track.peak_uptake_g_kg_h, uptake * 3.6e6 / now.volatile_kg);
    before = stepper.ledger();
    if (time_s >= next_row_s - 1.0) {
      track.history.push_back(row_of(heap, stepper, now, at_row, time_s - row_s));
      at_row = stepper.ledger();
      row_s = time_s;
      next_row_s += wish.history_every_s;
      check_balances(stepper.ledger(), time_s / seconds_per_day);
    }
    if (wish.snapshots && next_snapshot < snapshot_days.size() &&
        time_s >= snapshot_days[next_snapshot] * seconds_per_day - 1.0) {
      track.snapshots.push_back(take_snapshot(heap, stepper.state()));
      ++next_snapshot;
    }
    if (!keep_on(time_s / end_s)) {
      track.stopped = "stopped by the user";
      break;
    }
  }
  months.finish(heap.lattice.plan.sector.copies(), track);
  finish(heap, stepper, clock, now, track);
  return track;
}

}  // namespace stillheap::forecast
