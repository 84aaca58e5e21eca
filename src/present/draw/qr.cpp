#include "present/draw/qr.hpp"

#include <qrencode.h>

#include <algorithm>
#include <memory>

namespace stillheap::sheet {

std::vector<std::vector<bool>> qr_modules(const std::string& text) {
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), &QRcode_free);
  if (code == nullptr) return {};
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::vector<bool>> modules(width, std::vector<bool>(width));
  for (std::size_t row = 0; row < width; ++row) {
    for (std::size_t column = 0; column < width; ++column) {
      modules[row][column] = (code->data[row * width + column] & 1U) != 0U;
    }
  }
  return modules;
}

void draw_qr(Canvas& canvas, const Box& box, const std::vector<std::vector<bool>>& modules) {
  if (modules.empty()) return;
  const double side = std::min(box.width, box.height);
  const double module = side / static_cast<double>(modules.size() + 2 * qr_quiet);
  fill(canvas, {box.x, box.y, side, side}, paper_white);
  cairo_t* const cairo = canvas.cairo();
  for (std::size_t row = 0; row < modules.size(); ++row) {
    for (std::size_t column = 0; column < modules.size(); ++column) {
      if (!modules[row][column]) continue;
      cairo_rectangle(cairo, box.x + static_cast<double>(column + qr_quiet) * module,
                      box.y + static_cast<double>(row + qr_quiet) * module, module, module);
    }
  }
  cairo_set_source_rgb(cairo, 0.0, 0.0, 0.0);
  cairo_fill(cairo);  // as one shape: no hair lines between its parts
}

}  // namespace stillheap::sheet
