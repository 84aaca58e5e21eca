#include <gtest/gtest.h>

#include "check.hpp"
#include "core/quantity/quantity.hpp"

namespace stillheap {
namespace {

using outside::expect;
using quantity::parse;
using D = Dimension;

TEST(QuantityOutside, Lengths) {
  expect("U01", "foot_m", parse("1 ft", D::length));
  expect("U01", "inch_m", parse("1 in", D::length));
  expect("U01", "yard_m", parse("1 yd", D::length));
  expect("U01", "panel_12ft6in_m", parse("12 ft 6 in", D::length));
  expect("U01", "hole_1_32_in_m", parse("1/32 in", D::length));
}

TEST(QuantityOutside, Masses) {
  expect("U02", "pound_kg", parse("1 lb", D::mass));
  expect("U02", "ounce_kg", parse("1 oz", D::mass));
  expect("U02", "short_ton_kg", parse("1 short ton", D::mass));
}

TEST(QuantityOutside, VolumesAndFlows) {
  expect("U03", "gallon_m3", parse("1 gal", D::volume));
  expect("U03", "cubic_foot_m3", parse("1 ft3", D::volume));
  expect("U03", "cubic_yard_m3", parse("1 yd3", D::volume));
  expect("U03", "gpm_m3_s", parse("1 gpm", D::flow));
}

TEST(QuantityOutside, Pressures) {
  expect("U04", "psi_pa", parse("1 psi", D::pressure));
  expect("U04", "bar_pa", parse("1 bar", D::pressure));
}

TEST(QuantityOutside, Temperatures) {
  expect("U05", "f131_c", parse("131 degF", D::temperature));
  expect("U05", "f170_c", parse("170 degF", D::temperature));
  expect("U05", "f32_c", parse("32 degF", D::temperature));
  expect("U05", "c100_f", quantity::format(100.0, D::temperature, UnitSystem::us));
  expect("U05", "step_9f_k", parse("9 degF", D::temperature_step));
}

TEST(QuantityOutside, HeatAndSun) {
  expect("U06", "r_value_m2k_w", parse("1 ft2 degF h/BTU", D::thermal_resistance));
  expect("U06", "kwh_m2_d", parse("1 kWh/m2/d", D::daily_energy));
  expect("U06", "w_m2_as_day", parse("1 W/m2", D::daily_energy));
}

TEST(QuantityOutside, BulkDensities) {
  expect("R09", "lb_yd3_1000", parse("1000 lb/yd3", D::density));
  expect("R09", "lb_yd3_1100", parse("1100 lb/yd3", D::density));
}

}  // namespace
}  // namespace stillheap
