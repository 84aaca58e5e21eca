#include "domain/vessel/loads.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/wire_gauge.hpp"

namespace stillheap::vessel {
namespace {

Design round_vessel() {
  Design design;
  design.diameter_m = 1.4;
  design.height_m = 1.5;
  design.fill_height_m = 1.3;
  design.channels = {{{0.0, 0.0}, 0.2}};
  return design;
}

TEST(Janssen, GrowsAsTheWeightNearTheTopAndLevelsOffDeepDown) {
  const WallFriction friction{0.5, 0.4};
  EXPECT_NEAR(janssen(600.0, 1.2, 1e-6, friction).vertical_pa, 600.0 * constant::gravity_m_s2 * 1e-6, 1e-8);
  const double deep = 600.0 * constant::gravity_m_s2 * 1.2 / (4.0 * 0.5 * 0.4);
  EXPECT_NEAR(janssen(600.0, 1.2, 100.0, friction).vertical_pa, deep, 1e-6);
  EXPECT_NEAR(janssen(600.0, 1.2, 100.0, friction).horizontal_pa, 0.4 * deep, 1e-6);
}

TEST(Janssen, ObeysItsOwnBalanceOfALayer) {
  const WallFriction friction{0.35, 0.45};
  const double step = 1e-5;
  for (const double z : {0.2, 0.8, 1.5}) {
    const double slope =
        (janssen(500.0, 1.1, z + step, friction).vertical_pa - janssen(500.0, 1.1, z - step, friction).vertical_pa) /
        (2.0 * step);
    const Pressure at = janssen(500.0, 1.1, z, friction);
    EXPECT_NEAR(slope, 500.0 * constant::gravity_m_s2 - 4.0 / 1.1 * 0.35 * at.horizontal_pa, 1e-3);
  }
}

TEST(Janssen, IsTheWeightWithoutFriction) {
  EXPECT_DOUBLE_EQ(janssen(500.0, 1.0, 2.0, {0.0, 0.5}).vertical_pa, 1000.0 * constant::gravity_m_s2);
}

TEST(Loads, WeighTheMaterialWithoutItsChannels) {
  const Loads loads = loads_of(round_vessel(), 600.0);
  const double area = constant::pi / 4.0 * (1.4 * 1.4 - 0.2 * 0.2);
  EXPECT_NEAR(loads.mass_wet_kg, 600.0 * area * 1.3, 1e-9);
  EXPECT_NEAR(loads.base_pressure_pa, loads.weight_n / area, 1e-6);
  EXPECT_LT(loads.ground_pressure_pa, loads.base_pressure_pa);
  EXPECT_EQ(loads.wire_safety, 0.0);
  EXPECT_EQ(loads.side_force_n_m, 0.0);
}

TEST(Loads, TakeTheLargerSidePressureForTheHoop) {
  Design design = round_vessel();
  design.mesh = WireMesh{0.0025, 0.1, 2.0e8};
  const Loads loads = loads_of(design, 600.0);
  EXPECT_GT(loads.side_pressure_no_friction_pa, loads.side_pressure_pa);
  EXPECT_NEAR(loads.hoop_tension_n_m, loads.side_pressure_no_friction_pa * 0.7, 1e-9);
  EXPECT_NEAR(loads.wire_force_n, loads.hoop_tension_n_m * 0.1, 1e-9);
  EXPECT_NEAR(loads.wire_safety * loads.wire_force_n, 2.0e8 * constant::pi / 4.0 * 0.0025 * 0.0025, 1e-6);
}

TEST(Loads, GiveEachTieItsShareOfTheHoop) {
  const Loads loads = loads_of(round_vessel(), 600.0);
  EXPECT_NEAR(loads.tie_force_n, 0.15 * loads.hoop_tension_n_m, 1e-9);
}

TEST(Loads, AreWorseWithEveryPoreFull) {
  EXPECT_DOUBLE_EQ(waterlogged_density_kg_m3(600.0, 0.4), 1000.0);
  EXPECT_DOUBLE_EQ(waterlogged_density_kg_m3(600.0, -0.1), 600.0);
}

TEST(Loads, OfAStraightWallHaveNoHoopButASideForce) {
  Design design = round_vessel();
  design.footprint = Footprint::rectangular;
  design.length_m = 2.0;
  design.width_m = 1.0;
  design.mesh = WireMesh{0.0025, 0.1, 2.0e8};
  const Loads loads = loads_of(design, 600.0);
  EXPECT_EQ(loads.hoop_tension_n_m, 0.0);
  EXPECT_EQ(loads.wire_safety, 0.0);
  EXPECT_NEAR(loads.side_force_n_m, 0.5 * 600.0 * constant::gravity_m_s2 * 1.3 * 1.3 / 2.0, 1e-9);
  EXPECT_NE(loads.note.find("locally"), std::string::npos);
  // 4 A / U of a 2 m by 1 m footprint is 4/3 m.
  EXPECT_DOUBLE_EQ(loads.side_pressure_pa, janssen(600.0, 4.0 / 3.0, 1.3).horizontal_pa);
}

TEST(WireGauge, GetsThinnerWithItsNumber) {
  for (int gauge = -6; gauge < 20; ++gauge) EXPECT_GT(*steel_wire_diameter_m(gauge), *steel_wire_diameter_m(gauge + 1));
  EXPECT_FALSE(steel_wire_diameter_m(-7));
  EXPECT_FALSE(steel_wire_diameter_m(21));
}

}  // namespace
}  // namespace stillheap::vessel
