#include "judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/weather/air.hpp"
#include "model/forecast/stepper.hpp"
#include "model/physics/films.hpp"
#include "model/physics/freezing.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::sweep {
namespace {

using constant::seconds_per_day;

constexpr double hottest_allowed_c = 90.0;
constexpr double largest_balance_error = 1e-6;
// Temperatures are found to this; a cell may stand so much beyond a bound that holds exactly.
constexpr double temperature_tolerance_k = 0.02;
// The outside's oxygen is a bound of the exact solution; the solver stops this close to it.
constexpr double oxygen_tolerance = 1e-6;
// Analogy of heat and vapour transfer, Le^(2/3), as in physics/films.hpp.
constexpr double lewis_factor = 1.114;

double thread_cpu_s() {
  timespec now{};
  ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// Where a wet or frozen face in strong wind would stand: heat from the air feeds the evaporation.
double wet_c(const weather::Hour& hour) {
  const double vapour =
      weather::humidity_ratio(hour.humidity * weather::saturation_pressure_pa(hour.air_c), hour.pressure_pa);
  double low = hour.air_c - 80.0, high = hour.air_c;
  for (int round = 0; round < 60; ++round) {
    const double middle = 0.5 * (low + high);
    const double over_pa =
        middle < 0.0 ? weather::saturation_pressure_fine_pa(middle) : weather::saturation_pressure_pa(middle);
    const double over = weather::humidity_ratio(over_pa, hour.pressure_pa) - vapour;
    const double latent = physics::latent_heat_0c_j_kg + (middle < 0.0 ? physics::fusion_heat_j_kg : 0.0);
    const double loss = lewis_factor * latent / physics::dry_air_heat_j_kg_k * over;
    (loss > hour.air_c - middle ? high : low) = middle;
  }
  return low;
}

/// Where a dry face in still air would stand, facing nothing but sky.
double radiating_c(const weather::Hour& hour) {
  return hour.air_c + physics::sun_and_sky_w_m2(0.0, 0.0, hour.longwave_w_m2, hour.air_c, 1.0, 1.0) /
                          physics::radiation_film_w_m2_k(hour.air_c, 1.0);
}

double coldest_air_c(const forecast::Request& request) {
  double coldest = request.fill_temperature_c;
  for (int day = 0; day <= request.days; ++day)
    coldest = std::min(coldest, forecast::weather_at(request, day * seconds_per_day).air_c);
  return coldest;
}

/// Watches one run.
struct Watch {
  const forecast::Heap& heap;
  double floor_c;
  double air_c;
  Verdict& verdict;

  void fault(const forecast::State& state, const std::string& what) {
    if (verdict.faults.size() < 5)
      verdict.faults.push_back(fmt::format("day {:.4g}: {}", state.time_s / seconds_per_day, what));
  }

  void look(const forecast::State& state) {
    for (int i = 0; i < heap.heap_mesh.nodes(); ++i) {
      const double celsius = state.temperature_c[i];
      const double oxygen = state.oxygen_ratio[i];
      if (!std::isfinite(celsius + oxygen)) return fault(state, fmt::format("node {} is no number", i));
      if (oxygen < 0.0 || oxygen > physics::oxygen_outside * (1.0 + oxygen_tolerance))
        fault(state, fmt::format("oxygen of node {} is {:.6g} of the outside's", i, oxygen / physics::oxygen_outside));
      verdict.hottest_c = std::max(verdict.hottest_c, celsius);
      verdict.coldest_c = std::min(verdict.coldest_c, celsius);
      if (celsius > hottest_allowed_c) fault(state, fmt::format("node {} is at {:.4g} degC", i, celsius));
      if (celsius < floor_c - temperature_tolerance_k)
        fault(state, fmt::format("node {} is at {:.5g} degC, floor {:.5g}", i, celsius, floor_c));
    }
    for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
      if (state.water_kg[i] < 0.0 || state.salt_kg[i] < 0.0 || !std::isfinite(state.water_kg[i] + state.salt_kg[i])) {
        fault(state,
              fmt::format("water {:.4g} kg or salt {:.4g} kg in cell {}", state.water_kg[i], state.salt_kg[i], i));
      }
    }
  }

  void weigh(const forecast::State& state, const forecast::Balances& balances) {
    const auto one = [&](const char* name, const forecast::Balance& account, double& worst) {
      const double error = account.error();
      if (!(error <= largest_balance_error) && worst <= largest_balance_error)
        fault(state, fmt::format("balance of {} is off by {:.3g}", name, error));
      worst = std::max(worst, error);
    };
    one("solids", balances.solids, verdict.worst.solids);
    one("oxygen", balances.oxygen, verdict.worst.oxygen);
    one("water", balances.water, verdict.worst.water);
    one("energy", balances.energy, verdict.worst.energy);
    one("salt", balances.salt, verdict.worst.salt);
    one("dry air", balances.dry_air, verdict.worst.dry_air);
  }
};

void run(const Case& one, Verdict& verdict) {
  const forecast::Heap heap =
      forecast::make_heap(one.request, one.parameters, forecast::grid_size(one.request.design, forecast::Grid::draft));
  const forecast::StepRule rule = forecast::step_rule(forecast::Grid::draft);
  forecast::Stepper stepper(heap, rule);
  verdict.cells = heap.heap_mesh.cells();
  Watch watch{heap, floor_c(one.request), coldest_air_c(one.request), verdict};
  const double end_s = one.request.days * seconds_per_day;
  double next_s = seconds_per_day;
  try {
    while (stepper.state().time_s < end_s - 1e-6 && verdict.faults.empty()) {
      stepper.step(std::max(next_s - stepper.state().time_s, rule.least_s));
      watch.look(stepper.state());
      if (stepper.state().time_s < next_s - 1.0) continue;
      watch.weigh(stepper.state(), stepper.balances());
      next_s += seconds_per_day;
    }
  } catch (const RunError& error) {
    verdict.end = End::stopped;
    verdict.reason = error.problems().front().what;
  }
  verdict.steps = stepper.steps();
  verdict.below_air_k = std::max(0.0, watch.air_c - verdict.coldest_c);
  verdict.above_floor_k = verdict.coldest_c - watch.floor_c;
}

}  // namespace

double floor_c(const forecast::Request& request) {
  double coldest = request.fill_temperature_c;
  for (int day = 0; day <= request.days; ++day) {
    // Daily means are drawn linearly between their noons: the extremes stand at the noons.
    for (const double part : {0.0, 0.5}) {
      const weather::Hour hour = forecast::weather_at(request, (day + part) * seconds_per_day);
      coldest = std::min({coldest, hour.air_c, wet_c(hour), radiating_c(hour)});
    }
  }
  return coldest;
}

Verdict judge(const Case& one) {
  Verdict verdict;
  const double start_s = thread_cpu_s();
  try {
    if (one.request.blend.free_air_space <= 0.01) {  // what forecast::run refuses
      verdict.end = End::refused;
      verdict.reason = "the soaked blend has no air space";
    } else {
      run(one, verdict);
    }
  } catch (const InputError& error) {
    verdict.end = End::refused;
    verdict.reason = error.problems().front().what;
  } catch (const std::exception& error) {
    verdict.faults.push_back(error.what());
  }
  verdict.cpu_s = thread_cpu_s() - start_s;
  return verdict;
}

}  // namespace stillheap::sweep
