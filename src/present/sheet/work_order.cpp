#include "present/sheet/work_order.hpp"

#include <algorithm>
#include <cmath>

#include "domain/rules/worms.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

// Chosen: print of 14 points reads at arm's length, 700 mm.
constexpr Style step_style{14.0};
constexpr Style caution_style{12.0, Weight::strong, accent};
constexpr Style head_style{12.5};
constexpr double picture_pt = 104.0;
constexpr double gap_pt = 14.0;

void draw_head_row(Flow& flow, const std::string& name, const std::string& words) {
  constexpr double name_pt = 52.0;
  const Size size = measure(flow.canvas(), words, head_style, flow.width() - name_pt);
  const Box row = flow.take(size.height + 2.0);
  const Tag tag(flow.canvas(), "P");
  draw_text(flow.canvas(), {row.x, row.y}, name, {head_style.size_pt, Weight::strong});
  draw_text(flow.canvas(), {row.x + name_pt, row.y}, words, head_style, flow.width() - name_pt);
}

double words_width(const Flow& flow) { return flow.width() - picture_pt - gap_pt - 26.0; }

double step_height(Flow& flow, const WorkStep& step) {
  double height = measure(flow.canvas(), step.words, step_style, words_width(flow)).height;
  if (!step.caution.empty()) {
    height += 3.0 + measure(flow.canvas(), step.caution, caution_style, words_width(flow) - 18.0).height;
  }
  return height;
}

/// All rows alike where the page allows it, else the page's rest shared out over what the words need. `kept_pt` stays
/// free below them.
std::vector<double> row_heights(Flow& flow, const Job& job, double kept_pt) {
  constexpr double most_pt = 150.0;
  std::vector<double> heights;
  for (const WorkStep& step : job.steps) heights.push_back(step_height(flow, step) + 10.0);
  const double room = flow.room() - kept_pt - 2.0;
  const double even = std::min(most_pt, room / static_cast<double>(heights.size()));
  double over = 0.0;  // what long steps need beyond an even share
  double under = 0.0;
  for (const double height : heights) (height > even ? over : under) += std::abs(height - even);
  if (over > under) return heights;
  const double kept = under > 0.0 ? 1.0 - over / under : 0.0;
  for (double& height : heights) {
    if (height < even) height += kept * (even - height);
  }
  return heights;
}

void draw_caution(Canvas& canvas, Spot at, const std::string& words, double width) {
  const Spot sign[] = {{at.x + 6.0, at.y + 3.0}, {at.x + 12.0, at.y + 14.0}, {at.x, at.y + 14.0}};
  fill_polygon(canvas, sign, accent);
  draw_text(canvas, {at.x + 18.0, at.y}, words, caution_style, width - 18.0);
}

void draw_step(Flow& flow, const WorkStep& step, std::size_t number, double height) {
  const Box row = flow.take(height);
  line(flow.canvas(), {row.x, row.y}, {row.right(), row.y}, {hair, 0.6});
  const Tag item(flow.canvas(), "LI");
  if (step.picture) {
    const Tag figure(flow.canvas(), "Figure");
    step.picture(flow.canvas(), {row.x, row.y + 5.0, picture_pt, height - 10.0});
  }
  const Tag body(flow.canvas(), "LBody");
  const double x = row.x + picture_pt + gap_pt;
  draw_text(flow.canvas(), {x, row.y + 4.0}, std::to_string(number), {18.0, Weight::strong, accent});
  const Box words = draw_text(flow.canvas(), {x + 26.0, row.y + 6.0}, step.words, step_style, words_width(flow));
  if (!step.caution.empty()) {
    draw_caution(flow.canvas(), {x + 26.0, words.bottom() + 3.0}, step.caution, words_width(flow));
  }
}

}  // namespace

void draw_job(Flow& flow, const Job& job, int number, const std::string& vessel, double kept_pt) {
  flow.start_sheet("Work order " + std::to_string(number) + ": " + job.title, vessel);
  draw_head_row(flow, "People", job.people + ", " + job.hours);
  draw_head_row(flow, "Tools", job.tools);
  flow.space(6.0);
  const std::vector<double> heights = row_heights(flow, job, kept_pt);
  const Tag list(flow.canvas(), "L");
  for (std::size_t i = 0; i < job.steps.size(); ++i) draw_step(flow, job.steps[i], i + 1, heights[i]);
}

namespace {

using Card = void (*)(Flow&, const plan::Plan&, const plan::VesselPlan&);

void spreading_cautions(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& /*vessel*/) {
  std::vector<std::string> lines = cautions_at(plan, {"harvest", "spreading"},
                                               "Test salts before seedlings or pots. Raw manure needs time before "
                                               "harvest of food: keep to the rules of your authority.");
  std::erase(lines, std::string(rules::worms::caution));  // stands on the worms' own work order
  flow.caution_box("At the harvest and before it is spread", lines, 10.0);
}

void hot_cautions(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& /*vessel*/) {
  flow.caution_box("While it is hot, from now on",
                   cautions_at(plan, {"hot phase"},
                               "Steam and the inside burn the skin. Smoke or a burnt smell: leave, keep everybody away "
                               "and call the fire service. Local codes and licensed practice come first."),
                   10.5);
}

/// Those of the filling that its steps do not say already.
void filling_cautions(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  std::vector<std::string> lines =
      cautions_at(plan, {"filling"},
                  "Dust and spores harm the lungs: wet the material and wear a mask. Lift with a second person. "
                  "Wash hands after manure. Local codes and licensed practice come first.");
  const std::vector<Job> jobs = jobs_of(plan, vessel);
  std::erase_if(lines, [&jobs](const std::string& line) {
    return std::any_of(jobs.begin(), jobs.end(), [&line](const Job& job) {
      return job.title == "fill" && std::any_of(job.steps.begin(), job.steps.end(), [&line](const WorkStep& step) {
               return step.caution.find(line) != std::string::npos;
             });
    });
  });
  flow.caution_box("While filling", lines, 10.0);
}

/// What goes with a job: cards before and after it, and one under its steps.
struct Company {
  std::vector<Card> before{};
  Card under = nullptr;
  std::vector<Card> after{};
};

Company company_of(const std::string& title, bool forecast) {
  if (!forecast) return {.after = title == "fill" ? std::vector<Card>{fill_page} : std::vector<Card>{}};
  if (title == "build") return {.under = building_cautions};
  if (title == "fill") return {.before = {batch_card_page}, .under = filling_cautions, .after = {fill_page}};
  if (title == "forms out") return {.under = hot_cautions};
  if (title == "cover and water") return {.after = {water_page, log_page}};
  if (title == "harvest") return {.under = spreading_cautions};
  return {};
}

/// Draws the job and what goes under it, on one page where both fit; else that stands on the next page that has room.
void draw_job_with(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, const Job& job, int number,
                   Card under) {
  const std::string name = vessel_title(vessel.design);
  if (under == nullptr) return draw_job(flow, job, number, name);
  const auto below = [&](Flow& page) { under(page, plan, vessel); };
  draw_job(flow, job, number, name, flow.height_of(below));
  flow.share_page(below);
}

void draw_jobs(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, bool forecast) {
  int number = 0;
  for (const Job& job : jobs_of(plan, vessel)) {
    const Company with = company_of(job.title, forecast);
    const auto fit = [&](Card card) { flow.fit([&](Flow& page) { card(page, plan, vessel); }); };
    for (const Card card : with.before) fit(card);
    draw_job_with(flow, plan, vessel, job, ++number, with.under);
    for (const Card card : with.after) fit(card);
  }
}

}  // namespace

void work_order_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  draw_jobs(flow, plan, vessel, true);
}

void building_order_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  draw_jobs(flow, plan, vessel, false);
}

}  // namespace stillheap::sheet
