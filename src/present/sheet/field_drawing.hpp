#pragma once
#include <span>
#include <string>
#include <vector>

#include "planning/plan/plan.hpp"
#include "present/draw/text.hpp"
#include "present/draw/ticks.hpp"
#include "present/sheet/field_view.hpp"

/// What the section figure, the year sheet and the animation draw alike: fields in cuts, and their colour bars.
namespace stillheap::sheet {

/// A field of a snapshot and how it is coloured.
struct ShownField {
  std::string name;
  Field forecast::Snapshot::*field;
  Dimension dimension;
  std::string unit_words;  ///< empty: the unit of the dimension
  FieldMap map;
  double line_at;  ///< SI value drawn as a line
  std::string line_words;
};

/// Temperature, oxygen and moisture.
[[nodiscard]] std::vector<ShownField> shown_fields(UnitSystem units);

/// The colour scale of a field, in SI, that fits all snapshots, so that a colour means the same in every figure: round
/// in the reader's unit. Oxygen runs from nothing to free air.
[[nodiscard]] Span shared_scale(const std::vector<forecast::Snapshot>& snapshots, const ShownField& shown,
                                UnitSystem units);

/// The cut in the middle of the box, at the scale, with the vessel's outline.
void draw_plan_cell(Canvas& canvas, const Box& box, const vessel::Design& design, const forecast::FieldMesh& mesh,
                    const forecast::Snapshot& snapshot, const ShownField& shown, Span scale, double scale_pt_m);
void draw_upright_cell(Canvas& canvas, const Box& box, const vessel::Design& design, const forecast::FieldMesh& mesh,
                       const forecast::Snapshot& snapshot, const ShownField& shown, Span scale, double scale_pt_m);

/// Height of a colour bar with its words above and its numbers below.
inline constexpr double colour_bar_height_pt = 36.0;
void draw_colour_bar(Canvas& canvas, const Box& box, const ShownField& shown, Span scale, UnitSystem units);

/// "day 0.5", "day 28"
[[nodiscard]] std::string day_words(double day);

}  // namespace stillheap::sheet
