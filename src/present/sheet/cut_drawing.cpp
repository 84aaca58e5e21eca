#include "present/sheet/cut_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double points_a_metre = 72.0 / 0.0254;
constexpr double count_room_pt = 34.0;  ///< left of the stock, for "3 ×"
constexpr double least_bar_pt = 17.0;   ///< thin boards and pipes are drawn thicker than they are
constexpr double label_room_pt = 17.0;  ///< above each stock, for a line of its label
constexpr std::array denominators{5.0,  8.0,  10.0, 12.0, 15.0, 20.0, 25.0,  30.0,  40.0,  50.0,
                                  60.0, 75.0, 100., 125., 150., 200., 250.0, 300.0, 400.0, 500.0};

bool alike(const cut::StockPiece& a, const cut::StockPiece& b) {
  if (a.stock != b.stock || a.pieces.size() != b.pieces.size()) return false;
  for (std::size_t i = 0; i < a.pieces.size(); ++i) {
    const cut::Placed& p = a.pieces[i];
    const cut::Placed& q = b.pieces[i];
    const double apart = std::abs(p.x_m - q.x_m) + std::abs(p.y_m - q.y_m) + std::abs(p.along_m - q.along_m);
    if (p.want != q.want || apart > 1e-6) return false;
  }
  return true;
}

/// A long roll is drawn as far as it is cut.
double drawn_length_m(const cut::Stock& stock, const cut::StockPiece& piece) {
  const bool mostly_left = stock.by_length || piece.used_m < 0.4 * stock.length_m;
  return mostly_left ? std::min(stock.length_m, 1.06 * piece.used_m) : stock.length_m;
}

double stock_width_m(const plan::MaterialCuts& material, const cut::StockPiece& piece) {
  const double width_m = material.job.stock[piece.stock].width_m;
  return width_m > 0.0 ? width_m : material.cuts.parts[piece.pieces.front().want].width_m;
}

/// Where one piece of stock is drawn.
struct Ground {
  Box box;
  double along_pt_m = 1.0, across_pt_m = 1.0;
};

void letter(Canvas& canvas, const Box& box, const std::string& name, const std::string& size) {
  const Style big{9.0, Weight::strong};
  const std::string both = name + "  " + size;
  const bool room = measure(canvas, both, big).width < box.width - 6.0;
  const std::string& text = room ? both : name;
  if (measure(canvas, text, big).width > box.width - 2.0 || box.height < 11.0) return;
  draw_label(canvas, {box.middle_x(), box.middle_y()}, text, big, Across::middle, Down::middle);
}

void draw_part(Canvas& canvas, const Ground& ground, const cut::Placed& piece, UnitSystem units, bool flat) {
  const double tall = flat ? piece.across_m * ground.across_pt_m : ground.box.height;
  const Box box{ground.box.x + piece.x_m * ground.along_pt_m, ground.box.y + piece.y_m * ground.across_pt_m,
                piece.along_m * ground.along_pt_m, std::min(tall, ground.box.height)};
  fill(canvas, box, accent_wash);
  frame(canvas, box, {ink, 0.8});
  const std::string along = quantity::format_workshop(piece.along_m, units);
  letter(canvas, box, part_letter(piece.want),
         flat ? along + " × " + quantity::format_workshop(piece.across_m, units) : along);
}

std::string stock_words(const cut::Stock& stock, const cut::StockPiece& piece, UnitSystem units) {
  std::string text = stock_size(stock, units);
  const double rest_m = stock.length_m - piece.used_m;
  text += stock.at_hand ? ", at hand" : "";
  if (rest_m < 0.002) return text + ", used up";
  return text + (stock.by_length ? ", cut off at " + quantity::format_workshop(piece.used_m, units)
                                 : ", rest " + quantity::format_workshop(rest_m, units));
}

}  // namespace

std::string stock_size(const cut::Stock& stock, UnitSystem units) {
  std::string length = quantity::format(stock.length_m, Dimension::length, units, 4);
  if (stock.width_m <= 0.0) return length;
  return length + " × " + quantity::format(stock.width_m, Dimension::length, units, 4);
}

std::vector<AlikeCuts> alike_cuts(const cut::JobCuts& cuts) {
  std::vector<AlikeCuts> groups;
  for (std::size_t i = 0; i < cuts.pieces.size(); ++i) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const AlikeCuts& group) {
      return alike(cuts.pieces[group.first], cuts.pieces[i]);
    });
    if (same == groups.end()) {
      groups.push_back({i, 1});
    } else {
      ++same->count;
    }
  }
  return groups;
}

std::string part_letter(std::size_t part) {
  std::string text(1, static_cast<char>('A' + part % 26));
  return part < 26 ? text : part_letter(part / 26 - 1) + text;
}

double cut_scale(const plan::MaterialCuts& material, double width_pt) noexcept {
  double longest_m = 0.0;
  double widest_m = 0.0;
  for (const cut::StockPiece& piece : material.cuts.pieces) {
    longest_m = std::max(longest_m, drawn_length_m(material.job.stock[piece.stock], piece));
    widest_m = std::max(widest_m, stock_width_m(material, piece));
  }
  constexpr double tallest_pt = 96.0;  // chosen: five rolls a page
  const bool to_scale_across = material.job.flat || material.job.key == "mesh";
  for (const double denominator : denominators) {
    const double scale = points_a_metre / denominator;
    if (longest_m * scale > width_pt - count_room_pt) continue;
    if (!to_scale_across || widest_m * scale <= tallest_pt) return denominator;
  }
  return denominators.back();
}

double first_cut_pt(const plan::MaterialCuts& material, double denominator) {
  const bool to_scale_across = material.job.flat || material.job.key == "mesh";
  const double tall = to_scale_across
                          ? stock_width_m(material, material.cuts.pieces.front()) * points_a_metre / denominator
                          : least_bar_pt;
  return label_room_pt + tall + 5.0;
}

std::string cuts_in_words(const plan::MaterialCuts& material, UnitSystem units) {
  if (material.cuts.parts.size() != 1) return "";
  std::string text;
  for (const AlikeCuts& group : alike_cuts(material.cuts)) {
    const cut::StockPiece& piece = material.cuts.pieces[group.first];
    text += (text.empty() ? "From " : "; from ") + std::to_string(group.count) + " of " +
            stock_words(material.job.stock[piece.stock], piece, units) + ": " + std::to_string(piece.pieces.size()) +
            (group.count > 1 ? " A each" : " A");
  }
  return text + ".";
}

void draw_cuts(Flow& flow, const plan::MaterialCuts& material, double denominator, UnitSystem units) {
  const bool to_scale_across = material.job.flat || material.job.key == "mesh";
  Canvas& canvas = flow.canvas();
  const Tag figure(canvas, "Figure");
  for (const AlikeCuts& group : alike_cuts(material.cuts)) {
    const cut::StockPiece& piece = material.cuts.pieces[group.first];
    const cut::Stock& stock = material.job.stock[piece.stock];
    Ground ground;
    ground.along_pt_m = points_a_metre / denominator;
    ground.across_pt_m = ground.along_pt_m;
    const double tall =
        to_scale_across ? std::max(stock_width_m(material, piece) * ground.across_pt_m, 11.0) : least_bar_pt;
    const Box taken = flow.take(label_room_pt + tall + 5.0);
    ground.box = {taken.x + count_room_pt, taken.y + label_room_pt, drawn_length_m(stock, piece) * ground.along_pt_m,
                  tall};
    fill(canvas, ground.box, wash);
    for (const cut::Placed& placed : piece.pieces) draw_part(canvas, ground, placed, units, to_scale_across);
    frame(canvas, ground.box, {soft, 0.6});
    draw_line_of_text(canvas, {ground.box.x, taken.y}, stock_words(stock, piece, units), style::drawing,
                      flow.width() - count_room_pt);
    draw_label(canvas, {taken.x, ground.box.middle_y()}, std::to_string(group.count) + " ×", {11.0, Weight::strong},
               Across::left, Down::middle);
  }
}

}  // namespace stillheap::sheet
