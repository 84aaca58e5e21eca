#pragma once
#include <string>
#include <vector>

#include "present/draw/canvas.hpp"

namespace stillheap::sheet {

/// White modules that cameras want around a code. Source: ISO/IEC 18004 (from memory).
inline constexpr int qr_quiet = 4;

/// A text as a QR code: square, row by row, dark modules true, without the white frame. Empty when the text is too
/// long. Source: ISO/IEC 18004 (from memory), made by libqrencode with correction level M.
[[nodiscard]] std::vector<std::vector<bool>> qr_modules(const std::string& text);

/// Draws the code with its white frame into the largest square at the box's top left; nothing of an empty one.
void draw_qr(Canvas& canvas, const Box& box, const std::vector<std::vector<bool>>& modules);

}  // namespace stillheap::sheet
