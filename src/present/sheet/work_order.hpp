#pragma once
#include <functional>
#include <string>
#include <vector>

#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

/// The work order: one page a job, in type to read at arm's length, a picture beside each step.
namespace stillheap::sheet {

/// One step: what to do, a caution where one acts, and a picture into the box.
struct WorkStep {
  std::string words;
  std::string caution{};
  std::function<void(Canvas&, const Box&)> picture{};
};

/// One job on one page.
struct Job {
  std::string title;  ///< "Build"
  std::string tools;
  std::string people;
  std::string hours;
  std::vector<WorkStep> steps;
};

/// Build, fill, forms out (when there are any), cover, worms, harvest; words and times from the plan.
[[nodiscard]] std::vector<Job> jobs_of(const plan::Plan& plan, const plan::VesselPlan& vessel);

/// Draws a job on a page of its own; `kept_pt` at the page's end stay free for what is put under it.
void draw_job(Flow& flow, const Job& job, int number, const std::string& vessel, double kept_pt = 0.0);

/// All jobs in their order, each with the cards it needs: loads, batch card, fill card, water card, log sheet.
void work_order_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);
/// The jobs and the fill card alone, for a plan without a forecast.
void building_order_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);

}  // namespace stillheap::sheet
