#include <algorithm>
#include <cmath>
#include <functional>

#include "domain/vessel/base.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/iso.hpp"
#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

enum class Outline { corner, wall, forms };

/// One layer of the stack: how far it reaches above its own zero, its note, and how it is drawn there.
struct Layer {
  double rise_m = 0.0;
  double margin_m = 0.0;
  std::string note;
  Outline outline = Outline::corner;
  std::function<void(Canvas&, const Iso&, double z_m)> draw;
};

Skin skin_of(const vessel::Design& design) { return design.wall == vessel::Wall::open ? Skin::mesh : Skin::boards; }

std::vector<Layer> layers_of(const plan::VesselPlan& vessel, bool water_line, quantity::WorkshopLengths& lengths) {
  const vessel::Design& design = vessel.design;
  const double beyond = vessel::Allowances{}.cloth_beyond_m;
  const double forms = vessel::form_length_m(design);
  const bool open = design.wall == vessel::Wall::open;
  std::vector<Layer> layers;
  layers.push_back(
      {0.0, 0.0, design.base_gap_m > 0.0 ? "base: deck on bearers, " + lengths(design.base_gap_m) + " free" : "base",
       Outline::corner, [&design](Canvas& canvas, const Iso& iso, double z) { draw_base(canvas, iso, design, z); }});
  layers.push_back({0.0, beyond, "base cloth, open under each channel", Outline::corner,
                    [&design, beyond](Canvas& canvas, const Iso& iso, double z) {
                      draw_cloth(canvas, iso, design, beyond, z, true);
                    }});
  layers.push_back({design.height_m, 0.0,
                    std::string(open ? "cage of wire mesh, " : "wall of boards, ") + lengths(design.height_m) + " high",
                    Outline::wall, [&design](Canvas& canvas, const Iso& iso, double z) {
                      draw_wall_behind(canvas, iso, design, z, design.height_m, skin_of(design));
                      draw_wall_front(canvas, iso, design, z, design.height_m, skin_of(design), 0.35);
                    }});
  if (open) {
    layers.push_back({design.height_m, 0.0, "lining of breathable cloth, flap over the joint of the cage",
                      Outline::wall, [&design](Canvas& canvas, const Iso& iso, double z) {
                        draw_wall_behind(canvas, iso, design, z, design.height_m, Skin::cloth);
                        draw_wall_front(canvas, iso, design, z, design.height_m, Skin::cloth, 0.75);
                      }});
  }
  if (!design.channels.empty()) {
    layers.push_back(
        {forms, 0.0, std::to_string(design.channels.size()) + " forms, " + lengths(forms) + " long, pulled after a day",
         Outline::forms, [&design, forms](Canvas& canvas, const Iso& iso, double z) {
           draw_pipes(canvas, iso, design, z, z + forms);
         }});
  }
  if (water_line)
    layers.push_back({0.0, 0.0, "water line, inside the wall", Outline::wall,
                      [&design](Canvas& canvas, const Iso& iso, double z) { draw_ring_line(canvas, iso, design, z); }});
  layers.push_back({0.0, beyond, "cover cloth, open over each channel", Outline::corner,
                    [&design, beyond](Canvas& canvas, const Iso& iso, double z) {
                      draw_cloth(canvas, iso, design, beyond, z, true);
                    }});
  return layers;
}

/// The right end of a layer: a corner, the edge of a round wall, or the rightmost form.
Spot anchor_of(const Iso& iso, const vessel::Design& design, const Layer& layer, double z_m) {
  if (layer.outline == Outline::forms) {
    const auto right = std::max_element(
        design.channels.begin(), design.channels.end(),
        [](const auto& a, const auto& b) { return a.centre.x_m + a.centre.y_m < b.centre.x_m + b.centre.y_m; });
    return iso.spot(right->centre.x_m, right->centre.y_m, z_m);
  }
  if (layer.outline == Outline::wall && design.footprint == vessel::Footprint::round) {
    const double along = 0.5 * design.diameter_m * std::sqrt(0.5);
    return iso.spot(along, along, z_m);
  }
  const vessel::Frame frame = vessel::footprint_frame(design, layer.margin_m - 0.01);
  return iso.spot(frame.right_m, frame.high_m, z_m);
}

}  // namespace

void exploded_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  const vessel::Design& design = vessel.design;
  flow.start_sheet("How the parts stack", vessel_title(design));
  flow.holds_drawing();
  quantity::WorkshopLengths lengths(plan.site.units);
  const std::vector<Layer> layers = layers_of(vessel, !plan.site.water.by_hand, lengths);
  const double beyond = vessel::Allowances{}.cloth_beyond_m;
  const double half_depth = iso_half_depth_m(design, 0.0);
  const double cloth_depth = iso_half_depth_m(design, beyond);
  constexpr double air_share = 0.75;  // chosen: of a layer's depth left clear to the next
  std::vector<double> z;
  double top = 0.0;
  for (const Layer& layer : layers) {
    z.push_back(top);
    top += layer.rise_m + air_share * 2.0 * half_depth * (layer.rise_m > 0.0 ? 0.62 : 0.5);
  }
  const double high = z.back() + design.base_gap_m + 0.05 + half_depth + cloth_depth;
  const double wide = 2.0 * iso_half_width_m(design, beyond);
  const Box area = flow.take(flow.room() - 64.0);
  const double notes_pt = 150.0;
  const double scale = std::min((area.width - notes_pt) / wide, area.height / high);
  const double left = area.x + 0.5 * (area.width - notes_pt);
  const Iso iso{{left, area.bottom() - (design.base_gap_m + 0.05 + half_depth) * scale}, scale};
  // Dash-dotted line through all middles, drawn first so that the parts stand before it.
  line(flow.canvas(), iso.spot(0, 0, -design.base_gap_m), iso.spot(0, 0, z.back() + 0.1),
       {soft, 0.5, {9.0, 2.5, 1.5, 2.5}});
  std::vector<Callout> notes;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    layers[i].draw(flow.canvas(), iso, z[i]);
    notes.push_back({anchor_of(iso, design, layers[i], z[i] + 0.5 * layers[i].rise_m), layers[i].note});
  }
  const double column = left + iso_half_width_m(design, beyond) * scale + 24.0;
  draw_callouts(flow.canvas(), notes, {column, area.y, area.right() - column, area.height});
  flow.paragraph(
      "From the bottom up, in the order of building. The holes in deck and base cloth, the forms and the holes in the "
      "cover stand over each other: air goes in below and out above.");
  state_rounding(flow, lengths);
}

}  // namespace stillheap::sheet
