#pragma once
#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

/// Figures of the yard plan over the half-months of a year, all on the same columns.
namespace stillheap::sheet {

/// How long a heap stays in its phases, days since filling; 0 where there is no forecast.
struct Phases {
  double hot_days = 0.0;   ///< core last above the hot limit
  double cool_days = 0.0;  ///< end of self-heating; 0: not within the forecast
};
[[nodiscard]] Phases phases_of(const plan::VesselPlan& vessel);

/// Places as rows, a bar for each vessel's stay. Goes on over the page when there are many places.
void draw_places(Flow& flow, const supply::Outcome& outcome, const Phases& phases);

/// Hours of work in each half-month, with the ceiling where there is one.
void draw_work(Flow& flow, const supply::Outcome& outcome);

/// Compost harvested, wanted and in store.
void draw_supply(Flow& flow, const supply::Outcome& outcome, UnitSystem units);

}  // namespace stillheap::sheet
