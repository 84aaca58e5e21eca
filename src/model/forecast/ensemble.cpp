#include "model/forecast/ensemble.hpp"

#include <algorithm>
#include <atomic>
#include <boost/math/distributions/normal.hpp>
#include <boost/random/sobol.hpp>
#include <cassert>
#include <cmath>
#include <exception>
#include <mutex>
#include <random>
#include <thread>

#include "model/forecast/central.hpp"
#include "model/forecast/prior.hpp"
#include "model/forecast/runner.hpp"

namespace stillheap::forecast {
namespace {

constexpr double farthest_deviations = 2.5;

double deviate(double uniform) {
  const boost::math::normal_distribution<double> normal;
  const double inside = std::clamp(uniform, 1e-9, 1.0 - 1e-9);
  return std::clamp(boost::math::quantile(normal, inside), -farthest_deviations, farthest_deviations);
}

void shift_blend(material::Blend& blend, const std::vector<double>& z) {
  const double dry_kg_m3 =
      blend.bulk_density_kg_m3 * (1.0 - blend.moisture_wet) * std::exp(density_deviation * z[input_density]);
  blend.moisture_wet = std::clamp(blend.moisture_wet + moisture_deviation * z[input_moisture], 0.05, 0.85);
  blend.bulk_density_kg_m3 = dry_kg_m3 / (1.0 - blend.moisture_wet);
  double pools_dry = 0.0;
  for (std::size_t p = 0; p < pools; ++p) {
    blend.pool_dry[p] *= std::exp(pool_deviation * z[input_pools + p]);
    pools_dry += blend.pool_dry[p];
  }
  const double most = 0.98 * (1.0 - blend.ash_dry);
  if (pools_dry > most)
    for (double& pool : blend.pool_dry) pool *= most / pools_dry;
}

void shift_parameters(physics::Parameters& parameters, const double* z) {
  for (const physics::ParameterRow& row : physics::parameter_rows()) {
    parameters.*row.member = shifted(row, parameters.*row.member, *z);
    ++z;
  }
}

/// So many of the rows, evenly spread over them.
std::vector<std::vector<double>> spread_out(const std::vector<std::vector<double>>& rows, int count) {
  std::vector<std::vector<double>> some;
  for (int m = 0; m < count; ++m) {
    some.push_back(rows[static_cast<std::size_t>(m) * rows.size() / static_cast<std::size_t>(count)]);
  }
  return some;
}

/// Nothing when it was stopped on the way.
std::optional<RunHistory> run_member(const Member& member, const std::function<bool()>& keep_on) {
  const Heap heap = make_heap(member.request, member.parameters, grid_size(member.request.design, Grid::draft));
  Runner walker(heap, step_rule(Grid::draft), {});
  while (!walker.ended()) {
    walker.step();
    if (!keep_on()) return std::nullopt;
  }
  return walker.track();
}

}  // namespace

std::vector<std::vector<double>> even_points(std::size_t dimensions, int count, std::uint64_t seed) {
  boost::random::sobol points(dimensions);
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> uniform(0.0, 1.0);
  std::vector<double> shift(dimensions);
  for (double& s : shift) s = uniform(generator);
  const double scale = 1.0 / (static_cast<double>(boost::random::sobol::max()) + 1.0);
  std::vector<std::vector<double>> rows;
  for (int m = 0; m < count; ++m) {
    std::vector<double>& row = rows.emplace_back(dimensions);
    for (std::size_t d = 0; d < dimensions; ++d) {
      const double point = static_cast<double>(points()) * scale + shift[d];
      row[d] = point - std::floor(point);
    }
  }
  return rows;
}

std::vector<std::vector<double>> normal_points(std::size_t dimensions, int count, std::uint64_t seed) {
  std::vector<std::vector<double>> rows = even_points(dimensions, count, seed);
  for (auto& row : rows)
    for (double& value : row) value = deviate(value);
  return rows;
}

std::vector<std::vector<double>> member_deviations(const material::Blend& blend, int count, std::uint64_t seed,
                                                   std::span<const PriorDraw> draws) {
  const Shift alone = deviation_of_one_heap(blend);
  std::vector<std::vector<double>> rows = even_points(input_count() + 1, count, seed);
  for (std::vector<double>& row : rows) {
    // The last one chooses the draw, the others are each heap's own.
    const Shift shared =
        shift_of(blend, draws[static_cast<std::size_t>(row.back() * static_cast<double>(draws.size()))]);
    row.pop_back();
    for (double& value : row) value = deviate(value);
    for (std::size_t i = 0; i < shared.size(); ++i) {
      double& value = row[input_parameters + row_of_learned(i)];
      value = shared[i] + alone[i] * value;
    }
  }
  return rows;
}

std::size_t input_count() noexcept { return input_parameters + physics::parameter_rows().size(); }

Member member_at(const Request& request, const std::vector<double>& deviations) {
  assert(deviations.size() >= input_count());
  Member member{request, material_parameters(request.blend)};
  member.request.own = {};  // it is in the deviations
  shift_blend(member.request.blend, deviations);
  shift_parameters(member.parameters, deviations.data() + input_parameters);
  return member;
}

Member middle_member(const Request& request, std::span<const PriorDraw> draws) {
  const std::vector<std::vector<double>>& own = request.own.draws;
  if (own.empty()) return {request, central_parameters(request.blend, draws)};
  std::vector<double> mean(input_count(), 0.0);
  for (const std::vector<double>& one : own) {
    for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += one.at(i) / static_cast<double>(own.size());
  }
  return member_at(request, mean);
}

std::vector<Member> draw_members(const Request& request, int count, std::uint64_t seed,
                                 std::span<const PriorDraw> draws) {
  std::vector<Member> members;
  const std::vector<std::vector<double>>& own = request.own.draws;
  for (const auto& z : own.empty() ? member_deviations(request.blend, count, seed, draws) : spread_out(own, count)) {
    members.push_back(member_at(request, z));
    members.back().request.grid = Grid::draft;
  }
  return members;
}

std::vector<RunHistory> run_members(const std::vector<Member>& members, const std::function<bool(double)>& keep_on) {
  std::vector<std::optional<RunHistory>> tracks(members.size());
  run_members(members, tracks, keep_on, [] {});
  return finished_tracks(tracks);
}

void run_members(const std::vector<Member>& members, std::vector<std::optional<RunHistory>>& tracks,
                 const std::function<bool(double)>& keep_on, const std::function<void()>& changed,
                 unsigned most_threads) {
  tracks.resize(members.size());
  std::vector<std::size_t> open;
  for (std::size_t m = 0; m < members.size(); ++m)
    if (!tracks[m]) open.push_back(m);
  std::size_t done = members.size() - open.size();
  std::atomic<std::size_t> next{0};
  std::atomic<bool> go_on{true};
  std::mutex one_at_a_time;
  std::exception_ptr fault;  // thrown on by the caller's thread: from a worker's it would end the program
  const auto asked = [&] {
    const std::scoped_lock lock(one_at_a_time);
    if (go_on && !keep_on(static_cast<double>(done) / static_cast<double>(members.size()))) go_on = false;
    return go_on.load();
  };
  const auto work = [&] {
    for (std::size_t n = next++; n < open.size() && asked(); n = next++) {
      std::optional<RunHistory> track;
      try {
        track = run_member(members[open[n]], asked);
      } catch (...) {
        const std::scoped_lock lock(one_at_a_time);
        if (!fault) fault = std::current_exception();
        go_on = false;
      }
      if (!track) return;
      const std::scoped_lock lock(one_at_a_time);
      tracks[open[n]] = std::move(track);
      ++done;
      changed();
    }
  };
  const unsigned allowed = most_threads > 0 ? most_threads : std::max(1U, std::thread::hardware_concurrency());
  const std::size_t count = std::min<std::size_t>(allowed, open.size());
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < count; ++t) threads.emplace_back(work);
  for (std::thread& thread : threads) thread.join();
  if (fault) std::rethrow_exception(fault);
}

std::vector<RunHistory> finished_tracks(const std::vector<std::optional<RunHistory>>& tracks) {
  std::vector<RunHistory> finished;
  for (const std::optional<RunHistory>& track : tracks)
    if (track && !track->stopped && track->history.size() > 1) finished.push_back(*track);
  return finished;
}

double percentile(std::vector<double> values, double share) {
  if (values.empty()) return 0.0;
  std::sort(values.begin(), values.end());
  const double place = share * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, values.size() - 1);
  return values[below] + (place - static_cast<double>(below)) * (values[above] - values[below]);
}

}  // namespace stillheap::forecast
