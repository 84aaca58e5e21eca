#pragma once
#include "planning/plan/plan.hpp"
#include "present/draw/text.hpp"

namespace stillheap::sheet {

inline constexpr double pressure_figure_pt = 118.0;

/// The vessel from the side with the side pressure of the filling over its depth: with and without help from the
/// wall. To scale, height and pressure each their own.
void draw_pressure_figure(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel,
                          const vessel::WallFriction& friction, UnitSystem units);

}  // namespace stillheap::sheet
