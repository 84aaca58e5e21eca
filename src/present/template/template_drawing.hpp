#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "planning/plan/plan.hpp"
#include "present/draw/canvas.hpp"
#include "present/template/tiling.hpp"

/// The drilling template of base and base cloth at true scale: one list of figures, metres, y upwards, origin in the
/// middle of the vessel, that the PDF, SVG and DXF writers all draw.
namespace stillheap::sheet {

/// What a figure stands for. Holes alone are drawn in black, so that nothing else is cut by mistake.
enum class TemplateLayer { hole, centre, ring, wall, slat, cloth, note };

/// "HOLES", "CENTRE", ...: names of the layers in SVG and DXF.
[[nodiscard]] std::string layer_name(TemplateLayer layer);

struct TemplateCircle {
  Point centre;
  double radius_m = 0.0;
  TemplateLayer layer = TemplateLayer::hole;
};

struct TemplateLine {
  Point from, to;
  TemplateLayer layer = TemplateLayer::centre;
};

/// One line of text, centred on its place and turned anticlockwise.
struct TemplateText {
  Point at;
  double height_m = 0.004;
  double angle_rad = 0.0;
  std::string text;
};

struct TemplateDrawing {
  std::string vessel;
  UnitSystem units = UnitSystem::metric;
  std::vector<TemplateCircle> circles;
  std::vector<TemplateLine> lines;
  std::vector<TemplateText> texts;
  vessel::Frame holes;  ///< what the tiled pages cover: the holes with a margin
  vessel::Frame whole;  ///< what the large page covers: the footprint with a margin
  double cloth_beyond_m = 0.0;
  double worst_rounding_m = 0.0;  ///< of the lengths written on it; the drawing itself is not rounded
};

/// Holes the width of the forms, centre lines, rings with radii, angles and chords (round) or rows with their spacings
/// (rectangular), wall, slats and cloth edge.
[[nodiscard]] TemplateDrawing template_drawing(const vessel::Design& design, UnitSystem units);

/// Draws the figures with the plan's origin at the spot, true to scale. `frame` is what shows; texts whose middle is
/// outside are left out.
void draw_template(Canvas& canvas, const TemplateDrawing& drawing, const vessel::Frame& frame, Spot origin);

/// A pages' worth of PDF each: tiled on this paper, with an index page before; or one large page.
/// Both return the number of pages and throw RunError when the file cannot be written.
int write_tiled_template(const TemplateDrawing& drawing, const Paper& paper, const std::string& date,
                         const std::filesystem::path& file);
int write_large_template(const TemplateDrawing& drawing, const std::string& date, const std::filesystem::path& file);

/// The window that one page of this paper shows.
[[nodiscard]] TileWindow window_of(const Paper& paper, UnitSystem units);

/// SVG 1.1 in millimetres, the origin of the view box in the middle of the vessel, y downwards as SVG has it.
[[nodiscard]] std::string template_svg(const TemplateDrawing& drawing);
/// DXF of release 12 (AC1009), ASCII, millimetres, y upwards.
[[nodiscard]] std::string template_dxf(const TemplateDrawing& drawing);

/// Writes the templates of every vessel with channels into the folder (made if missing): tiled on A4 and on Letter, one
/// large page, SVG, DXF. Returns the files. Throws RunError when one cannot be written.
std::vector<std::filesystem::path> write_templates(const plan::Plan& plan, const std::filesystem::path& folder);

}  // namespace stillheap::sheet
