#include <gtest/gtest.h>

#include <vector>

#include "check.hpp"
#include "domain/vessel/parts.hpp"
#include "planning/cut/lengths.hpp"
#include "planning/cut/strips.hpp"

namespace stillheap {
namespace {

using outside::expect;

constexpr double inch_m = 0.0254;
constexpr double foot_m = 0.3048;

TEST(Cutting, C01RollsOfAPaperMill) {
  const auto cuts = cut::cut_lengths({{100.0, 1.0, {}}}, {{45.0, 97}, {35.0, 610}, {31.0, 395}, {14.0, 211}}, 0.0);
  ASSERT_TRUE(cuts);
  expect("C01", "rolls", static_cast<double>(cuts->bars.size()));
  expect("C01", "bound", cuts->bound);
}

TEST(Cutting, C02LengthsOfTwelveMetres) {
  const auto cuts = cut::cut_lengths({{12.0, 1.0, {}}}, {{3.4, 34}, {3.0, 13}, {2.7, 5}}, 0.0);
  ASSERT_TRUE(cuts);
  double waste_m = 0.0;
  for (const cut::CutBar& bar : cuts->bars) waste_m += bar.rest_m;
  expect("C02", "lengths", static_cast<double>(cuts->bars.size()));
  expect("C02", "waste_m", waste_m);
}

/// The round vessel of the common-round-us example.
vessel::Design common_round() {
  vessel::Design design;
  design.diameter_m = vessel::ring_diameter_m(12.5 * foot_m);
  design.height_m = design.panel_width_m = 5.0 * foot_m;
  design.fill_height_m = 58.0 * inch_m;
  design.lining_overlap_m = design.lining_fold_m = 6.0 * inch_m;
  design.channels = vessel::ring_channels({5, 12.0 * inch_m, 0.0}, 4.0 * inch_m, true);
  return design;
}

TEST(Cutting, CommonSizesOfTheTrade) {
  int squares = 0;
  std::vector<cut::Rectangle> cloth;
  for (const vessel::Piece& piece : vessel::pieces_of(common_round())) {
    if (piece.price_key == "mesh") {
      expect("P-cut", "panel_length_ft", piece.length_m / foot_m);
      expect("P-cut", "panel_height_ft", piece.width_m / foot_m);
    } else if (piece.use == "lining") {
      expect("P-cut", "lining_length_ft", piece.length_m / foot_m);
      expect("P-cut", "lining_width_ft", piece.width_m / foot_m);
      cloth.push_back({piece.length_m, piece.width_m, piece.count});
    } else if (piece.price_key == "base_cloth" || piece.use == "cover on top") {
      EXPECT_DOUBLE_EQ(piece.length_m, piece.width_m);
      expect("P-cut", "square_side_ft", piece.width_m / foot_m);
      squares += piece.count;
      cloth.push_back({piece.length_m, piece.width_m, piece.count});
    } else if (piece.price_key == "form") {
      expect("P-cut", "forms", piece.count);
      expect("P-cut", "form_diameter_in", piece.diameter_m / inch_m);
    }
  }
  expect("P-cut", "square_cloths", squares);
  const auto cuts = cut::cut_strips(6.0 * foot_m, 100.0, cloth);
  ASSERT_TRUE(cuts);
  expect("P-cut", "cloth_from_six_foot_roll_ft", cuts->length_m / foot_m);
}

}  // namespace
}  // namespace stillheap
