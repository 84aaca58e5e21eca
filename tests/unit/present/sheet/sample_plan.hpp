#pragma once
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/base/constants.hpp"
#include "planning/plan/plan.hpp"

/// An invented plan with every field set: "Quillbrook Orchards". Numbers are plausible, none of them is computed by
/// the stages, so the sheets can be tested alone.
namespace stillheap::sample {

inline vessel::Design round_design() {
  vessel::Design d;
  d.name = "Pear row cage";
  d.count = 3;
  d.footprint = vessel::Footprint::round;
  d.diameter_m = 1.40;
  d.height_m = 1.50;
  d.fill_height_m = 1.44;
  d.base_gap_m = 0.15;
  for (int i = -3; i <= 3; ++i) {
    const double x = 0.19 * i;
    const double half = std::sqrt(0.7 * 0.7 - x * x) * 0.98;
    d.slats.push_back({{x, -half}, {x, half}, 0.095});
  }
  d.channels.push_back({{0.0, 0.0}, 0.110});
  for (int i = 0; i < 5; ++i) {
    const double angle = 2.0 * constant::pi * i / 5.0;
    d.channels.push_back({{0.42 * std::cos(angle), 0.42 * std::sin(angle)}, 0.110});
  }
  d.mesh = vessel::WireMesh{0.004, 0.05, 235e6};
  d.panel_width_m = 1.5;
  d.lining_overlap_m = 0.15;
  d.lining_fold_m = 0.15;
  return d;
}

inline vessel::Design crate_design() {
  vessel::Design d;
  d.name = "Barn crate";
  d.count = 1;
  d.footprint = vessel::Footprint::rectangular;
  d.length_m = 2.40;
  d.width_m = 1.20;
  d.height_m = 1.30;
  d.fill_height_m = 1.25;
  d.wall = vessel::Wall::closed;
  d.base_gap_m = 0.12;
  for (int i = 0; i < 6; ++i) d.slats.push_back({{-1.2, -0.5 + 0.2 * i}, {1.2, -0.5 + 0.2 * i}, 0.1});
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 2; ++j) d.channels.push_back({{-0.9 + 0.6 * i, -0.3 + 0.6 * j}, 0.125});
  }
  return d;
}

inline material::Feedstock feedstock(const std::string& id, const std::string& name, double moisture, double density) {
  material::Feedstock f;
  f.id = id;
  f.name = name;
  f.moisture_wet = moisture;
  f.carbon_dry = 0.47;
  f.nitrogen_dry = 0.012;
  f.ash_dry = 0.06;
  f.bulk_density_kg_m3 = density;
  f.conductivity_s_m = 0.12;
  return f;
}

inline material::Blend blend(double volume_m3) {
  material::Blend b;
  b.parts = {{feedstock("wood-chips", "wood chips, shredded prunings", 0.38, 260.0), 150.0 * volume_m3},
             {feedstock("leaves", "leaves, mixed, shredded", 0.32, 95.0), 38.0 * volume_m3},
             {feedstock("horse-manure", "horse manure with straw", 0.68, 380.0), 57.0 * volume_m3}};
  b.mass_wet_kg = 245.0 * volume_m3;
  b.mass_dry_kg = 137.0 * volume_m3;
  b.volume_m3 = volume_m3;
  b.moisture_wet = 0.44;
  b.carbon_to_nitrogen = 37.0;
  b.degradable_carbon_to_nitrogen = 21.4;
  b.conductivity_s_m = 0.17;
  b.bulk_density_kg_m3 = 245.0;
  b.free_air_space = 0.68;
  return b;
}

inline material::Blend soaked(material::Blend b) {
  b.moisture_wet = 0.65;
  b.mass_wet_kg = b.mass_dry_kg / 0.35;
  b.bulk_density_kg_m3 = b.mass_wet_kg / b.volume_m3;
  b.free_air_space = 0.52;
  return b;
}

inline double core_c(double day) { return 12.0 + 55.0 * (1.0 - std::exp(-day / 1.2)) * std::exp(-day / 70.0); }
inline double outside_c(double day) {
  return 11.0 + 8.0 * std::sin(2.0 * constant::pi * (day - 20.0) / 365.0) + 3.0 * std::sin(1.7 * day);
}

inline std::vector<forecast::HistoryRow> history() {
  std::vector<forecast::HistoryRow> rows;
  for (int i = 0; i <= 365 * 4; ++i) {
    forecast::HistoryRow r;
    r.day = 0.25 * i;
    const double hot = core_c(r.day);
    r.outside_c = outside_c(r.day) + 4.0 * std::sin(2.0 * constant::pi * r.day);
    r.core_c = std::max(hot, r.outside_c + 1.0);
    r.mean_c = 0.8 * r.core_c + 0.2 * r.outside_c;
    r.hottest_c = r.core_c + 2.0;
    r.coldest_c = 0.35 * r.core_c + 0.65 * r.outside_c;
    r.mean_oxygen = 0.205 - 0.07 * std::exp(-r.day / 25.0);
    r.lowest_oxygen = 0.19 - 0.155 * std::exp(-r.day / 30.0);
    r.mean_moisture_wet = 0.65 - 0.05 * std::exp(-std::pow((r.day - 40.0) / 30.0, 2.0));
    r.dry_mass_kg = 160.0 + 120.0 * std::exp(-r.day / 120.0);
    r.height_m = 0.95 + 0.49 * std::exp(-r.day / 110.0);
    r.uptake_kg_s = 1e-5;
    r.evaporated_kg_day = 9.0;
    r.drained_kg_day = 1.0;
    r.sprinkled_kg_day = 10.0;
    rows.push_back(r);
  }
  return rows;
}

/// A square grid over the footprint; triangles with a corner outside the material are left out.
inline forecast::FieldMesh mesh_of(const vessel::Design& d) {
  forecast::FieldMesh mesh;
  mesh.levels = 7;
  const bool round = d.footprint == vessel::Footprint::round;
  const double a = 0.5 * (round ? d.diameter_m : d.length_m);
  const double b = 0.5 * (round ? d.diameter_m : d.width_m);
  constexpr int nx = 48;
  constexpr int ny = 36;
  const auto inside = [&](Point p) {
    if (round && std::hypot(p.x_m, p.y_m) > a) return false;
    return std::none_of(d.channels.begin(), d.channels.end(), [&](const vessel::Channel& channel) {
      return distance_m(p, channel.centre) < 0.5 * channel.diameter_m;
    });
  };
  for (int j = 0; j <= ny; ++j) {
    for (int i = 0; i <= nx; ++i) mesh.points.push_back({-a + 2.0 * a * i / nx, -b + 2.0 * b * j / ny});
  }
  const auto keep = [&](int p, int q, int r) {
    for (const int k : {p, q, r}) {
      if (!inside(mesh.points[static_cast<std::size_t>(k)])) return;
    }
    mesh.triangles.push_back({p, q, r});
  };
  for (int j = 0; j < ny; ++j) {
    for (int i = 0; i < nx; ++i) {
      const int corner = j * (nx + 1) + i;
      keep(corner, corner + 1, corner + nx + 2);
      keep(corner, corner + nx + 2, corner + nx + 1);
    }
  }
  return mesh;
}

inline forecast::Snapshot snapshot(const vessel::Design& d, const forecast::FieldMesh& mesh, double day) {
  forecast::Snapshot s;
  s.day = day;
  const double height = d.fill_height_m * (0.66 + 0.34 * std::exp(-day / 110.0));
  for (int level = 0; level < mesh.levels; ++level) s.level_m.push_back(height * level / (mesh.levels - 1));
  for (int level = 0; level < mesh.levels; ++level) {
    const double z = static_cast<double>(level) / (mesh.levels - 1);
    for (const Point p : mesh.points) {
      double air = 1e9;
      for (const vessel::Channel& channel : d.channels) {
        air = std::min(air, distance_m(p, channel.centre) - 0.5 * channel.diameter_m);
      }
      if (d.footprint == vessel::Footprint::round) air = std::min(air, 0.5 * d.diameter_m - std::hypot(p.x_m, p.y_m));
      const double deep = std::clamp(air / 0.2, 0.0, 1.0);
      const double warm = (0.45 + 0.55 * deep) * (0.7 + 0.3 * std::sin(constant::pi * std::min(1.0, z + 0.1)));
      const double out = outside_c(day);
      s.temperature_c.push_back(static_cast<float>(out + (std::max(core_c(day), out + 1.0) - out) * warm));
      s.oxygen.push_back(static_cast<float>(0.207 - 0.17 * deep * std::exp(-day / 40.0)));
      s.moisture_wet.push_back(static_cast<float>(0.6 + 0.06 * deep));
    }
  }
  return s;
}

inline forecast::Summary summary() {
  forecast::Summary s;
  s.peak_temperature_c = {64.8, 61.2, 69.9};
  s.peak_day = {4.6, 3.2, 7.4};
  s.peak_place = {{0.23, 0.02}, 0.88};
  s.days_above_55_mass_mean = {9.3, 6.1, 14.2};
  s.share_3_days_above_55 = {0.71, 0.52, 0.84};
  s.cool_day = 118.0;
  s.cool_day_low = 97.0;
  s.cool_day_high = 151.0;
  s.cool_share_of_members = 0.94;
  s.lowest_oxygen = {0.041, 0.018, 0.073};
  s.lowest_oxygen_place = {{0.27, 0.19}, 0.31};
  s.lowest_oxygen_day = {2.3, 1.6, 4.8};
  s.most_mass_below_5_oxygen = {0.06, 0.01, 0.17};
  s.days_any_below_5_oxygen = {4.0, 0.0, 11.0};
  s.driest_moisture_wet = {0.46, 0.41, 0.52};
  s.wettest_moisture_wet = {0.71, 0.68, 0.74};
  s.mean_moisture_end_wet = {0.64, 0.60, 0.67};
  s.solids_lost = {0.43, 0.36, 0.50};
  s.height_lost = {0.34, 0.28, 0.41};
  s.finished_mass_kg = {446.0, 401.0, 498.0};
  s.finished_volume_m3 = {1.42, 1.27, 1.55};
  s.salt_concentration_ratio = {1.31, 1.12, 1.55};
  s.salt_leached_share = {0.24, 0.15, 0.33};
  s.water_put_on_kg = {2840.0, 2480.0, 3310.0};
  s.water_evaporated_kg = {2715.0, 2390.0, 3150.0};
  s.water_drained_kg = {310.0, 205.0, 462.0};
  s.water_made_kg = {74.0, 61.0, 88.0};
  s.peak_uptake_g_kg_h = {3.4, 2.5, 4.9};
  s.conservation = {2.1e-12, 4.0e-9, 3.3e-10, 7.2e-9, 1.0e-12, 5.5e-10};
  return s;
}

inline forecast::Sensitivity sensitivity() {
  forecast::Sensitivity all;
  all.answers = {{"peak temperature", 64, 0.21}, {"day of cooling", 61, 0.12}, {"solids lost", 64, 0.08}};
  all.unknowns = {
      {"how lively the material is",
       "keep a vacuum flask full of the damp blend for ten days and note how hot it gets, or have a "
       "laboratory measure its oxygen uptake",
       {{0.35, 0.24, 0.44}, {0.41, 0.30, 0.52}, {0.61, 0.49, 0.70}},
       {0.14, 0.17, 0.26},
       0.19},
      {"moisture at filling",
       "weigh a mixed sample of the soaked blend, dry it at 105 degC until it loses no more, weigh it again",
       {{0.08, 0.03, 0.15}, {0.0, 0.0, 0.0}, {0.05, 0.02, 0.09}},
       {0.04, 0.0, 0.02},
       0.02},
      {"the model's own constants", "", {{0.36, 0.2, 0.5}, {0.47, 0.3, 0.6}, {0.26, 0.1, 0.4}}, {0, 0, 0}, 0}};
  return all;
}

inline forecast::Result result_for(const vessel::Design& d) {
  forecast::Result r;
  r.summary = summary();
  r.history = r.history_low = r.history_high = history();
  for (std::size_t i = 0; i < r.history.size(); ++i) {
    r.history_low[i].core_c *= 0.91;
    r.history_high[i].core_c *= 1.11;
    r.history_low[i].lowest_oxygen *= 0.8;
    r.history_high[i].lowest_oxygen = std::min(0.205, 1.15 * r.history[i].lowest_oxygen);
    r.history_low[i].mean_moisture_wet -= 0.03;
    r.history_high[i].mean_moisture_wet += 0.025;
    r.history_low[i].height_m *= 0.95;
    r.history_high[i].height_m *= 1.04;
    r.history_low[i].dry_mass_kg *= 0.93;
    r.history_high[i].dry_mass_kg *= 1.06;
  }
  r.sensitivity = sensitivity();
  r.mesh = mesh_of(d);
  for (const double day : {0.0, 1.0, 2.0, 5.0, 10.0, 30.0, 90.0, 180.0, 270.0, 365.0}) {
    r.snapshots.push_back(snapshot(d, r.mesh, day));
  }
  r.assumptions = {{"model: temperature response", "two-exponential factor, held at zero above 80.2 degC", "Haug 1993"},
                   {"model: air outside", "calm air at the base gap; wind acts on the wall only", "chosen"}};
  r.solved = "one tenth of the vessel, unfolded";
  r.cells_full = 11520;
  r.cells_solved = 1152;
  r.steps = 4210;
  r.members = 64;
  return r;
}

/// A heap that loses most in summer.
inline std::vector<water::DayOfHeap> losing_days(int count) {
  std::vector<water::DayOfHeap> days;
  for (int day = 0; day < count; ++day) {
    const double summer = 0.5 - 0.5 * std::cos(2.0 * constant::pi * (day + 80.0) / 365.0);
    days.push_back({5.0 + 12.0 * summer, 2.0, 400.0, day > 230 && day < 320});
  }
  return days;
}

inline plan::VesselPlan vessel_plan(const vessel::Design& d, double volume_m3) {
  plan::VesselPlan v;
  v.design = d;
  const bool round = d.footprint == vessel::Footprint::round;
  v.air_path = round ? vessel::AirPath{0.204, 0.204, {0.2427, 0.1763}, 0.72, false}
                     : vessel::AirPath{0.3618, 0.3618, {0.0, 0.0}, 0.62, false};
  if (round) {
    v.warnings = {{vessel::ClashKind::channel_and_bearer, 0, 3, 0.0, 0.0, 0.86, false}};
  } else {
    v.suggestion = vessel::Suggestion{};
    v.suggestion->words = "ten in two rows of five";
  }
  v.loads.mass_wet_kg = 960.0;
  v.loads.weight_n = 9414.0;
  v.loads.base_pressure_pa = 6120.0;
  v.loads.ground_pressure_pa = 6400.0;
  if (!round) v.loads.side_force_n_m = 1900.0;
  v.loads.note = "Joints, ties and bearers are not judged here; they carry the same loads.";
  v.loads.side_pressure_pa = 3010.0;
  v.loads.side_pressure_no_friction_pa = 3060.0;
  if (round) v.loads.hoop_tension_n_m = 2142.0;
  v.loads.wire_force_n = 107.0;
  v.loads.wire_stress_pa = 8.5e6;
  v.loads.wire_safety = round ? 27.6 : 0.0;
  v.loads.tie_force_n = round ? 321.0 : 0.0;
  v.loads.ground = {4, 0.47, 0.045, 6.7e4, 0.87, 0.2, 0.8, 7.1e3, 0.0021};
  v.loads_waterlogged = v.loads;
  v.loads_waterlogged.mass_wet_kg = 2060.0;
  v.loads_waterlogged.wire_safety = round ? 12.9 : 0.0;
  v.blend_as_delivered = blend(volume_m3);
  v.blend_soaked = soaked(v.blend_as_delivered);
  v.fill.pails = 117;
  v.fill.lifts = 17;
  v.fill.lift_height_m = 0.0862;
  v.fill.people_hours = 9.0;
  v.fill.hours = 4.5;
  v.fill.inoculum_kg = 6.2;
  v.fill.pail_mass_kg = 8.4;
  v.fill.pail_limit_kg = 7.6;
  v.fill.lifting_index = 1.1;
  v.fill.soak = {330.0, 470.0, 22, 22 * 2400.0, false};
  v.fill.steps = {
      "Set the base level on firm ground, slats across, and stand the lined cage on it.",
      "Tie the six forms upright at their marks; check with a straight edge that none leans.",
      "Soak the first batch and let it drain; fill the first lift of 7 pails around the forms without treading.",
      "Level each lift by hand, strew the share of finished compost, and go on to the next lift.",
      "At the top, lay the cover over the filling and tie it around the brim.",
      "After one day draw the forms straight up, two people, one turn each way first."};
  v.line_flow.holes = 44;
  v.line_flow.hole_flow_m3_s.assign(44, 2.2e-6);
  for (int i = 0; i < 44; ++i) v.line_flow.hole_distance_m.push_back(0.05 + 0.1 * i);
  v.line_flow.pipe_flow_m3_s.assign(44, 5e-5);
  v.line_flow.hole_pressure_pa.assign(44, 1.0e5);
  v.line_flow.total_flow_m3_s = 1.9e-4;
  v.line_flow.inlet_pressure_pa = 1.2e5;
  v.line_flow.christiansen_uniformity = 0.97;
  v.line_flow.low_quarter_uniformity = 0.95;
  v.programme = water::make_programme(
      *date::parse_iso("2026-04-10"), losing_days(365),
      {.step_kg = 0.19 * 60.0, .step_s = 60.0, .efficiency = 0.8, .leaching_share = 0.1, .most_reaching_kg = 40.0}, 1);
  for (const water::Row& row : v.programme.rows) {
    const double middle_kg_day = 0.1 * row.lost_kg / 15.0;
    v.drained_kg_day.push_back({middle_kg_day, 0.8 * middle_kg_day, 1.4 * middle_kg_day});
  }
  v.drain_conductivity_s_m = 0.21;
  v.forecast = result_for(d);
  v.hygiene.core = {{"hold-55-3d",
                     "at least 55 degC for 3 days, static heap",
                     "8.9 days in a row from day 2",
                     "40 CFR 503 appendix B",
                     true,
                     4.5e5,
                     {}}};
  v.hygiene.coldest = {{"hold-55-3d",
                        "at least 55 degC for 3 days, static heap",
                        "never above 48.2 degC; 6.8 K short",
                        "40 CFR 503 appendix B",
                        false,
                        {},
                        {}}};
  v.harvest = {240.0, 330.0, true};
  return v;
}

inline plan::PricedPiece bought(const std::string& what, const std::string& use, int count, double length, double width,
                                double diameter, double amount, const std::string& unit, double cost) {
  return {{what, use, count, length, width, diameter, ""}, count, amount, unit, cost, cost > 0.0};
}

/// Cuts as the stages make them, for the drawings.
inline void add_cutting(plan::Plan& p) {
  cut::Job mesh{"mesh", "welded wire mesh", false, true, {{"cage, Pear row cage", 4.398, 1.5, 3}}, {}, 6.5, 0.0};
  mesh.stock = {{"mesh", 5.0, 1.5, 45.0, {}, 0.0, false, false}};
  cut::Job cloth{"cloth", "breathable cloth", true, false, {}, {}, 1.7, 0.0};
  cloth.parts = {{"lining, Pear row cage", 4.548, 1.8, 3},
                 {"on the base, Pear row cage and cover on top", 2.01, 2.01, 6}};
  cloth.stock = {{"cloth", 25.0, 2.1, 80.0, {}, 0.0, false, false}};
  cut::Job form{"form", "smooth pipe for forms", false, false, {{"form of a channel", 1.8, 0.11, 6}}, {}, 0.0, 7.0};
  form.stock = {{"form", 5.0, 0.11, {}, {}, 0.003, false, false}, {"form", 2.2, 0.11, {}, 2, 0.003, false, false}};
  for (const cut::Job& job : {mesh, cloth, form}) p.cutting.push_back({job, cut::cut_job(job), {}});
  plan::OtherSize narrow;
  narrow.stock = {"mesh", 4.0, 1.2, 30.0, {}, 0.0, false, true};
  narrow.cuts.note = "too narrow for the height as drawn";
  narrow.diameter_m = 1.273;
  narrow.height_m = 1.2;
  narrow.volume_m3 = 1.4;
  p.cutting[0].others = {narrow};
  cut::Job wide = cloth;
  wide.stock = {{"cloth", 50.0, 4.2, 210.0, {}, 0.0, false, true}};
  p.cutting[1].others = {{wide.stock[0], cut::cut_job(wide), 0.0, 0.0, 0.0}};
}

inline void add_shopping(plan::Plan& p) {
  p.shopping = {
      bought("welded wire mesh, cut to a panel", "cage", 3, 4.398, 1.5, 0.0, 19.79, "m2", 128.64),
      bought("breathable woven cloth", "lining, folded over at top and bottom", 3, 4.548, 1.8, 0.0, 24.56, "m2", 41.75),
      bought("breathable woven cloth", "cover", 3, 1.7, 1.7, 0.0, 8.67, "m2", 14.74),
      bought("smooth pipe", "forms for the channels, drawn after a day and used again", 6, 1.74, 0.0, 0.11, 10.44, "m",
             73.08),
      bought("larch slat", "base", 21, 1.37, 0.095, 0.0, 28.77, "m", 0.0),
      bought("polyethylene pipe", "water line", 3, 4.4, 0.0, 0.016, 13.2, "m", 9.24)};
  p.feedstock_shopping = {bought("wood chips, shredded prunings", "blend", 0, 0, 0, 0, 1010.0, "kg", 30.30),
                          bought("leaves, mixed, shredded", "blend", 0, 0, 0, 0, 256.0, "kg", 0.0),
                          bought("horse manure with straw", "blend", 0, 0, 0, 0, 384.0, "kg", 9.60)};
  p.material_cost = 307.35;
  p.labour = {{"building the vessels", 12.0, 216.0},
              {"filling", 36.0, 648.0},
              {"watering and looking", 24.3, 437.4},
              {"emptying", 9.0, 162.0}};
  p.labour_cost = 1463.4;
  p.labour_hours = 81.3;
}

inline void add_words(plan::Plan& p) {
  p.calendar = {{"2026-04-03", "", "Soak and fill; forms in", "Pear row cage"},
                {"2026-04-04", "", "Draw the forms", "Pear row cage"},
                {"2026-04-06", "2026-04-10", "Probe daily: the hottest days", "Pear row cage"},
                {"2026-07-09", "2026-09-01", "Cool enough for worms: add them under the cover", "Pear row cage"},
                {"2026-11-29", "2027-02-27", "Harvest; rake out the base and dry the cage", "Pear row cage"},
                {"2026-12-01", "2027-02-28", "Drain the line before frost", ""}};
  p.cautions = {
      {"building",
       "A full cage holds close to a tonne and can tip: set it on firm, level ground, and keep children from climbing "
       "it. Have the loads checked where local codes ask for it.",
       "common practice, no source"},
      {"filling",
       "Dust and spores of shredded material can harm the lungs: wet it before handling and wear a close-fitting mask.",
       "NIOSH"},
      {"filling",
       "A soaked pail weighs about 13 kg: lift with bent knees, pass it on between two people, and stand on a firm "
       "platform, not on a ladder.",
       "ISO 11228-1"},
      {"filling", "Manure carries germs: wear gloves, wash hands before eating, keep open wounds covered.",
       "common practice, no source"},
      {"hot phase",
       "Above 70 degC with dry places a heap can set itself alight: look for smoke and smell, wet dry places slowly "
       "from outside, never dig into a smouldering heap; call the fire service.",
       "practice standard 317"},
      {"hot phase", "Steam and material above 60 degC burn the skin: draw probes with gloves.",
       "common practice, no source"},
      {"watering",
       "The line hangs on a drinking-water supply: fit a back-flow preventer of the kind your local code asks for.",
       "local codes"},
      {"watering", "Let what drains soak into planted ground, away from wells and ditches.",
       "common practice, no source"},
      {"harvest",
       "Manure was used and the coldest place does not meet a hygiene rule in the forecast: keep the compost off crops "
       "eaten raw for 120 days.",
       "7 CFR 205.203"}};
  p.warnings = {{"blend", "C:N of the degradable part is 21 to 1; a fast start is likely", "Rynk 1992"}};
  for (int i = 0; i < 70; ++i) {
    p.assumptions.push_back(
        {"vessel.part-" + std::to_string(i) + ".resistance-of-cloth", "400 Pa s/m",
         i % 3 == 0 ? "chosen" : "Author and Other 1999, table 3, for woven cloth of this weight; from memory"});
  }
  p.assumptions.push_back({"weather.humidity", "75 % in every month, since the file gives none", "chosen"});
  p.assumptions.push_back({"model: air outside", "calm air at the base gap; wind acts on the wall only", "chosen"});
}

/// Two kinds of vessel in metric, one in US units.
inline plan::Plan plan_for(UnitSystem units) {
  plan::Plan p;
  p.site.name = "Quillbrook Orchards";
  p.site.units = units;
  p.site.currency = units == UnitSystem::us ? "USD" : "EUR";
  p.site.start_date = "2026-04-03";
  p.site.wanted_air_path_m = 0.30;
  p.site.soil_bearing_pa = 100e3;
  p.site.water.line = {0.0136, 4.4, 0.0008, 0.1, 0.62, 1.5e-6, 4, 1.2e-5, 1e5, true};
  p.site.water.supply = {1.5e5, 3e-4, 0.05};
  p.site.labour.wage_per_s = 18.0 / 3600.0;
  p.site.defaults = {{"labour.people", "2 people", "common practice, no source"}};
  p.vessels_needed = units == UnitSystem::us ? 3 : 4;
  p.vessels_needed_low = 3;
  p.vessels_needed_high = 5;
  p.finished_m3 = {5.7, 5.1, 6.2};
  p.vessels.push_back(vessel_plan(round_design(), 2.2));
  if (units == UnitSystem::metric) p.vessels.push_back(vessel_plan(crate_design(), 3.6));
  add_shopping(p);
  add_cutting(p);
  add_words(p);
  return p;
}

}  // namespace stillheap::sample
