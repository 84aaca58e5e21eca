#include <algorithm>
#include <cmath>
#include <functional>

#include "domain/vessel/base.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Frame;

std::string bearer_letter(std::size_t i) { return std::string(1, static_cast<char>('A' + i % 26)); }

/// Middles of strips from the footprint's edge, rising, with their own index kept.
struct Mark {
  double at_m = 0.0;
  double length_m = 0.0;
};

std::vector<Mark> marks_of(const std::vector<vessel::Slat>& strips, bool by_x, double edge_m) {
  std::vector<Mark> marks;
  for (const vessel::Slat& strip : strips) {
    marks.push_back({(by_x ? strip.from.x_m : strip.from.y_m) - edge_m, distance_m(strip.from, strip.to)});
  }
  std::sort(marks.begin(), marks.end(), [](const Mark& a, const Mark& b) { return a.at_m < b.at_m; });
  return marks;
}

struct BaseMarks {
  std::vector<Mark> bearers, slats;
};

BaseMarks base_marks(const vessel::Design& design) {
  const bool slats_x = vessel::slats_along_x(design);
  const Frame frame = vessel::footprint_frame(design, 0.0);
  const double left = slats_x ? frame.left_m : frame.low_m;
  const double low = slats_x ? frame.low_m : frame.left_m;
  return {marks_of(design.bearers, slats_x, left), marks_of(design.slats, !slats_x, low)};
}

/// Letters of the bearers and numbers of the slats beside the figure, each at its middle.
void draw_names(const Drawing& drawing, const BaseMarks& marks) {
  const Frame frame = vessel::footprint_frame(drawing.design, 0.0);
  const bool slats_x = vessel::slats_along_x(drawing.design);
  const Style name{style::drawing.size_pt, Weight::strong};
  const auto under = [&](double x, const std::string& text) {
    const Spot at = drawing.spot(x, frame.low_m);
    draw_label(drawing.canvas, {at.x, at.y + 5.0}, text, name, Across::middle, Down::top);
  };
  const auto beside = [&](double y, const std::string& text) {
    const Spot at = drawing.spot(frame.left_m, y);
    draw_label(drawing.canvas, {at.x - 5.0, at.y}, text, name, Across::right, Down::middle);
  };
  for (std::size_t i = 0; i < marks.bearers.size(); ++i) {
    const double at = marks.bearers[i].at_m;
    slats_x ? under(frame.left_m + at, bearer_letter(i)) : beside(frame.low_m + at, bearer_letter(i));
  }
  const double pitch_pt =
      marks.slats.size() > 1 ? (marks.slats[1].at_m - marks.slats[0].at_m) * drawing.on_page.scale_pt_m : 99.0;
  const std::size_t every = pitch_pt > 14.0 ? 1 : marks.slats.size();  // only the ends where they stand close
  for (std::size_t i = 0; i < marks.slats.size(); ++i) {
    if (i % every != 0 && i + 1 != marks.slats.size()) continue;
    const double at = marks.slats[i].at_m;
    slats_x ? beside(frame.low_m + at, std::to_string(i + 1)) : under(frame.left_m + at, std::to_string(i + 1));
  }
}

void draw_bearers_dashed(const Drawing& drawing) {
  for (const vessel::Slat& bearer : drawing.design.bearers) {
    const bool along_y = std::abs(bearer.to.x_m - bearer.from.x_m) < 1e-9;
    const double dx = along_y ? 0.5 * bearer.width_m : 0.0;
    const double dy = along_y ? 0.0 : 0.5 * bearer.width_m;
    const Spot corners[] = {
        drawing.spot(bearer.from.x_m - dx, bearer.from.y_m - dy), drawing.spot(bearer.to.x_m - dx, bearer.to.y_m - dy),
        drawing.spot(bearer.to.x_m + dx, bearer.to.y_m + dy), drawing.spot(bearer.from.x_m + dx, bearer.from.y_m + dy)};
    polyline(drawing.canvas, corners, {ink, 0.9, {5.0, 2.5}}, true);
  }
}

/// Holes with the stop across each, and the seats under them.
void draw_holes(const Drawing& drawing) {
  for (const vessel::Seat& seat : vessel::seats_of(drawing.design)) {
    sheet::frame(drawing.canvas, drawing.box(seat.board), {accent, 0.9, {3.0, 2.0}});
  }
  for (const vessel::Channel& channel : drawing.design.channels) {
    const Spot at = drawing.on_page.spot(channel.centre);
    const double radius = 0.5 * channel.diameter_m * drawing.on_page.scale_pt_m;
    disc(drawing.canvas, at, radius, paper_white);
    circle(drawing.canvas, at, radius, {ink, 1.2});
    const double half = radius + vessel::stop_rod_beyond_m * drawing.on_page.scale_pt_m;
    const bool across_x = !vessel::slats_along_x(drawing.design);
    line(drawing.canvas, {at.x - (across_x ? half : 0.0), at.y - (across_x ? 0.0 : half)},
         {at.x + (across_x ? half : 0.0), at.y + (across_x ? 0.0 : half)}, {ink, 0.8});
  }
}

std::string channels_words(const vessel::Design& design) {
  double most = 0.0;
  for (const vessel::Channel& channel : design.channels)
    most = std::max(most, vessel::covered_by_bearers(design, channel));
  return most < 0.005 ? "no bearer under a hole" : "a bearer covers up to " + percent(most) + " of a hole";
}

std::vector<Callout> base_notes(const Drawing& drawing, quantity::WorkshopLengths& lengths) {
  const vessel::Design& design = drawing.design;
  const bool slats_x = vessel::slats_along_x(design);
  std::vector<Callout> notes;
  if (!design.slats.empty()) {
    const vessel::Slat& slat = design.slats[design.slats.size() / 2];
    notes.push_back({drawing.spot(std::lerp(slat.from.x_m, slat.to.x_m, slats_x ? 0.96 : 0.5),
                                  std::lerp(slat.from.y_m, slat.to.y_m, slats_x ? 0.5 : 0.96)),
                     std::to_string(design.slats.size()) + " slats, " + lengths(slat.width_m) + " wide, " +
                         lengths(vessel::deck_thickness_m) + " thick"});
  } else {
    notes.push_back({drawing.spot(0.45 * vessel::across_m(design), 0.1 * vessel::deep_m(design)),
                     design.base_open ? "slatted deck or pallet deck, open under each channel" : "closed base"});
  }
  if (!design.bearers.empty()) {
    const vessel::Slat& last = design.bearers.back();
    notes.push_back(
        {drawing.spot(std::lerp(last.from.x_m, last.to.x_m, 0.1), std::lerp(last.from.y_m, last.to.y_m, 0.1)),
         std::to_string(design.bearers.size()) + " bearers under the deck, dashed, " + lengths(last.width_m) +
             " wide and " + lengths(design.base_gap_m) + " high"});
  }
  if (design.channels.empty() || !design.base_open) return notes;
  const auto right = std::max_element(design.channels.begin(), design.channels.end(),
                                      [](const auto& a, const auto& b) { return a.centre.x_m < b.centre.x_m; });
  notes.push_back(
      {drawing.spot(right->centre.x_m + 0.35 * right->diameter_m, right->centre.y_m - 0.35 * right->diameter_m),
       "hole under each channel, from the drilling template; " + channels_words(design) + "; a stop across each"});
  return notes;
}

void draw_plan(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, double most_pt) {
  const vessel::Design& design = vessel.design;
  const Frame frame = vessel::footprint_frame(design, 0.0);
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, design, lengths, frame, {80.0, 10.0, 150.0, 50.0}, most_pt);
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Base from above");
  if (design.slats.empty()) sheet::fill(drawing.canvas, drawing.box(frame), deck);
  for (const vessel::Slat& slat : design.slats) draw_strip(drawing, slat, deck, {ink, 0.6});
  draw_bearers_dashed(drawing);
  draw_wall_plan(drawing, {ink, 1.8});
  draw_holes(drawing);
  draw_names(drawing, base_marks(design));
  draw_dimension(drawing.canvas, drawing.spot(frame.left_m, frame.low_m), drawing.spot(frame.right_m, frame.low_m),
                 -26.0, lengths(frame.width_m()));
  draw_dimension(drawing.canvas, drawing.spot(frame.left_m, frame.low_m), drawing.spot(frame.left_m, frame.high_m),
                 34.0, lengths(frame.height_m()));
  const double column = drawing.spot(frame.right_m, 0.0).x + 30.0;
  draw_callouts(drawing.canvas, base_notes(drawing, lengths),
                {column, drawing.spot(0.0, frame.high_m).y, std::min(150.0, flow.left() + flow.width() - column),
                 frame.height_m() * drawing.on_page.scale_pt_m + 30.0});
}

/// A mark and its length stay on one line.
std::string unbroken(const std::string& text) {
  std::string kept;
  for (const char c : text) c == ' ' ? kept += "\u00a0" : kept += c;
  return kept;
}

/// "A 22, B 410, C 790 mm" on one tape, and the cut lengths, alike ones together.
Row mark_row(const std::string& what, const std::vector<Mark>& marks, quantity::WorkshopLengths& lengths,
             const std::function<std::string(std::size_t)>& name) {
  std::string places, cuts;
  std::vector<bool> told(marks.size(), false);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    places += (i == 0 ? "" : ";  ") + unbroken(name(i) + "  " + lengths(marks[i].at_m));
    if (told[i]) continue;
    std::string names;
    for (std::size_t j = i; j < marks.size(); ++j) {
      if (std::abs(marks[j].length_m - marks[i].length_m) > 5e-4) continue;
      told[j] = true;
      names += (names.empty() ? "" : ", ") + name(j);
    }
    cuts += (cuts.empty() ? "" : ";  ") + names + ": " + unbroken(lengths(marks[i].length_m));
  }
  return {{what, places, cuts}};
}

void draw_marks(Flow& flow, const vessel::Design& design, quantity::WorkshopLengths& lengths) {
  const BaseMarks marks = base_marks(design);
  const bool slats_x = vessel::slats_along_x(design);
  Table table;
  table.heading = "Marks along one tape, from the outer edge to each middle, and cut lengths";
  table.size_pt = 11.0;
  table.columns = {{.head = "", .strong = true}, {.head = "Middle at"}, {.head = "Cut"}};
  if (!marks.bearers.empty()) {
    table.rows.push_back(mark_row(slats_x ? "Bearers, from the left" : "Bearers, from the front", marks.bearers,
                                  lengths, bearer_letter));
  }
  if (!marks.slats.empty()) {
    table.rows.push_back(mark_row(slats_x ? "Slats, from the front" : "Slats, from the left", marks.slats, lengths,
                                  [](std::size_t i) { return std::to_string(i + 1); }));
  }
  if (!table.rows.empty()) draw_table(flow, table);
}

/// Screws, seats and stops in words.
void deck_words(Flow& flow, const vessel::Design& design, quantity::WorkshopLengths& lengths) {
  if (!design.base_open) return;
  std::string text =
      "Two screws at each crossing of slat and bearer, as long as the deck is thick and twice as much again.";
  const std::vector<vessel::Seat> seats = vessel::seats_of(design);
  int cut = 0;
  for (const vessel::Seat& seat : seats) cut += seat.slats_cut;
  if (!seats.empty()) {
    text += " Under " + std::to_string(seats.size()) + (seats.size() == 1 ? " hole" : " holes") +
            " screw a seat board (dashed, sizes in the cut list) to the whole slats on both sides before you drill: it "
            "bridges the gap" +
            (cut > 0 ? " and carries the ends of " + std::to_string(cut) +
                           (cut == 1 ? " slat that is" : " slats that are") + " cut through."
                     : std::string("."));
  }
  if (!design.channels.empty()) {
    text += " Staple a rod of " + lengths(vessel::stop_rod_m) + " across the underside of each hole, " +
            lengths(vessel::stop_rod_beyond_m) +
            " past it at both ends: the form stands on it and does not fall through. It covers " +
            percent(vessel::covered_by_stop(design.channels.front())) + " of the hole.";
  }
  flow.paragraph(text);
}

/// The base from the front, with a straight board and a level on it. Returns where its notes end.
double draw_levelling(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths) {
  constexpr double most_pt = 112.0;  // a low, wide figure
  const vessel::Design& design = vessel.design;
  const double half = 0.5 * vessel::across_m(design);
  const double gap = design.base_gap_m;
  const double under = -gap - vessel::deck_thickness_m;
  const Frame frame{-half - 0.08, under - 0.03, half + 0.08, 0.26};
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, design, lengths, frame, {60.0, 8.0, 172.0, 46.0}, most_pt);
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Levelling, from the front");
  draw_ground_line(drawing, frame.left_m, frame.right_m, under);
  draw_bearers(drawing);
  sheet::fill(drawing.canvas, drawing.box({-half, -vessel::deck_thickness_m, half, 0.0}), deck);
  sheet::frame(drawing.canvas, drawing.box({-half, -vessel::deck_thickness_m, half, 0.0}), {ink, 0.8});
  const Box board = drawing.box({-0.95 * half, 0.0, 0.95 * half, 0.06});
  sheet::frame(drawing.canvas, board, {ink, 0.8});
  const Box level = drawing.box({-0.3, 0.06, 0.3, 0.12});
  sheet::fill(drawing.canvas, level, accent_wash);
  sheet::frame(drawing.canvas, level, {accent, 1.0});
  circle(drawing.canvas, {level.middle_x(), level.middle_y()}, 0.32 * level.height, {accent, 0.9});
  if (gap > 0.0) {
    draw_dimension(drawing.canvas, drawing.spot(-half, under), drawing.spot(-half, -vessel::deck_thickness_m), 20.0,
                   lengths(gap));
  }
  return draw_callouts(drawing.canvas,
                       {{{board.right() - 8.0, board.middle_y()}, "straight board"},
                        {{level.right() - 4.0, level.middle_y()}, "level; turn it end for end and read again", accent},
                        {drawing.spot(half, under), "firm ground, topsoil and roots taken off"}},
                       {drawing.spot(frame.right_m, 0.0).x + 22.0, drawing.spot(0.0, 0.26).y - 10.0, 150.0, 120.0});
}

void levelling(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, double level_m) {
  const double noted = draw_levelling(flow, vessel, lengths);
  flow.space(std::max(0.0, noted - flow.y()));
  flow.paragraph(
      "Level it both ways and along both diagonals, to " + lengths(level_m) +
      " over the whole base (chosen), "
      "by packing under the bearers, never by wedging under the wall. A leaning vessel loads one side of its "
      "wall. Read it again a week after filling, and have ground that gives way judged by a qualified person.");
}

}  // namespace

void base_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  flow.start_sheet("Base and levelling", vessel_title(vessel.design));
  quantity::WorkshopLengths lengths(plan.site.units);
  const auto under = [&](Flow& below) {
    draw_marks(below, vessel.design, lengths);
    deck_words(below, vessel.design, lengths);
    levelling(below, vessel, lengths, plan.site.units == UnitSystem::us ? 0.25 * 0.0254 : 0.006);
    below.paragraph(
        "The base carries the full wet weight (see the loads): use sound timber, and for a bought pallet keep to the "
        "load its maker states.");
    state_rounding(below, lengths);
  };
  constexpr double least_share = 0.33;  // of the page for the plan, chosen
  draw_plan(flow, vessel, lengths, room_for_drawing(flow, under, least_share));
  under(flow);
}

}  // namespace stillheap::sheet
