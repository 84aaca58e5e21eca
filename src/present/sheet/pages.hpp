#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

/// The sheets of the pack, one function and one file each. Every one starts on its own page.
namespace stillheap::sheet {

void answer_page(Flow& flow, const plan::Plan& plan);
void shopping_page(Flow& flow, const plan::Plan& plan);
void cut_page(Flow& flow, const plan::Plan& plan);
void cost_page(Flow& flow, const plan::Plan& plan);
void vessel_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void loads_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Dimensioned drawings of the parts, rounding stated on each.
void base_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void cage_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void forms_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void line_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void exploded_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void blend_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Pails of each material for one batch of the bath, and the water. Nothing where nothing is soaked.
void batch_card_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void fill_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void water_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void line_flow_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void forecast_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Six weeks of days to pin up and write on, with the forecast's likely range beside them.
void log_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Nothing where the site file wants no yard plan.
void supply_page(Flow& flow, const plan::Plan& plan);
void calendar_page(Flow& flow, const plan::Plan& plan);
void cautions_page(Flow& flow, const plan::Plan& plan);
void assumptions_page(Flow& flow, const plan::Plan& plan);

/// "North cage, 3 alike"
[[nodiscard]] std::string vessel_title(const vessel::Design& design);
/// The cautions that belong to one of these places of the work; the fallback when there is none.
[[nodiscard]] std::vector<std::string> cautions_at(const plan::Plan& plan, const std::vector<std::string_view>& places,
                                                   const std::string& fallback);

}  // namespace stillheap::sheet
