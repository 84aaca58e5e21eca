#include "model/forecast/stepper.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

using constant::seconds_per_day;

// Automatic sprinkling makes up the loss of the last days and a tenth of the shortfall a day. Chosen.
constexpr double loss_memory_s = 3.0 * seconds_per_day;
constexpr double refill_s = 10.0 * seconds_per_day;
// A single cell may be off by ten times what the whole may. Chosen.
constexpr double worst_cell_share = 0.1;

std::vector<double> no_trend(const Heap& heap) {
  return std::vector<double>(static_cast<std::size_t>(heap.heap_mesh.nodes()));
}

StepperMemory first_memory(const Heap& heap) {
  StepperMemory memory{.state = first_state(heap), .first = {}, .balances = {}, .trend_k_s = no_trend(heap)};
  memory.first = totals_of(heap, memory.state, {});
  return memory;
}

double open_top_m2(const vessel::Design& design) { return vessel::footprint_area_m2(design); }

}  // namespace

StepRule step_rule(Grid grid) noexcept {
  switch (grid) {
    case Grid::draft:
      return {1.0, seconds_per_day, 0.6};
    case Grid::standard:
    case Grid::fine:  // somewhat shorter steps gained it nothing: decision 0003
      return {1.0, 2.0 * 3600.0, 0.25};
  }
  return {};
}

double scheduled_kg(const Sprinkling& sprinkling, double from_s, double to_s) noexcept {
  double sum_kg = 0.0;
  const auto days = static_cast<double>(sprinkling.kg_by_day.size());
  for (double day = std::floor(from_s / seconds_per_day); day < days && day * seconds_per_day < to_s; ++day) {
    const double begin_s = std::max(from_s, day * seconds_per_day);
    const double end_s = std::min(to_s, (day + 1.0) * seconds_per_day);
    sum_kg += sprinkling.kg_by_day[static_cast<std::size_t>(day)] * std::max(0.0, end_s - begin_s) / seconds_per_day;
  }
  return sum_kg;
}

double wanted_water_kg_kg(const Heap& heap) noexcept {
  const double kept_wet = std::min(heap.request.blend.moisture_wet, heap.request.sprinkling.most_kept_wet);
  return std::min(kept_wet / (1.0 - kept_wet), heap.parameters.holding_capacity);
}

weather::Hour weather_at(const Request& request, double time_s) noexcept {
  return weather::at(request.weather, (request.start_day_of_year - 1) * seconds_per_day + time_s);
}

int month_at(const Request& request, double time_s) noexcept {
  constexpr std::array<int, 12> ends{31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};
  const int day = (request.start_day_of_year - 1 + static_cast<int>(time_s / seconds_per_day)) % 365;
  return static_cast<int>(std::upper_bound(ends.begin(), ends.end(), day) - ends.begin());
}

Workspace::Workspace(const Heap& heap)
    : symmetric(heap.heap_mesh.pattern, solver::Kind::symmetric),
      general(heap.heap_mesh.pattern, solver::Kind::general),
      matrix(heap.heap_mesh.pattern),
      heat(heap.heap_mesh) {
  const auto nodes = static_cast<std::size_t>(heap.heap_mesh.nodes());
  for (auto* v :
       {&right, &unknown, &sum_a, &sum_b, &vapour, &vapour_slope, &activity, &heat_made_w, &first_held_j, &guess_c})
    v->assign(nodes, 0.0);
  for (auto* v : {&link_kg, &link_rest}) v->assign(heap.heap_mesh.links.size(), 0.0);
  const auto ducts = static_cast<std::size_t>(heap.heap_mesh.nodes() - heap.heap_mesh.cells());
  for (auto* v : {&band.lower, &band.diagonal, &band.upper, &band.right}) v->assign(ducts, 0.0);
  end_heat.resize(static_cast<std::size_t>(heap.heap_mesh.cells()));
  drafts.resize(static_cast<std::size_t>(heap.heap_mesh.channels));
}

Stepper::Stepper(const Heap& heap, const StepRule& rule) : Stepper(heap, rule, first_memory(heap)) {}

Stepper::Stepper(const Heap& heap, const StepRule& rule, StepperMemory memory)
    : heap_(heap), rule_(rule), now_(std::move(memory)), before_(now_.state), work_(heap) {
  work_.heat_tolerance_k = rule.heat_tolerance_k;
  set_scene(heap_, now_.state, weather_at(heap_.request, now_.state.time_s), scene_);
}

bool Stepper::try_step(double dt_s) {
  using solver::Status;
  const weather::Hour outside = weather_at(heap_.request, now_.state.time_s + dt_s);
  set_scene(heap_, now_.state, outside, scene_);
  for (std::size_t i = 0; i < now_.trend_k_s.size(); ++i)
    work_.guess_c[i] = std::clamp(now_.state.temperature_c[i] + dt_s * now_.trend_k_s[i], -60.0, 95.0);
  if (gas_step(heap_, dt_s, now_.state, scene_, now_.balances, work_) != Status::converged) return false;
  if (oxygen_step(heap_, scene_, dt_s, now_.state, now_.balances, work_) != Status::converged) return false;
  if (heat_step(heap_, scene_, dt_s, now_.state, now_.balances, work_) != Status::converged) return false;
  const double rain = outside.rain_m_s * 1000.0 * open_top_m2(heap_.request.design);
  const Sprinkling& wish = heap_.request.sprinkling;
  const double sprinkle_kg_s =
      wish.automatic ? now_.sprinkle_kg_s : scheduled_kg(wish, now_.state.time_s, now_.state.time_s + dt_s) / dt_s;
  if (water_step(heap_, scene_, dt_s, sprinkle_kg_s, rain, now_.state, now_.balances, work_) != Status::converged)
    return false;
  settle_step(heap_, dt_s, now_.state);
  now_.state.time_s += dt_s;
  return true;
}

/// Backward Euler's leading error, half the step times the change of the rate: the mass-weighted root mean square, or a
/// set share of the worst cell's where that is larger, since a rim of small cells weighs next to nothing.
double Stepper::error_k(double dt_s) const noexcept {
  const HeapMesh& heap_mesh = heap_.heap_mesh;
  double sum = 0.0, mass = 0.0, worst = 0.0;
  for (int i = 0; i < heap_mesh.cells(); ++i) {
    const double change = now_.state.temperature_c[i] - before_.temperature_c[i] - dt_s * now_.trend_k_s[i];
    sum += heap_.first_dry_kg[i] * change * change;
    mass += heap_.first_dry_kg[i];
    if (heap_mesh.is_sliver[i / heap_mesh.layers] == 0) worst = std::max(worst, std::abs(change));
  }
  return 0.5 * std::max(std::sqrt(sum / mass), worst_cell_share * worst);
}

/// The gas of a node weighs more or less from step to step as the heap warms and sinks; the model takes that as come
/// and gone at the node's own composition. So the oxygen held at the step's start is weighed with the step's own gas,
/// as its end is.
void Stepper::measure_stored() noexcept {
  const double before_kg = oxygen_kg(before_, scene_.gas_kg);
  const Totals now = totals_of(heap_, now_.state, scene_.gas_kg);
  now_.first.oxygen_kg = before_kg - now_.balances.oxygen.stored;
  set_stored(now_.first, now, now_.balances);
}

void Stepper::plan_sprinkling(double dt_s) {
  const Sprinkling& wish = heap_.request.sprinkling;
  const double copies = heap_.heap_mesh.plan.sector.copies();
  if (!wish.automatic) return;  // the schedule is asked within each step
  const double lost = (now_.balances.evaporated_kg - ledger_before_.evaporated_kg) -
                      (now_.balances.water_made_kg - ledger_before_.water_made_kg) -
                      (now_.balances.rain_kg - ledger_before_.rain_kg);
  now_.loss_kg_s += (copies * lost / dt_s - now_.loss_kg_s) * -std::expm1(-dt_s / loss_memory_s);
  const double held = std::accumulate(now_.state.water_kg.begin(), now_.state.water_kg.end(), 0.0);
  double dry = 0.0;
  for (int i = 0; i < heap_.heap_mesh.cells(); ++i) dry += dry_kg(heap_, now_.state, i);
  const double rate = now_.loss_kg_s + copies * (wanted_water_kg_kg(heap_) * dry - held) / refill_s;
  now_.sprinkle_kg_s = std::clamp(rate, 0.0, wish.most_kg_day / seconds_per_day);
}

void Stepper::step(double most_s) {
  double dt = std::min({now_.next_s, rule_.most_s, most_s});
  before_ = now_.state;
  ledger_before_ = now_.balances;
  for (;;) {
    bool solved = try_step(dt);
    const double error = solved ? error_k(dt) : 0.0;
    solved = solved && std::isfinite(error);
    const bool fine = solved && (error <= 2.0 * rule_.error_k || dt <= 60.0);
    if (fine) {
      const double grow = std::clamp(0.9 * std::sqrt(rule_.error_k / std::max(error, 1e-6)), 0.4, 2.0);
      now_.next_s = std::max(dt * grow, rule_.least_s);
      break;
    }
    now_.state = before_;
    now_.balances = ledger_before_;
    dt = solved ? dt * std::clamp(0.9 * std::sqrt(rule_.error_k / error), 0.2, 0.7) : 0.25 * dt;
    if (dt < rule_.least_s) {
      throw RunError("forecast", "no step could be taken on day " + std::to_string(now_.state.time_s / seconds_per_day),
                     "the heap left what the model can follow; look at the driest and hottest cells");
    }
  }
  for (std::size_t i = 0; i < now_.trend_k_s.size(); ++i)
    now_.trend_k_s[i] = (now_.state.temperature_c[i] - before_.temperature_c[i]) / dt;
  measure_stored();
  plan_sprinkling(dt);
  now_.last_s = dt;
  ++now_.steps;
}

}  // namespace stillheap::forecast
