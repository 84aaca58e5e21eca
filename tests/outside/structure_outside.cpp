#include <CGAL/Apollonius_graph_2.h>
#include <CGAL/Apollonius_graph_filtered_traits_2.h>
#include <CGAL/Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "domain/vessel/air_path.hpp"
#include "domain/vessel/clash.hpp"
#include "domain/vessel/equidistant.hpp"
#include "domain/vessel/loads.hpp"
#include "domain/vessel/wire_gauge.hpp"
#include "planning/fill/lifting.hpp"

namespace stillheap {
namespace {

using outside::expect;
using vessel::Channel;
using vessel::Design;
using vessel::Footprint;
using vessel::Wall;

constexpr double inch_m = 0.0254;
constexpr double degree_rad = constant::pi / 180.0;

TEST(X01, JanssenInAWideBin) {
  const vessel::Pressure at = vessel::janssen(500.0, 1.2, 1.2, {0.4, 0.5});
  expect("X01", "sv_kpa", at.vertical_pa / 1000.0);
  expect("X01", "sh_kpa", at.horizontal_pa / 1000.0);
  expect("X01", "hoop_kn_m", vessel::hoop_tension_n_m(at.horizontal_pa, 0.6) / 1000.0);
  Design design;
  design.diameter_m = design.height_m = design.fill_height_m = 1.2;
  expect("X01", "sh_no_wall_friction_kpa", vessel::loads_of(design, 500.0).side_pressure_no_friction_pa / 1000.0);
}

TEST(X03, WireGauges) {
  const double ten_m = *vessel::steel_wire_diameter_m(10);
  expect("X03", "steel_10_in", ten_m / inch_m);
  expect("X03", "steel_10_mm", ten_m * 1000.0);
  expect("X03", "steel_10_area_mm2", 1.0 / vessel::wire_stress_pa(1.0, ten_m) * 1e6);
  expect("X03", "american_10_in", vessel::american_wire_diameter_m(10) / inch_m);
  expect("X03", "steel_seven_zeros_in", *vessel::steel_wire_diameter_m(-6) / inch_m);
  expect("X03", "steel_0_in", *vessel::steel_wire_diameter_m(0) / inch_m);
  expect("X03", "steel_12_in", *vessel::steel_wire_diameter_m(12) / inch_m);
  expect("X03", "steel_14_in", *vessel::steel_wire_diameter_m(14) / inch_m);
}

TEST(X04, OneWire) {
  const double force_n = vessel::wire_force_n(vessel::hoop_tension_n_m(2000.0, 0.6), 0.1);
  expect("X04", "force_n", force_n);
  expect("X04", "stress_mpa", vessel::wire_stress_pa(force_n, 0.135 * inch_m) / 1e6);
}

TEST(X05, LiftingLimit) {
  expect("X05", "limit_kg", fill::recommended_weight_limit_kg({0.40, 0.25, 0.50, 30.0 * degree_rad, 0.94, 0.95}));
  const auto turned = [](double degrees) {
    return fill::recommended_weight_limit_kg({0.25, 0.75, 0.25, degrees * degree_rad, 1.0, 1.0}) / 23.0;
  };
  const auto high = [](double height_m) {
    return fill::recommended_weight_limit_kg({0.25, height_m, 0.25, 0.0, 1.0, 1.0}) / 23.0;
  };
  expect("X05b", "turn_30", turned(30.0));
  expect("X05b", "turn_90", turned(90.0));
  expect("X05b", "turn_135", turned(135.0));
  expect("X05b", "height_floor", high(0.0));
  expect("X05b", "height_70_in", high(1.75));
}

Design tall(Footprint footprint, Wall wall, double length_m, double width_m, std::vector<Channel> channels) {
  Design design;
  design.footprint = footprint;
  design.wall = wall;
  design.diameter_m = design.length_m = length_m;
  design.width_m = width_m;
  design.height_m = design.fill_height_m = 10.0;
  design.channels = std::move(channels);
  return design;
}

double path_m(const Design& design) { return vessel::longest_air_path(design).length_m; }

TEST(X06, RoundVesselsByHand) {
  const auto round = [](std::vector<Channel> channels) {
    return tall(Footprint::round, Wall::open, 1.2, 0.0, std::move(channels));
  };
  expect("X06", "no_channel_m", path_m(round({})));
  expect("X06", "middle_m", path_m(round({{{0.0, 0.0}, 0.1}})));
  expect("X06", "off_middle_m", path_m(round({{{0.12, 0.16}, 0.1}})));
  expect("X06", "two_opposite_m", path_m(round({{{0.3, 0.0}, 0.1}, {{-0.3, 0.0}, 0.1}})));
}

TEST(X07, RectangularVesselsByHand) {
  const Channel middle{{0.0, 0.0}, 0.1};
  const auto box = [](Wall wall, double length_m, double width_m, std::vector<Channel> channels) {
    return tall(Footprint::rectangular, wall, length_m, width_m, std::move(channels));
  };
  expect("X07", "open_slot_m", path_m(box(Wall::open, 2.0, 0.5, {})));
  expect("X07", "closed_square_m", path_m(box(Wall::closed, 1.0, 1.0, {middle})));
  expect("X07", "closed_slot_m", path_m(box(Wall::closed, 2.0, 0.5, {middle})));
  expect("X07", "four_corners_m",
         path_m(box(Wall::closed, 1.0, 1.0,
                    {{{0.5, 0.5}, 0.1}, {{-0.5, 0.5}, 0.1}, {{0.5, -0.5}, 0.1}, {{-0.5, -0.5}, 0.1}})));
  expect("X07", "open_square_m", path_m(box(Wall::open, 1.0, 1.0, {middle})));
}

TEST(X08, CircleBetweenThreeTouchingOnes) {
  // Centres of circles with radii 0.2, 0.3, 0.4 that touch: sides 0.5, 0.6, 0.7.
  const double x = (0.5 * 0.5 + 0.6 * 0.6 - 0.7 * 0.7) / (2.0 * 0.5);
  const vessel::Site a{vessel::Site::Kind::channel, {0.0, 0.0}, 0.2};
  const vessel::Site b{vessel::Site::Kind::channel, {0.5, 0.0}, 0.3};
  const vessel::Site c{vessel::Site::Kind::channel, {x, std::sqrt(0.36 - x * x)}, 0.4};
  std::vector<Point> points;
  vessel::add_equidistant(a, b, c, points);
  double inner_m = 0.0;
  for (const Point p : points) {
    // The other solution is the circle around all three, which is not equally far outside of each.
    if (std::abs(vessel::distance_to_m(a, p) - vessel::distance_to_m(b, p)) < 1e-9)
      inner_m = vessel::distance_to_m(a, p);
  }
  expect("X08", "inner_circle_m", inner_m);
}

Design random_closed_box(std::mt19937& random, bool same_width) {
  const auto uniform = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Design design = tall(Footprint::rectangular, Wall::closed, uniform(0.8, 2.5), uniform(0.6, 1.5), {});
  const int count = std::uniform_int_distribution<int>(1, 15)(random);
  for (int i = 0; i < count; ++i) {
    const Point p{uniform(-0.48, 0.48) * design.length_m, uniform(-0.48, 0.48) * design.width_m};
    design.channels.push_back({p, same_width ? 0.1 : uniform(0.02, 0.14)});
  }
  return design;
}

/// The channels and their images in the four walls and corners.
std::vector<Channel> with_mirror_images(const Design& design) {
  std::vector<Channel> all;
  for (const Channel& channel : design.channels) {
    for (const int i : {-1, 0, 1}) {
      for (const int j : {-1, 0, 1}) {
        const double x = i == 0 ? channel.centre.x_m : i * design.length_m - channel.centre.x_m;
        const double y = j == 0 ? channel.centre.y_m : j * design.width_m - channel.centre.y_m;
        all.push_back({{x, y}, channel.diameter_m});
      }
    }
  }
  return all;
}

bool inside(const Design& design, double x, double y) {
  return std::abs(x) <= design.length_m / 2.0 + 1e-9 && std::abs(y) <= design.width_m / 2.0 + 1e-9;
}

double by_delaunay_m(const Design& design) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  CGAL::Delaunay_triangulation_2<Kernel> triangulation;
  for (const Channel& channel : with_mirror_images(design))
    triangulation.insert({channel.centre.x_m, channel.centre.y_m});
  double most = 0.0;
  for (auto face = triangulation.finite_faces_begin(); face != triangulation.finite_faces_end(); ++face) {
    const Kernel::Point_2 p = triangulation.circumcenter(face);
    if (!inside(design, p.x(), p.y())) continue;
    const double distance = std::sqrt(CGAL::squared_distance(p, face->vertex(0)->point()));
    most = std::max(most, distance - design.channels[0].diameter_m / 2.0);
  }
  return most;
}

double by_apollonius_m(const Design& design) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  using Graph = CGAL::Apollonius_graph_2<CGAL::Apollonius_graph_filtered_traits_2<Kernel>>;
  Graph graph;
  for (const Channel& channel : with_mirror_images(design))
    graph.insert(Graph::Site_2({channel.centre.x_m, channel.centre.y_m}, channel.diameter_m / 2.0));
  double most = 0.0;
  for (auto face = graph.finite_faces_begin(); face != graph.finite_faces_end(); ++face) {
    // The dual of three sites is the circle that touches them; it is negative where they overlap.
    const auto circle = CGAL::object_cast<Graph::Site_2>(graph.dual(Graph::Face_handle(face)));
    if (!inside(design, circle.point().x(), circle.point().y())) continue;
    const Graph::Site_2& site = face->vertex(0)->site();
    const double distance = std::sqrt(CGAL::squared_distance(circle.point(), site.point())) - site.weight();
    most = std::max(most, distance);
  }
  return most;
}

template <typename Other>
double greatest_difference_m(bool same_width, Other other) {
  std::mt19937 random(11U);
  double greatest = 0.0;
  for (int trial = 0; trial < 200; ++trial) {
    const Design design = random_closed_box(random, same_width);
    greatest = std::max(greatest, std::abs(path_m(design) - other(design)));
  }
  return greatest;
}

TEST(X09, AgreesWithADelaunayTriangulation) {
  expect("X09", "greatest_difference_m", greatest_difference_m(true, by_delaunay_m));
}

TEST(X10, AgreesWithAnApolloniusGraph) {
  expect("X10", "greatest_difference_m", greatest_difference_m(false, by_apollonius_m));
}

TEST(X12, JanssenInARectangularBin) {
  const double hydraulic_m = 4.0 * 2.4 * 1.2 / 7.2;
  const vessel::Pressure at = vessel::janssen(650.0, hydraulic_m, 1.15, {0.35, 0.45});
  expect("X12", "down_kpa", at.vertical_pa / 1000.0);
  expect("X12", "side_kpa", at.horizontal_pa / 1000.0);
}

TEST(X13, BaseLoadedOffItsMiddle) {
  Design disc;
  disc.diameter_m = 1.2;
  const double mean_kpa = 10.0 / vessel::footprint_area_m2(disc);
  expect("X13", "disc_edge_kpa", mean_kpa * vessel::edge_over_mean(disc, 0.10));
  expect("X13", "disc_other_edge_kpa", mean_kpa * vessel::edge_over_mean(disc, -0.10));
  Design box;
  box.footprint = Footprint::rectangular;
  box.length_m = 2.4;
  box.width_m = 1.2;
  expect("X13", "rectangle_edge_kpa", 10.0 / 2.88 * vessel::edge_over_mean(box, 0.10));
}

TEST(X14, SettlingOfADisc) { expect("X14", "middle_mm", 1000.0 * vessel::disc_settling_m(10e3, 0.6, 5e6, 0.3)); }

TEST(X15, PresumedBearing) {
  expect("X15", "clay_kpa", vessel::presumed_bearing_clay_pa / 1000.0);
  expect("X15", "gravel_kpa", vessel::presumed_bearing_gravel_pa / 1000.0);
}

TEST(X16, DefaultPressureRatio) { expect("X16", "ratio", vessel::WallFriction{}.pressure_ratio); }

TEST(X11, MouthUnderASlat) {
  const Channel channel{{0.0, 0.0}, 0.1};
  const double mouth_m2 = constant::pi / 4.0 * 0.01;
  // The edge of this slat runs 25 mm beside the middle.
  expect("X11", "edge_share", vessel::covered_area_m2(channel, {{-1.0, 0.075}, {1.0, 0.075}, 0.1}) / mouth_m2);
  expect("X11", "middle_share", vessel::covered_area_m2(channel, {{-1.0, 0.0}, {1.0, 0.0}, 0.02}) / mouth_m2);
}

}  // namespace
}  // namespace stillheap
