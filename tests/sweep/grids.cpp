#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <exception>
#include <string>

#include "draw.hpp"
#include "model/forecast/run_history.hpp"
#include "model/forecast/stages.hpp"

/// What the draft grid misses: the sweep's drawn heaps on several grids, one line of CSV a run. tools/grid-study turns
/// the lines into the table and the correction of `model/forecast/grid_gap.hpp`.
namespace {

using namespace stillheap;

void run_one(const sweep::Case& one, const std::string& name, int days) {
  forecast::Request request = one.request;
  request.days = days;
  const bool draft_mesh = name.starts_with("draft");
  const forecast::Grid grid = draft_mesh                 ? forecast::Grid::draft
                              : name.starts_with("fine") ? forecast::Grid::fine
                                                         : forecast::Grid::standard;
  const bool daily = name == "draft" || name.ends_with("daily");
  request.grid = grid;
  if (!daily) request.weather = one.hourly;
  const forecast::Heap heap = forecast::make_heap(request, one.parameters, forecast::grid_size(request.design, grid));
  const auto start = std::chrono::steady_clock::now();
  const forecast::RunHistory run = forecast::follow(heap, forecast::step_rule(daily ? forecast::Grid::draft : grid),
                                                    {86400.0, false, false}, [](double) { return true; });
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  fmt::print("{},{},{},{},{:.4f},{:.4f},{:.6f},{:.4f},{:.6f},{:.6f},{:.4f},{},{:.1f},{}\n", one.seed, one.number, name,
             heap.heap_mesh.cells() * heap.heap_mesh.plan.sector.copies(), run.peak_c, run.peak_day, run.lowest_oxygen,
             run.lowest_oxygen_day, run.share_3_days, run.most_mass_below_5, run.days_any_below_5, run.steps, seconds,
             run.stopped.value_or(""));
  std::fflush(stdout);
}

int run(int argc, char** argv) {
  std::uint64_t seed = 1;
  int first = 0, count = 1, days = 40;
  std::vector<std::string> grids{"draft", "standard"};
  CLI::App app{"Runs the sweep's drawn heaps on several grids and prints what differs, as CSV."};
  app.add_option("--seed", seed, "Which row of cases");
  app.add_option("--first", first, "First case of the row");
  app.add_option("--count", count, "How many cases");
  app.add_option("--days", days, "Days forecast");
  app.add_option("--grids", grids, "draft, draft-hourly, standard, standard-daily, fine")->delimiter(',');
  CLI11_PARSE(app, argc, argv);
  for (int n = first; n < first + count; ++n) {
    const sweep::Case one = sweep::draw(seed, n);
    if (one.request.blend.free_air_space <= 0.01) continue;
    for (const std::string& grid : grids) {
      try {
        run_one(one, grid, days);
      } catch (const std::exception& error) {
        fmt::print(stderr, "case {} on {}: {}\n", n, grid, error.what());
      }
    }
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "fault: %s\n", error.what());
    return 1;
  }
}
