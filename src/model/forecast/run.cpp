#include "model/forecast/run.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "domain/limits/limits.hpp"
#include "model/forecast/cold_twin.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/fields.hpp"
#include "model/forecast/model_notes.hpp"
#include "model/forecast/sensitivity.hpp"
#include "model/forecast/stages.hpp"
#include "model/forecast/summarise.hpp"

namespace stillheap::forecast {
namespace {

std::string words_for(const HeapMesh& heap_mesh) {
  const int copies = heap_mesh.plan.sector.copies();
  return copies == 1 ? "the whole plan: the channels leave no mirror symmetry"
                     : "1/" + std::to_string(copies) + " of the vessel, mirrored and unfolded";
}

Sensitivity sensitivity_of(const Request& request, const Checkpoint& checkpoint) {
  if (request.own.draws.empty()) return sensitivity(checkpoint.members, request.blend, request.seed);
  Sensitivity none;
  none.why_none = "this forecast has learned from the heap's own readings, which tell more than a measurement before";
  return none;
}

}  // namespace

void check(const Request& request) {
  if (!limits::holds(limits::forecast_days, request.days))
    throw InputError("forecast.days", std::to_string(request.days),
                     "use " + limits::allowed(limits::forecast_days) + " days");
  if (request.weather.hours.empty()) throw InputError("weather", "no weather was given", "give normals or a file");
  if (!(request.blend.bulk_density_kg_m3 > 0.0) || request.blend.free_air_space <= 0.01)
    throw InputError("blend", "the soaked blend has no air space", "use a drier or coarser blend");
}

Result run(const Request& request, const Progress& progress, unsigned most_threads) {
  Checkpoint fresh = checkpoint_for(request);
  return run(request, progress, fresh, {}, most_threads);
}

Result run(const Request& request, const Progress& progress, Checkpoint& checkpoint, const Keeper& keeper,
           unsigned most_threads) {
  check(request);
  check_same_request(checkpoint, request);
  const Member member = middle_member(on_grid(request, request.grid));
  const Heap heap = make_heap(member.request, member.parameters, grid_size(request.design, request.grid));
  Stages work = run_stages(heap, request, progress, checkpoint, keeper, most_threads);
  RunHistory& middle = work.middle;
  const Ensemble ensemble{middle, work.draft, work.members, request.grid, discrepancy_of(request.own)};
  Result result;
  result.summary = summarise(heap, ensemble);
  const rules::SelfHeating heat = rules::self_heating(heat_days(middle.history), work.twin);
  result.summary.rests = heat.rests;
  if (heat.end_day()) {
    const auto again = [&](const rules::HeatDay& one) { return one.day > heat.rests.front().end_day; };
    const std::vector<rules::HeatDay> days = heat_days(middle.history);
    const auto found = std::find_if(days.begin(), days.end(), again);
    if (found != days.end()) result.summary.warm_again_day = found->day;
  }
  result.sensitivity = sensitivity_of(request, checkpoint);
  band_history(ensemble, result);
  band_months(ensemble, result);
  result.history = std::move(middle.history);
  result.mesh = field_mesh(heap);
  result.snapshots = std::move(middle.snapshots);
  result.frames = std::move(middle.frames);
  result.evaporated_kg_s = middle.evaporated_kg_s;
  result.drained_kg_s = middle.drained_kg_s;
  result.salt_out_kg_s = middle.salt_out_kg_s;
  result.wanted_water_kg_kg = wanted_water_kg_kg(heap);
  result.assumptions = model_notes(request);
  result.solved = words_for(heap.heap_mesh);
  result.cells_solved = heap.heap_mesh.cells();
  result.cells_full = heap.heap_mesh.cells() * heap.heap_mesh.plan.sector.copies();
  result.steps = middle.steps;
  result.members = static_cast<int>(work.members.size());
  result.stopped = work.stopped_by_user ? work.stopped_by_user : middle.stopped;
  result.stopped_by_user = work.stopped_by_user.has_value();
  return result;
}

}  // namespace stillheap::forecast
