#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "domain/material/salts.hpp"
#include "planning/water/fittings.hpp"
#include "planning/water/line.hpp"
#include "planning/water/programme.hpp"

namespace stillheap {
namespace {

using outside::expect;
using namespace water;

constexpr double inch_m = 0.0254;

double head_m(double loss_pa) { return loss_pa / (water_density_kg_m3 * constant::gravity_m_s2); }

double speed_m_s(double flow_m3_s, double diameter_m) {
  return flow_m3_s / (0.25 * constant::pi * diameter_m * diameter_m);
}

TEST(Irrigation, I01Orifice) { expect("I01", "l_h", orifice_flow_m3_s(1e-3, 1e5, 0.62) * 3.6e6); }

TEST(Irrigation, I03Colebrook) {
  expect("I03", "re_1e5_rough_1e_4", darcy_friction_factor(1e5, 1e-4));
  expect("I03", "re_5e4_rough_1e_3", darcy_friction_factor(5e4, 1e-3));
  expect("I03", "re_1e6_rough_1e_2", darcy_friction_factor(1e6, 1e-2));
  expect("I03", "re_1e4_smooth", darcy_friction_factor(1e4, 0.0));
}

TEST(Irrigation, I05HeadLoss) {
  const double reynolds = speed_m_s(1e-3, 0.04) * 0.04 / water_viscosity_m2_s;
  const double a_m = head_m(friction_loss_pa(1e-3, 0.04, 100.0, 1.5e-6));
  const double b_m = head_m(friction_loss_pa(2e-4, 0.0135, 20.0, 1.5e-6));
  expect("I05", "a_reynolds_factor", darcy_friction_factor(reynolds, 1.5e-6 / 0.04));
  expect("I05", "a_m", a_m);
  expect("I05", "b_m", b_m);
  expect("I05", "a_over_hazen_williams", a_m / 1.7806);
  expect("I05", "b_over_hazen_williams", b_m / 4.0747);
}

TEST(Irrigation, I06ChristiansenFactor) {
  double most = 0.0;
  for (const int outlets : {1, 2, 5, 10, 20, 37}) {
    const double factor = christiansen_f(outlets, 1.852);
    expect("I06", "n_" + std::to_string(outlets), factor);
    const double n = outlets;
    const double short_form = 1.0 / 2.852 + 1.0 / (2.0 * n) + std::sqrt(0.852) / (6.0 * n * n);
    most = std::max(most, std::abs(factor - short_form));
  }
  expect("I06", "most_off_short_form", most);
}

TEST(Irrigation, I08Uniformity) {
  const std::vector<double> cans{47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12};
  expect("I08", "cu_percent", 100.0 * christiansen_uniformity(cans));
  expect("I08", "du_low_half_percent", 100.0 * low_half_uniformity(cans));
}

TEST(Irrigation, I10Laminar) {
  expect("I10", "reynolds", speed_m_s(2e-6, 4e-3) * 4e-3 / water_viscosity_m2_s);
  expect("I10", "pa", friction_loss_pa(2e-6, 4e-3, 5.0, 0.0));
}

Line common_line() {
  Line line;
  line.inside_diameter_m = 0.0135;
  line.length_m = constant::pi * 47.7 * inch_m;
  line.hole_diameter_m = inch_m / 32.0;
  line.spacing_m = 4.0 * inch_m;
  return line;
}

TEST(Irrigation, I11LineAgainstChristiansen) {
  const Line line = common_line();
  const LineFlow flow = solve_line(line, {172e3, 0.0, 0.0});
  const double lost = flow.inlet_pressure_pa - flow.hole_pressure_pa.back();
  const double full =
      friction_loss_pa(flow.total_flow_m3_s, line.inside_diameter_m, flow.holes * line.spacing_m, line.roughness_m);
  expect("I11", "lost_over_full_flow_loss_and_factor", lost / (full * christiansen_f(flow.holes, 1.75)));
}

TEST(Irrigation, I12HazenWilliams) {
  expect("I12", "a_m", head_m(hazen_williams_loss_pa(1e-3, 0.04, 100.0, 150.0)));
  expect("I12", "b_m", head_m(hazen_williams_loss_pa(2e-4, 0.0135, 20.0, 140.0)));
}

TEST(Irrigation, I13Blasius) {
  expect("I13", "at_1e4", blasius_friction_factor(1e4));
  expect("I13", "over_library", blasius_friction_factor(1e4) / 0.03088295);
}

TEST(Irrigation, I14LateralOfTwentyOutlets) {
  Line line;
  line.inside_diameter_m = 0.010;
  line.length_m = 6.0;
  line.hole_diameter_m = 0.0012;
  line.spacing_m = 0.3;
  const LineFlow flow = solve_line(line, {1.2e5, 0.0, 0.0});
  constexpr double litres_hour = 3.6e6;
  expect("I14", "total_l_h", flow.total_flow_m3_s * litres_hour);
  expect("I14", "last_kpa", flow.hole_pressure_pa.back() / 1000.0);
  expect("I14", "first_hole_l_h", flow.hole_flow_m3_s.front() * litres_hour);
  expect("I14", "last_hole_l_h", flow.hole_flow_m3_s.back() * litres_hour);
  expect("I14", "christiansen", flow.christiansen_uniformity);
  expect("I14", "low_quarter", flow.low_quarter_uniformity);
  expect("I14", "variation", flow_variation(flow));
}

TEST(Irrigation, I16FilterMesh) {
  const auto mesh_of = [](double opening_m) { return static_cast<double>(screen_for(opening_m / filter_share).mesh); };
  expect("I16", "mesh_of_1_mm", mesh_of(1e-3));
  expect("I16", "mesh_of_half_mm", mesh_of(0.5e-3));
  expect("I16", "mesh_of_quarter_mm", mesh_of(0.25e-3));
  expect("I16", "finest_mesh", mesh_of(1e-6));
  expect("I16", "finest_um", screen_for(1e-6).opening_m * 1e6);
}

TEST(Irrigation, S05DissolvedSalts) {
  expect("S05", "mg_l_at_0_7", material::salt_in_water_kg_m3(0.07) * 1000.0);
  expect("S05", "mg_l_at_3_0", material::salt_in_water_kg_m3(0.30) * 1000.0);
}

/// Steps too fine to matter, daily, on one square metre: a kilogram is a millimetre. No store is wanted in these
/// checks.
Way fine_way() { return {.step_kg = 0.001, .step_s = 1.0}; }

/// Sum of what reaches the material in a calendar month.
double month_mm(const Programme& programme, unsigned month) {
  double sum = 0.0;
  for (const Row& row : programme.rows) {
    if (std::chrono::year_month_day{row.first}.month() == std::chrono::month{month})
      sum += row.runs * row.run_reaching_kg;
  }
  return sum;
}

TEST(Irrigation, I17NetIrrigation) {
  const double need_mm[] = {69, 123, 180, 234, 180};
  const double rain_mm[] = {2, 13, 14, 39, 0};
  const int length[] = {28, 31, 30, 31, 30};
  std::vector<DayOfHeap> days;
  for (int m = 0; m < 5; ++m)
    days.insert(days.end(), static_cast<std::size_t>(length[m]),
                {need_mm[m] / length[m], rain_mm[m] / length[m], 0.0, false});
  const Programme programme = make_programme(*date::parse_iso("2027-02-01"), days, fine_way(), 0);
  expect("I17", "february_mm", month_mm(programme, 2));
  expect("I17", "march_mm", month_mm(programme, 3));
  expect("I17", "april_mm", month_mm(programme, 4));
  expect("I17", "may_mm", month_mm(programme, 5));
  expect("I17", "june_mm", month_mm(programme, 6));
  expect("I17", "season_mm", reaching_kg(programme));
}

TEST(Irrigation, I18LeachingRequirement) {
  Way way = fine_way();
  way.leaching_share = 0.1;
  way.efficiency = 0.65;
  const std::vector<DayOfHeap> days(122, {800.0 / 122.0, 0.0, 0.0, false});
  const Programme programme = make_programme(*date::parse_iso("2027-05-01"), days, way, 0);
  expect("I18", "reaching_mm", reaching_kg(programme));
  expect("I18", "let_out_mm", let_out_kg(programme));
}

TEST(Irrigation, CommonLineOfTheTrade) {
  Line line = common_line();
  line.sprays = 4;
  line.spray_flow_m3_s = 45e-3 / 3600.0;
  const LineFlow flow = solve_line(line, {172e3, 0.0, 0.0});
  const double litres_minute = flow.total_flow_m3_s * 60.0 * 1000.0;
  expect("P-water", "holes", flow.holes);
  expect("P-water", "litres_one_minute", litres_minute);
  expect("P-water", "litres_two_minutes", 2.0 * litres_minute);
  RecordProperty("litres_a_minute", std::to_string(litres_minute));
  RecordProperty("uniformity", std::to_string(flow.christiansen_uniformity));
}

}  // namespace
}  // namespace stillheap
