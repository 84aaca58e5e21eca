#include "core/base/constants.hpp"
#include "present/sheet/words.hpp"
#include "present/template/template_drawing.hpp"

namespace stillheap::sheet {
namespace {

constexpr TemplateLayer layers[] = {TemplateLayer::slat,   TemplateLayer::cloth, TemplateLayer::wall,
                                    TemplateLayer::centre, TemplateLayer::ring,  TemplateLayer::hole};

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else {
      out += c;
    }
  }
  return out;
}

double mm(double metres) { return metres * 1000.0; }

/// name="12.3456"
std::string length(const char* name, double metres) {
  return std::string(" ") + name + "=\"" + decimal(mm(metres), 4) + '"';
}

std::string group(const TemplateDrawing& drawing, TemplateLayer layer) {
  const bool hole = layer == TemplateLayer::hole;
  const bool dashed = layer == TemplateLayer::centre || layer == TemplateLayer::ring;
  std::string out = "  <g id=\"" + layer_name(layer) + "\" fill=\"none\" stroke=\"" + (hole ? "#000000" : "#909090") +
                    "\" stroke-width=\"" + (hole ? "0.3" : "0.2") + '"' +
                    (dashed ? " stroke-dasharray=\"6 1.5 1 1.5\"" : "") + ">\n";
  for (const TemplateCircle& circle : drawing.circles) {
    if (circle.layer != layer) continue;
    out += "    <circle" + length("cx", circle.centre.x_m) + length("cy", -circle.centre.y_m) +
           length("r", circle.radius_m) + "/>\n";
  }
  for (const TemplateLine& line : drawing.lines) {
    if (line.layer != layer) continue;
    out += "    <line" + length("x1", line.from.x_m) + length("y1", -line.from.y_m) + length("x2", line.to.x_m) +
           length("y2", -line.to.y_m) + "/>\n";
  }
  return out + "  </g>\n";
}

std::string notes(const TemplateDrawing& drawing) {
  std::string out = "  <g id=\"NOTES\" fill=\"#303030\" font-family=\"sans-serif\" text-anchor=\"middle\">\n";
  for (const TemplateText& text : drawing.texts) {
    const std::string x = decimal(mm(text.at.x_m), 3);
    const std::string y = decimal(-mm(text.at.y_m), 3);
    // Capitals are some seven tenths of the size: a little over a third of it below the middle centres them.
    out += "    <text x=\"" + x + '"';
    out += length("y", -text.at.y_m + 0.36 * text.height_m) + length("font-size", text.height_m);
    out += " transform=\"rotate(" + decimal(-text.angle_rad * 180.0 / constant::pi, 3);
    out += ' ' + x;
    out += ' ' + y + ")\">";
    out += escaped(text.text) + "</text>\n";
  }
  return out + "  </g>\n";
}

}  // namespace

std::string template_svg(const TemplateDrawing& drawing) {
  const double beyond = drawing.cloth_beyond_m;
  const std::string width = decimal(mm(drawing.whole.width_m() + 2.0 * beyond), 3);
  const std::string height = decimal(mm(drawing.whole.height_m() + 2.0 * beyond), 3);
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" + width + "mm\" height=\"" + height +
         "mm\" viewBox=\"" + decimal(mm(drawing.whole.left_m - beyond), 3) + ' ' +
         decimal(-mm(drawing.whole.high_m + beyond), 3) + ' ' + width + ' ' + height + "\">\n";
  out += "  <title>" + escaped(drawing.vessel) +
         ": drilling template of base and base cloth, millimetres, true scale</title>\n";
  for (const TemplateLayer layer : layers) out += group(drawing, layer);
  return out + notes(drawing) + "</svg>\n";
}

}  // namespace stillheap::sheet
