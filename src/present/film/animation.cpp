#include "present/film/animation.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/error.hpp"
#include "planning/plan/forecast_files.hpp"
#include "present/film/encoder.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double pixels_per_pt = 4.0 / 3.0;
constexpr int frames_per_s = 12;
constexpr double margin_pt = 30.0;
constexpr double head_pt = 64.0;
constexpr double foot_pt = 40.0;
constexpr double gap_pt = 30.0;
constexpr double cell_gap_pt = 10.0;

std::vector<Span> scales_of(const forecast::Result& result, UnitSystem units) {
  std::vector<Span> scales;
  for (const ShownField& shown : shown_fields(units)) scales.push_back(shared_scale(result.frames, shown, units));
  return scales;
}

void draw_time(Canvas& canvas, const Box& box, double day, double days) {
  const double y = box.y + 6.0;
  line(canvas, {box.x, y}, {box.right(), y}, {hair, 3.0});
  const double share = std::clamp(day / std::max(1e-9, days), 0.0, 1.0);
  line(canvas, {box.x, y}, {box.x + share * box.width, y}, {accent, 3.0});
  disc(canvas, {box.x + share * box.width, y}, 5.0, accent);
  draw_label(canvas, {box.x, y + 8.0}, "filling", {9.0, Weight::regular, soft}, Across::left, Down::top);
  draw_label(canvas, {box.right(), y + 8.0}, day_words(days), {9.0, Weight::regular, soft}, Across::right, Down::top);
}

std::filesystem::path named(const std::filesystem::path& file, const std::string& vessel) {
  return file.parent_path() / (file.stem().string() + "-" + plan::folder_name(vessel) + file.extension().string());
}

void write_one(const plan::Plan& plan, const plan::VesselPlan& vessel, const std::filesystem::path& file) {
  const forecast::Result& result = vessel.forecast;
  if (result.frames.empty() || result.mesh.levels < 2)
    throw RunError(file.string(), "the forecast kept no frames", "run it with --animation");
  const std::vector<Span> scales = scales_of(result, plan.site.units);
  const Paper paper = frame_paper();
  const FrameSize size{static_cast<int>(std::lround(paper.width_pt * pixels_per_pt)),
                       static_cast<int>(std::lround(paper.height_pt * pixels_per_pt))};
  Encoder encoder(file, size, frames_per_s);
  for (const forecast::Snapshot& snapshot : result.frames) {
    Canvas canvas = Canvas::png(file, paper, pixels_per_pt);  // never finished: only its pixels are wanted
    draw_frame(canvas, plan, vessel, snapshot, scales);
    cairo_surface_flush(canvas.surface());
    // RGB24 holds four bytes a pixel and rows of a multiple of four: there are no gaps.
    const auto bytes = static_cast<std::size_t>(cairo_image_surface_get_stride(canvas.surface())) *
                       static_cast<std::size_t>(cairo_image_surface_get_height(canvas.surface()));
    encoder.add(std::as_bytes(std::span(cairo_image_surface_get_data(canvas.surface()), bytes)));
  }
  encoder.finish();
}

}  // namespace

Paper frame_paper() { return {960.0, 540.0, "frame"}; }

void draw_frame(Canvas& canvas, const plan::Plan& plan, const plan::VesselPlan& vessel,
                const forecast::Snapshot& snapshot, const std::vector<Span>& scales) {
  const Paper& paper = canvas.paper();
  const Box all = shrink({0.0, 0.0, paper.width_pt, paper.height_pt}, margin_pt);
  const Date start = read_date(plan.site.start_date);
  draw_text(canvas, {all.x, all.y}, vessel_title(vessel.design), {18.0, Weight::strong});
  draw_text(canvas, {all.x, all.y + 26.0},
            "Middle run of the forecast; upright cut through the middle, plan at half height",
            {10.0, Weight::regular, soft});
  draw_label(canvas, {all.right(), all.y}, day_words(snapshot.day), {18.0, Weight::strong}, Across::right, Down::top);
  draw_label(canvas, {all.right(), all.y + 26.0}, short_date(after(start, snapshot.day)), {10.0, Weight::regular, soft},
             Across::right, Down::top);

  const std::vector<ShownField> fields = shown_fields(plan.site.units);
  const double panel = (all.width - 2.0 * gap_pt) / 3.0;
  const double room = all.height - head_pt - foot_pt - colour_bar_height_pt - 2.0 * cell_gap_pt;
  const vessel::Design& design = vessel.design;
  const double scale = std::min(panel / vessel::across_m(design), room / (design.height_m + vessel::deep_m(design)));
  const double upright = design.height_m * scale;
  const double deep = vessel::deep_m(design) * scale;
  for (std::size_t f = 0; f < fields.size(); ++f) {
    const double x = all.x + static_cast<double>(f) * (panel + gap_pt);
    const double top = all.y + head_pt;
    draw_upright_cell(canvas, {x, top, panel, upright}, design, vessel.forecast.mesh, snapshot, fields[f], scales[f],
                      scale);
    draw_plan_cell(canvas, {x, top + upright + cell_gap_pt, panel, deep}, design, vessel.forecast.mesh, snapshot,
                   fields[f], scales[f], scale);
    draw_colour_bar(canvas, {x, all.bottom() - foot_pt - colour_bar_height_pt, panel, colour_bar_height_pt}, fields[f],
                    scales[f], plan.site.units);
  }
  draw_time(canvas, {all.x, all.bottom() - 0.6 * foot_pt, all.width, foot_pt}, snapshot.day, plan.site.forecast_days);
}

std::vector<std::filesystem::path> write_animation(const plan::Plan& plan, const std::filesystem::path& file) {
  check_encoder(file);
  std::vector<std::filesystem::path> files;
  for (const plan::VesselPlan& vessel : plan.vessels) {
    files.push_back(plan.vessels.size() == 1 ? file : named(file, vessel.design.name));
    write_one(plan, vessel, files.back());
  }
  return files;
}

}  // namespace stillheap::sheet
