#include "present/sheet/work_order.hpp"

#include <algorithm>
#include <cmath>

#include "planning/fill/rotation.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

// Chosen: print of 14 points reads at arm's length, 700 mm.
constexpr Style step_style{14.0};
constexpr Style caution_style{12.0, Weight::strong, accent};
constexpr Style head_style{12.5};
constexpr double picture_pt = 124.0;
constexpr double gap_pt = 14.0;

void draw_head_row(Flow& flow, const std::string& name, const std::string& words) {
  constexpr double name_pt = 62.0;
  const Size size = measure(flow.canvas(), words, head_style, flow.width() - name_pt);
  const Box row = flow.take(size.height + 2.0);
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

/// All rows alike where the page allows it, else the page's rest shared out over what the words need.
std::vector<double> row_heights(Flow& flow, const Job& job) {
  constexpr double most_pt = 150.0;
  std::vector<double> heights;
  for (const WorkStep& step : job.steps) heights.push_back(step_height(flow, step) + 14.0);
  const double room = flow.room() - 2.0;
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
  if (step.picture) step.picture(flow.canvas(), {row.x, row.y + 5.0, picture_pt, height - 10.0});
  const double x = row.x + picture_pt + gap_pt;
  draw_text(flow.canvas(), {x, row.y + 4.0}, std::to_string(number), {18.0, Weight::strong, accent});
  const Box words = draw_text(flow.canvas(), {x + 26.0, row.y + 6.0}, step.words, step_style, words_width(flow));
  if (!step.caution.empty()) {
    draw_caution(flow.canvas(), {x + 26.0, words.bottom() + 3.0}, step.caution, words_width(flow));
  }
}

/// A row a lift, to tick while filling.
void lifts_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  const auto turns = fill::rotation_of(vessel.design, vessel.fill, plan.site.bath, plan.site.practice);
  if (turns.empty()) return;
  const bool soaked = turns.back().last_batch > 0;
  flow.start_sheet("Work order 2, lift by lift", vessel_title(vessel.design));
  flow.paragraph(
      soaked ? "While one batch is spread the next soaks: put it in as soon as the bath is empty. Times count from "
               "the first batch going in. A lift waits until the batches it needs have drained."
             : "Times count from the first pail.",
      head_style);
  flow.space(4.0);
  Table table;
  table.size_pt = turns.size() > 18 ? 11.0 : 13.0;
  table.row_padding_pt = turns.size() > 18 ? 2.5 : 4.5;
  table.columns = {{.head = "Done", .fixed_pt = 34.0, .paint = paint_tick_box},
                   {.head = "Lift", .align = Align::right, .strong = true},
                   {.head = "Pails", .align = Align::right},
                   {.head = "In all", .align = Align::right},
                   {.head = "Up to, above base", .align = Align::right, .strong = true}};
  if (soaked) table.columns.push_back({.head = "From batch", .align = Align::right});
  table.columns.push_back({.head = "Begin at", .align = Align::right});
  table.columns.push_back({.head = "Done by", .align = Align::right});
  for (const fill::LiftTurn& turn : turns) {
    Row row{{"", std::to_string(turn.lift), std::to_string(turn.pails), std::to_string(turn.pails_so_far),
             quantity::format_workshop(turn.height_m, plan.site.units)}};
    if (soaked) {
      row.cells.push_back(turn.first_batch == turn.last_batch
                              ? std::to_string(turn.last_batch)
                              : std::to_string(turn.first_batch) + " and " + std::to_string(turn.last_batch));
      if (turn.last_batch > turn.first_batch + 1) {
        row.cells.back() = std::to_string(turn.first_batch) + " to " + std::to_string(turn.last_batch);
      }
    }
    row.cells.push_back(clock_time(turn.start_s / 3600.0));
    row.cells.push_back(clock_time(turn.end_s / 3600.0));
    table.rows.push_back(std::move(row));
  }
  draw_table(flow, table);
  flow.paragraph("Heights are of the loose filling as it is spread, rounded to " +
                     std::string(plan.site.units == UnitSystem::us ? "1/16 in" : "1 mm") +
                     "; the filling settles from the first hour on. Pace: " +
                     decimal(plan.site.practice.pails_per_person_hour, 0) + " pails a person and hour.",
                 style::note);
}

}  // namespace

void draw_job(Flow& flow, const Job& job, int number, const std::string& vessel) {
  flow.start_sheet("Work order " + std::to_string(number) + ": " + job.title, vessel);
  draw_head_row(flow, "People", job.people + ", " + job.hours);
  draw_head_row(flow, "Tools", job.tools);
  flow.space(6.0);
  const std::vector<double> heights = row_heights(flow, job);
  for (std::size_t i = 0; i < job.steps.size(); ++i) draw_step(flow, job.steps[i], i + 1, heights[i]);
}

void work_order_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  int number = 0;
  for (const Job& job : jobs_of(plan, vessel)) {
    draw_job(flow, job, ++number, vessel_title(vessel.design));
    if (number == 2) lifts_page(flow, plan, vessel);
  }
}

}  // namespace stillheap::sheet
