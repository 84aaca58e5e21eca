#include <gtest/gtest.h>

#include <cmath>

#include "model/physics/channel_duct.hpp"
#include "model/physics/conduction.hpp"
#include "model/physics/films.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/permeability.hpp"

namespace stillheap::physics {
namespace {

TEST(Duct, IsPoiseuilleWhenSlowAndBlasiusWhenFast) {
  constexpr double d = 0.1, density = 1.1, viscosity = 1.92e-5;
  EXPECT_DOUBLE_EQ(duct_resistance_pa_s_m2(0.0, d, density, viscosity), 32.0 * viscosity / (d * d));
  EXPECT_DOUBLE_EQ(duct_resistance_pa_s_m2(-0.1, d, density, viscosity), 32.0 * viscosity / (d * d));
  const double speed = 3.0, reynolds = density * speed * d / viscosity;
  const double fall_pa_m = 0.316 * std::pow(reynolds, -0.25) / d * 0.5 * density * speed * speed;
  EXPECT_NEAR(duct_resistance_pa_s_m2(speed, d, density, viscosity) * speed / fall_pa_m, 1.0, 1e-12);
}

TEST(Duct, DoesNotJumpBetweenTheTwo) {
  double before = duct_resistance_pa_s_m2(0.0, 0.1, 1.1, 1.92e-5);
  for (int step = 0; step < 384; ++step) {
    const double speed = 0.001 * std::pow(1.02, step);
    const double now = duct_resistance_pa_s_m2(speed, 0.1, 1.1, 1.92e-5);
    EXPECT_GE(now, before);
    EXPECT_LT(now, 1.02 * before);
    before = now;
  }
}

TEST(Duct, LosesPressureWithTheSquareOfSpeed) {
  const auto loss_pa = [](double v) { return loss_resistance_pa_s_m(v, 1.5, 1.2) * v; };
  EXPECT_DOUBLE_EQ(loss_pa(2.0), 1.5 * 0.5 * 1.2 * 4.0);
  EXPECT_DOUBLE_EQ(loss_pa(-2.0), -loss_pa(2.0));
}

TEST(Duct, TransfersAtLeastLikeALongTube) {
  EXPECT_NEAR(duct_nusselt(0.0, 0.1, 1.2), 3.66, 1e-12);
  for (const double reynolds : {10.0, 500.0, 2200.0, 5000.0, 20000.0})
    EXPECT_GT(duct_nusselt(reynolds, 0.1, 1.2), 3.66);
}

TEST(Films, GrowWithWindAndDifference) {
  EXPECT_EQ(outside_film_w_m2_k(0.0, 0.0, 3.0), 0.0);
  EXPECT_GT(outside_film_w_m2_k(2.0, 0.0, 3.0), outside_film_w_m2_k(1.0, 0.0, 3.0));
  EXPECT_GT(outside_film_w_m2_k(1.0, 10.0, 3.0), outside_film_w_m2_k(1.0, 5.0, 3.0));
  EXPECT_DOUBLE_EQ(outside_film_w_m2_k(1.0, -8.0, 3.0), outside_film_w_m2_k(1.0, 8.0, 3.0));
}

TEST(Films, RadiateLikeTheDerivativeOfTheFourthPower) {
  const auto black = [](double c) { return 5.670374419e-8 * std::pow(c + 273.15, 4.0); };
  EXPECT_NEAR(radiation_film_w_m2_k(15.0, 1.0), (black(15.5) - black(14.5)), 1e-4);
}

TEST(Films, CoolUnderAClearNightAndWarmInTheSun) {
  EXPECT_LT(sun_and_sky_w_m2(0.0, 0.7, 250.0, 15.0, 0.95, 1.0), 0.0);
  EXPECT_GT(sun_and_sky_w_m2(800.0, 0.7, 250.0, 15.0, 0.95, 1.0), 0.0);
  const double own = 5.670374419e-8 * std::pow(288.15, 4.0);
  EXPECT_NEAR(sun_and_sky_w_m2(0.0, 0.7, own, 15.0, 0.95, 1.0), 0.0, 1e-9);
}

TEST(Conduction, LiesBetweenItsPartsAndGrowsWithWater) {
  EXPECT_DOUBLE_EQ(conductivity_w_m_k(0.0, 0.0, 0.0, 1.0, 1.0), 0.026);
  EXPECT_DOUBLE_EQ(conductivity_w_m_k(0.0, 1.0, 0.0, 0.0, 1.0), 0.60);
  EXPECT_DOUBLE_EQ(conductivity_w_m_k(0.0, 0.0, 1.0, 0.0, 1.0), 2.2);
  EXPECT_GT(conductivity_w_m_k(0.1, 0.3, 0.0, 0.6, 1.0), conductivity_w_m_k(0.1, 0.2, 0.0, 0.7, 1.0));
  EXPECT_DOUBLE_EQ(conductivity_w_m_k(0.1, 0.3, 0.0, 0.6, 2.0), 2.0 * conductivity_w_m_k(0.1, 0.3, 0.0, 0.6, 1.0));
}

TEST(Permeability, GrowsWithTheSquareOfTheParticlesAndSteeplyWithAir) {
  EXPECT_NEAR(permeability_m2(0.5, 2e-3) / permeability_m2(0.5, 1e-3), 4.0, 1e-12);
  EXPECT_GT(permeability_m2(0.4, 1e-3) / permeability_m2(0.2, 1e-3), 8.0);
  EXPECT_EQ(permeability_m2(0.0, 1e-3), 0.0);
}

TEST(Gas, CountsOxygenByMassAndByVolumeAlike) { EXPECT_NEAR(oxygen_share(oxygen_outside), 0.20946, 1e-12); }

TEST(Gas, IsThinnerWhenWarmAndWhenMoist) {
  EXPECT_LT(dry_air_density_kg_m3(60.0, 0.0, 101325.0), dry_air_density_kg_m3(20.0, 0.0, 101325.0));
  EXPECT_LT(dry_air_density_kg_m3(60.0, 19900.0, 101325.0), dry_air_density_kg_m3(60.0, 0.0, 101325.0));
  EXPECT_NEAR(dry_air_density_kg_m3(20.0, 0.0, 101325.0), 1.2041, 2e-4);  // ISO 2533 at 20 degC
  EXPECT_GT(air_viscosity_pa_s(60.0), air_viscosity_pa_s(20.0));
  EXPECT_NEAR(air_viscosity_pa_s(15.0), 1.7894e-5, 1e-8);  // US Standard Atmosphere 1976, sea level
}

}  // namespace
}  // namespace stillheap::physics
