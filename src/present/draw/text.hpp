#pragma once
#include <string>
#include <string_view>

#include "present/draw/canvas.hpp"

namespace stillheap::sheet {

enum class Align { left, middle, right };
enum class Weight { regular, strong };

struct Style {
  double size_pt = 10.0;
  Weight weight = Weight::regular;
  Colour colour = ink;
  Align align = Align::left;  ///< of wrapped lines within their width
  bool slanted = false;
};

/// The styles of the pack; chosen so that a card reads at arm's length outdoors.
namespace style {
inline constexpr Style title{24.0, Weight::strong};
inline constexpr Style heading{13.0, Weight::strong};
inline constexpr Style body{10.0};
inline constexpr Style card{12.0};
inline constexpr Style note{8.5, Weight::regular, soft};
inline constexpr Style label{8.5, Weight::regular, soft};
inline constexpr Style figure{16.0, Weight::strong};
inline constexpr Style drawing{12.0};  // reads at arm's length, 700 mm
}  // namespace style

struct Size {
  double width = 0.0, height = 0.0;
};

/// Where on the text the given spot lies.
enum class Across { left, middle, right };
enum class Down { top, middle, bottom };

/// Sets plain text for print: "degC" as °C, "m3" as m³, no line break between a number and its unit.
/// Applied by every function below, so that texts of other stages look the same.
[[nodiscard]] std::string typeset(std::string_view plain);

/// Size of the text, wrapped at `width_pt` when that is above 0.
[[nodiscard]] Size measure(Canvas& canvas, std::string_view text, const Style& style, double width_pt = 0.0);
/// Width of the longest word: the least column that does not break a word.
[[nodiscard]] double longest_word_pt(Canvas& canvas, std::string_view text, const Style& style);

/// Draws text with its top left corner at the spot, wrapped at `width_pt` when that is above 0; returns its box.
Box draw_text(Canvas& canvas, Spot top_left, std::string_view text, const Style& style, double width_pt = 0.0);
/// One line that ends in an ellipsis when it is wider than `width_pt`.
Box draw_line_of_text(Canvas& canvas, Spot top_left, std::string_view text, const Style& style, double width_pt);
/// One line, held at the named side; with `backed` on a white ground.
Box draw_label(Canvas& canvas, Spot at, std::string_view text, const Style& style, Across across, Down down,
               bool backed = false);
/// One line centred on the spot and turned (page angle, clockwise positive).
Box draw_turned(Canvas& canvas, Spot centre, std::string_view text, const Style& style, double angle_rad,
                bool backed = false);

}  // namespace stillheap::sheet
