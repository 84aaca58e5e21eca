#pragma once
#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

namespace stillheap::sheet {

/// "What to measure first": a row a measurement with how it is done, the share of each answer's spread it owes, and by
/// how much the bands would narrow. Draws a sentence instead when the forecast has too few runs.
void draw_measure_table(Flow& flow, const plan::VesselPlan& vessel, UnitSystem units);

}  // namespace stillheap::sheet
