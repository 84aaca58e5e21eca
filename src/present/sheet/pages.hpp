#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

/// The sheets of the pack, one function and one file each.
namespace stillheap::sheet {

void answer_page(Flow& flow, const plan::Plan& plan);
/// What the plan warns of, each kind once; nothing where it warns of nothing.
void findings_box(Flow& flow, const plan::Plan& plan, const std::string& heading);
/// The same as the first sheet of what is printed without a forecast.
void findings_page(Flow& flow, const plan::Plan& plan);
/// Which sheet is on which page; `elsewhere` says what to look for in another file.
void contents_page(Flow& flow, const std::string& elsewhere);
void shopping_page(Flow& flow, const plan::Plan& plan);
void cut_page(Flow& flow, const plan::Plan& plan);
void cost_page(Flow& flow, const plan::Plan& plan);
void vessel_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Whether ground and wall hold, in a few lines.
void loads_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Every load, and how it is worked out.
void load_table_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// What to mind while building, with what the design's own findings say.
void building_cautions(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Dimensioned drawings of the parts, rounding stated on each.
void base_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void cage_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// `kept_pt` at the page's end stay free for what is put under the drawings.
void forms_page(Flow& flow, const plan::VesselPlan& vessel, UnitSystem units, double kept_pt = 0.0);
void line_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void exploded_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void blend_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Pails of each material for one batch of the bath, and the water. Nothing where nothing is soaked.
void batch_card_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void fill_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void water_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Drilling, fittings from the tap on, and draining before frost: what stands beside the line's drawing.
void line_fittings(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
void line_flow_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// Temperature and oxygen over the first six weeks; `kept_pt` below them stay free where that leaves them high enough.
void first_weeks_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, double kept_pt);
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
