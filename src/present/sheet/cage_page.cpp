#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Frame;

/// Every `step` after `from` and before `to`.
std::vector<double> steps_between(double from, double to, double step) {
  std::vector<double> places;
  for (int i = 1; from + i * step < to; ++i) places.push_back(from + i * step);
  return places;
}

/// Wires as a light net, for the eye only: the real spacing where it is known, else a tenth of a metre.
void draw_net(const Drawing& drawing, const Frame& frame) {
  const double step = drawing.design.mesh ? std::max(drawing.design.mesh->spacing_m, 0.04) : 0.1;
  const Pen wire{hair, 0.35};
  for (const double x : steps_between(frame.left_m, frame.right_m - 0.2 * step, step)) {
    line(drawing.canvas, drawing.spot(x, frame.low_m), drawing.spot(x, frame.high_m), wire);
  }
  for (const double y : steps_between(frame.low_m, frame.high_m - 0.2 * step, step)) {
    line(drawing.canvas, drawing.spot(frame.left_m, y), drawing.spot(frame.right_m, y), wire);
  }
}

void draw_boards(const Drawing& drawing, const Frame& frame, double board_m) {
  if (board_m <= 0.0) return;
  for (const double y : steps_between(frame.low_m, frame.high_m - 0.01, board_m)) {
    line(drawing.canvas, drawing.spot(frame.left_m, y), drawing.spot(frame.right_m, y), {hair, 0.6});
  }
}

std::string panel_words(const vessel::Design& design, const vessel::FlatPanel& panel, bool first) {
  const std::string kind = design.wall == vessel::Wall::open ? "mesh panel" : "wall panel";
  if (design.footprint == vessel::Footprint::round) return "One " + kind + ", flat, seen from outside";
  const std::string side = panel.count == 4 ? "all sides" : first ? "long sides" : "short sides";
  return std::to_string(panel.count) + " " + kind + "s, " + side;
}

void draw_panel(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths,
                const vessel::Development& flat, std::size_t which, double most_height_pt) {
  const vessel::FlatPanel& panel = flat.panels[which];
  const Frame frame{0.0, 0.0, panel.length_m, panel.height_m};
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, vessel.design, lengths, frame, {46.0, 6.0, 108.0, 36.0}, most_height_pt);
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, panel_words(vessel.design, panel, which == 0));
  fill(drawing.canvas, drawing.box(frame), wash);
  if (vessel.design.wall == vessel::Wall::open) {
    draw_net(drawing, frame);
  } else {
    draw_boards(drawing, frame, flat.board_m);
  }
  sheet::frame(drawing.canvas, drawing.box(frame), {ink, 1.2});
  for (const double height : flat.tie_heights_m) {
    for (const double x : {0.0, panel.length_m}) disc(drawing.canvas, drawing.spot(x, height), 2.2, accent);
  }
  draw_dimension(drawing.canvas, drawing.spot(0.0, 0.0), drawing.spot(0.0, panel.height_m), 18.0,
                 lengths(panel.height_m));
  draw_dimension(drawing.canvas, drawing.spot(0.0, 0.0), drawing.spot(panel.length_m, 0.0), -16.0,
                 lengths(panel.length_m));
  if (vessel.design.wall == vessel::Wall::closed) return;
  const double spacing = vessel::tie_pitch_m(vessel.design);
  const Spot tie = drawing.spot(panel.length_m, flat.tie_heights_m[flat.tie_heights_m.size() / 2]);
  draw_callouts(drawing.canvas,
                {{tie,
                  std::to_string(flat.tie_heights_m.size()) + " ties a joint, " +
                      (vessel.design.mesh ? "on the wires, " : "") + lengths(spacing) + " apart",
                  accent}},
                {tie.x + 22.0, tie.y - 30.0, 84.0, 70.0});
}

/// Words beside the fold lines, where the cloth is drawn wide and high enough for them; the text below says it too.
void label_folds(const Drawing& drawing, const vessel::Development& flat) {
  const double middle = 0.5 * (flat.lining_length_m - flat.flap_m);
  const std::string inward = "fold " + drawing.lengths(flat.fold_m) + " inward on the base";
  const std::string outward = "fold " + drawing.lengths(flat.fold_m) + " outward over the brim";
  const double wide = measure(drawing.canvas, outward, style::drawing).width;
  const double body = flat.lining_height_m - 2.0 * flat.fold_m;
  if (wide + 60.0 > 2.0 * middle * drawing.on_page.scale_pt_m || body * drawing.on_page.scale_pt_m < 44.0) return;
  const Spot bottom = drawing.spot(middle, flat.fold_m);
  draw_label(drawing.canvas, {bottom.x, bottom.y - 4.0}, inward, style::drawing, Across::middle, Down::bottom);
  const Spot brim = drawing.spot(middle, flat.lining_height_m - flat.fold_m);
  draw_label(drawing.canvas, {brim.x, brim.y + 4.0}, outward, style::drawing, Across::middle, Down::top);
}

void draw_lining(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths,
                 const vessel::Development& flat, double most_height_pt) {
  const Frame frame{0.0, 0.0, flat.lining_length_m, flat.lining_height_m};
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, vessel.design, lengths, frame, {78.0, 20.0, 76.0, 56.0}, most_height_pt);
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Lining, breathable cloth, flat");
  sheet::frame(drawing.canvas, drawing.box(frame), {ink, 1.2});
  const double joint = flat.lining_length_m - flat.flap_m;
  if (flat.flap_m > 0.0)
    fill(drawing.canvas, shrink(drawing.box({joint, 0.0, frame.right_m, frame.high_m}), 0.6), accent_wash);
  const Pen fold{ink, 0.7, {5.0, 3.0}};
  if (flat.fold_m > 0.0) {
    for (const double y : {flat.fold_m, frame.high_m - flat.fold_m}) {
      line(drawing.canvas, drawing.spot(0.0, y), drawing.spot(frame.right_m, y), fold);
    }
    draw_dimension(drawing.canvas, drawing.spot(0.0, 0.0), drawing.spot(0.0, flat.fold_m), 18.0, "");
    draw_dimension(drawing.canvas, drawing.spot(0.0, frame.high_m - flat.fold_m), drawing.spot(0.0, frame.high_m), 18.0,
                   "");
    draw_dimension(drawing.canvas, drawing.spot(0.0, flat.fold_m), drawing.spot(0.0, frame.high_m - flat.fold_m), 18.0,
                   lengths(frame.high_m - 2.0 * flat.fold_m));
    label_folds(drawing, flat);
  }
  draw_dimension(drawing.canvas, drawing.spot(0.0, 0.0), drawing.spot(0.0, frame.high_m), 50.0, lengths(frame.high_m));
  if (flat.flap_m > 0.0) {
    draw_dimension(drawing.canvas, drawing.spot(0.0, 0.0), drawing.spot(joint, 0.0), -14.0,
                   "once round " + lengths(joint));
    draw_callouts(
        drawing.canvas,
        {{drawing.spot(joint + 0.5 * flat.flap_m, 0.5 * frame.high_m), "flap " + lengths(flat.flap_m), accent}},
        {drawing.spot(frame.right_m, 0.0).x + 22.0, drawing.spot(0.0, 0.5 * frame.high_m).y - 16.0, 62.0, 44.0});
  }
  draw_dimension(drawing.canvas, drawing.spot(0.0, 0.0), drawing.spot(frame.right_m, 0.0), -38.0,
                 "cut " + lengths(frame.right_m));
}

void draw_cover(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, double most_height_pt) {
  const vessel::Design& design = vessel.design;
  const double beyond = vessel::Allowances{}.cloth_beyond_m;
  const Frame cloth = vessel::footprint_frame(design, beyond);
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, design, lengths, cloth, {60.0, 8.0, 150.0, 40.0}, most_height_pt);
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Cover cloth, flat, and base cloth alike");
  sheet::fill(drawing.canvas, drawing.box(cloth), wash);
  sheet::frame(drawing.canvas, drawing.box(cloth), {ink, 1.2});
  draw_wall_plan(drawing, {soft, 0.8, {5.0, 3.0}});
  for (const vessel::Channel& channel : design.channels) {
    const Spot at = drawing.on_page.spot(channel.centre);
    const double radius = 0.5 * channel.diameter_m * drawing.on_page.scale_pt_m;
    circle(drawing.canvas, at, radius, {ink, 0.9});
    for (int k = 0; k < 4; ++k) {
      const double c = radius * std::cos(constant::pi * k / 4.0);
      const double s = radius * std::sin(constant::pi * k / 4.0);
      line(drawing.canvas, {at.x - c, at.y - s}, {at.x + c, at.y + s}, {ink, 0.5});
    }
  }
  draw_dimension(drawing.canvas, drawing.spot(cloth.left_m, cloth.low_m), drawing.spot(cloth.right_m, cloth.low_m),
                 -14.0, lengths(cloth.width_m()));
  draw_dimension(drawing.canvas, drawing.spot(cloth.left_m, cloth.low_m), drawing.spot(cloth.left_m, cloth.high_m),
                 16.0, lengths(cloth.height_m()));
  const Frame wall = vessel::footprint_frame(design, 0.0);
  std::vector<Callout> notes{
      {drawing.spot(wall.right_m, 0.0), "wall, dashed: the cloth reaches " + lengths(beyond) + " past it"}};
  if (!design.channels.empty()) {
    const vessel::Channel& first = design.channels.back();
    notes.push_back({drawing.on_page.spot(first.centre), "star cut inside each channel, points folded under"});
  }
  const double column = drawing.spot(cloth.right_m, 0.0).x + 26.0;
  draw_callouts(drawing.canvas, notes,
                {column, drawing.spot(0.0, cloth.high_m).y, std::min(130.0, flow.left() + flow.width() - column),
                 cloth.height_m() * drawing.on_page.scale_pt_m});
}

/// How a closed wall stands: the plan gives sizes, not its strength.
std::string closed_words(const vessel::Design& design, const vessel::Development& flat,
                         quantity::WorkshopLengths& lengths) {
  if (design.footprint == vessel::Footprint::round) {
    return "Bend a stiff sheet round until it is " + lengths(design.diameter_m) +
           " across, measured both ways, and join it so that it holds the pull on the loads sheet.";
  }
  return std::to_string(flat.boards_a_side) + " boards of " + lengths(flat.board_m) +
         " a side, one above the other, saw the top one to the brim; " + std::to_string(flat.posts) + " posts of " +
         lengths(flat.post_length_m) + " outside them, one at each corner and the others evenly, at most " +
         lengths(vessel::Allowances{}.post_spacing_m) +
         " apart. Screw each board to each post. Straight walls bend: have posts and ties designed locally for the "
         "push "
         "on the loads sheet. Measure both diagonals: they must be alike.";
}

/// How wall and lining are put up.
void wall_words(Flow& flow, const vessel::Design& design, const vessel::Development& flat,
                quantity::WorkshopLengths& lengths) {
  if (design.wall == vessel::Wall::closed) {
    flow.paragraph(closed_words(design, flat, lengths));
    flow.paragraph("Wear gloves against splinters, and keep hands behind saw and drill.");
    return;
  }
  flow.paragraph(design.footprint == vessel::Footprint::round
                     ? "Bend the panel round until its ends meet, edge to edge without overlap, and tie them from the "
                       "bottom up, cut ends turned outward. Inside it is then " +
                           lengths(design.diameter_m) + " across: measure it both ways before the last tie."
                     : "Stand the panels on the base, tie the four corners from the bottom up, and measure both "
                       "diagonals: they must be alike before the last tie.");
  if (design.panel_width_m > design.height_m + 1e-4) {
    flow.paragraph("The mesh is sold " + lengths(design.panel_width_m) + " wide: trim it to " +
                   lengths(design.height_m) + ", just above a wire, and turn the cut ends outward.");
  }
  flow.paragraph(std::string("Hang the lining inside, its flap over the joint, ") +
                 (flat.fold_m > 0.0
                      ? lengths(flat.fold_m) + " (dashed) outward over the brim and held there, and as much "
                                               "inward on the base. "
                      : "its upper edge tied at the brim. ") +
                 "Wear gloves and eye protection: cut wire springs back and its ends are sharp.");
}

}  // namespace

void cage_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  const vessel::Design& design = vessel.design;
  const bool open = design.wall == vessel::Wall::open;
  flow.start_sheet(open ? "Wall, lining and cover, laid flat" : "Wall and cover, laid flat", vessel_title(design));
  quantity::WorkshopLengths lengths(plan.site.units);
  const vessel::Development flat = vessel::development_of(design);
  const auto under = [&](Flow& below) {
    wall_words(below, design, flat, lengths);
    state_rounding(below, lengths);
  };
  double drawings = static_cast<double>(flat.panels.size()) + (open ? 2.0 : 1.0);  // still to draw
  const double below_pt = flow.room() - room_for_drawing(flow, under, 0.5);
  const auto share = [&] { return (flow.room() - below_pt) / drawings--; };
  for (std::size_t i = 0; i < flat.panels.size(); ++i) draw_panel(flow, vessel, lengths, flat, i, share());
  if (open) draw_lining(flow, vessel, lengths, flat, share());
  draw_cover(flow, vessel, lengths, share());
  under(flow);
}

}  // namespace stillheap::sheet
