#include <gtest/gtest.h>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "domain/vessel/setting_out.hpp"
#include "present/template/template_index.hpp"

namespace stillheap {
namespace {

using outside::expect;

constexpr double inch_m = 0.0254;

TEST(D01, ChordsOfACircle) {
  for (const int parts : {3, 5, 6, 7, 8, 12}) {
    expect("D01", "parts_" + std::to_string(parts), vessel::chord_m(0.5, 2.0 * constant::pi / parts));
  }
}

TEST(D02, Paper) {
  const sheet::Paper a4 = sheet::paper_for(UnitSystem::metric);
  const sheet::Paper letter = sheet::paper_for(UnitSystem::us);
  expect("D02", "a4_width_mm", a4.width_pt / sheet::points_a_metre * 1000.0);
  expect("D02", "a4_height_mm", a4.height_pt / sheet::points_a_metre * 1000.0);
  expect("D02", "letter_width_in", letter.width_pt / sheet::points_a_metre / inch_m);
  expect("D02", "letter_height_in", letter.height_pt / sheet::points_a_metre / inch_m);
  expect("D02", "points_an_inch", sheet::points_a_metre * inch_m);
}

TEST(D03, PanelAndHoop) {
  expect("D03", "ring_in", vessel::ring_diameter_m(150.0 * inch_m) / inch_m);
  const double hoop_m = vessel::hoop_inside_m(12.0 * inch_m, 4.0 * inch_m);
  expect("D03", "hoop_in", hoop_m / inch_m);
  expect("D03", "hoop_length_in", constant::pi * hoop_m / inch_m);
}

}  // namespace
}  // namespace stillheap
