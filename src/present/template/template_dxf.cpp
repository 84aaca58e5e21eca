#include <iterator>

#include "core/base/constants.hpp"
#include "present/sheet/words.hpp"
#include "present/template/template_drawing.hpp"

/// DXF as the public reference of release 12 has it: pairs of a group code and a value, a line each. Only a header, a
/// table of line types and layers, and the entities CIRCLE, LINE and TEXT.
namespace stillheap::sheet {
namespace {

struct Layer {
  TemplateLayer layer;
  int colour;  ///< colour number of the format: 7 black or white, 1 red, 3 green, 4 cyan, 5 blue, 8 grey
};
constexpr Layer layers[] = {{TemplateLayer::hole, 7}, {TemplateLayer::centre, 1}, {TemplateLayer::ring, 8},
                            {TemplateLayer::wall, 5}, {TemplateLayer::slat, 3},   {TemplateLayer::cloth, 4},
                            {TemplateLayer::note, 8}};

std::string pair(int code, const std::string& value) {
  const std::string digits = std::to_string(code);
  return std::string(digits.size() < 3 ? 3 - digits.size() : 0, ' ') + digits + '\n' + value + '\n';
}
std::string number(int code, double metres) { return pair(code, decimal(metres * 1000.0, 6)); }
std::string point(int code, Point p) { return number(code, p.x_m) + number(code + 10, p.y_m) + number(code + 20, 0.0); }

/// Release 12 knows no UTF-8: a degree sign is written as %%d, other signs as a question mark.
std::string plain(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.compare(i, 2, "\u00B0") == 0) {
      out += "%%d";
      ++i;
    } else if (static_cast<unsigned char>(text[i]) < 128) {
      out += text[i];
    } else if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U) {
      out += '?';
    }
  }
  return out;
}

std::string header(const TemplateDrawing& drawing) {
  const double beyond = drawing.cloth_beyond_m;
  std::string out = pair(999, "Drilling template in millimetres, true scale, origin in the middle of the vessel");
  out += pair(0, "SECTION") + pair(2, "HEADER") + pair(9, "$ACADVER") + pair(1, "AC1009");
  out += pair(9, "$EXTMIN") + point(10, {drawing.whole.left_m - beyond, drawing.whole.low_m - beyond});
  out += pair(9, "$EXTMAX") + point(10, {drawing.whole.right_m + beyond, drawing.whole.high_m + beyond});
  return out + pair(0, "ENDSEC");
}

std::string tables() {
  std::string out = pair(0, "SECTION") + pair(2, "TABLES");
  out += pair(0, "TABLE") + pair(2, "LTYPE") + pair(70, "1") + pair(0, "LTYPE") + pair(2, "CONTINUOUS") +
         pair(70, "0") + pair(3, "Solid line") + pair(72, "65") + pair(73, "0") + pair(40, "0.0") + pair(0, "ENDTAB");
  out += pair(0, "TABLE") + pair(2, "LAYER") + pair(70, std::to_string(std::size(layers)));
  for (const Layer& one : layers) {
    out += pair(0, "LAYER") + pair(2, layer_name(one.layer)) + pair(70, "0") + pair(62, std::to_string(one.colour)) +
           pair(6, "CONTINUOUS");
  }
  return out + pair(0, "ENDTAB") + pair(0, "ENDSEC");
}

std::string entities(const TemplateDrawing& drawing) {
  std::string out = pair(0, "SECTION") + pair(2, "ENTITIES");
  for (const TemplateCircle& circle : drawing.circles) {
    out +=
        pair(0, "CIRCLE") + pair(8, layer_name(circle.layer)) + point(10, circle.centre) + number(40, circle.radius_m);
  }
  for (const TemplateLine& line : drawing.lines) {
    out += pair(0, "LINE") + pair(8, layer_name(line.layer)) + point(10, line.from) + point(11, line.to);
  }
  for (const TemplateText& text : drawing.texts) {
    // Codes 72 and 73 centre the text on its second point.
    out += pair(0, "TEXT") + pair(8, layer_name(TemplateLayer::note)) + point(10, text.at) +
           number(40, 0.7 * text.height_m) + pair(1, plain(text.text)) +
           pair(50, decimal(text.angle_rad * 180.0 / constant::pi, 4)) + pair(72, "1") + point(11, text.at) +
           pair(73, "2");
  }
  return out + pair(0, "ENDSEC");
}

}  // namespace

std::string template_dxf(const TemplateDrawing& drawing) {
  return header(drawing) + tables() + entities(drawing) + pair(0, "EOF");
}

}  // namespace stillheap::sheet
