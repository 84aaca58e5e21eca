#include "planning/plan/shopping.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/base/date.hpp"
#include "planning/plan/cutting.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/practice.hpp"
#include "planning/site/key.hpp"

namespace stillheap::plan {
namespace {

/// What the price of a piece counts in, by the table of the site file's keys.
Dimension counted_by(const vessel::Piece& piece) {
  const site::Key* key = site::find_key("prices", piece.price_key);
  return key == nullptr ? Dimension::money_per_piece : key->dimension;
}

void set_amount(PricedPiece& line, double volume_m3) {
  const auto set = [&](double amount, const char* unit) {
    line.amount = amount;
    line.amount_unit = unit;
  };
  switch (counted_by(line.piece)) {
    case Dimension::money_per_area:
      return set(line.count * line.piece.length_m * line.piece.width_m, "m2");
    case Dimension::money_per_length:
      return set(line.count * line.piece.length_m, "m");
    case Dimension::money_per_volume:
      return set(volume_m3, "m3");
    default:
      return set(line.count, "each");
  }
}

PricedPiece priced(const vessel::Piece& piece, int vessels, const site::Site& site, double volume_m3 = 0.0) {
  PricedPiece line;
  line.piece = piece;
  line.count = piece.count * vessels;
  set_amount(line, volume_m3);
  const auto price = site.prices.find(piece.price_key);
  line.priced = !piece.price_key.empty() && price != site.prices.end();
  if (line.priced) line.cost = line.amount * price->second;
  return line;
}

bool same_article(const vessel::Piece& a, const vessel::Piece& b) {
  return a.what == b.what && a.use == b.use && a.length_m == b.length_m && a.width_m == b.width_m &&
         a.diameter_m == b.diameter_m && a.price_key == b.price_key;
}

void add(std::vector<PricedPiece>& lines, const PricedPiece& line) {
  for (PricedPiece& have : lines) {
    if (!same_article(have.piece, line.piece)) continue;
    have.count += line.count;
    have.amount += line.amount;
    have.cost += line.cost;
    return;
  }
  lines.push_back(line);
}

/// Water drawn from one vessel's soaking and a year of sprinkling, kg.
double water_of_year_kg(const VesselPlan& vessel) {
  // Any year of 365 days gives the lengths of the months.
  const date::Day first{std::chrono::year{2025} / std::chrono::January / 1};
  double sum_kg = std::max(0.0, vessel.fill.soak.water_to_draw_kg);
  for (int day = 0; day < 365; ++day) {
    sum_kg += vessel.water.need_kg_day[static_cast<std::size_t>(date::month_index(first + std::chrono::days{day}))];
  }
  return sum_kg;
}

double hourly(const site::Site& site) { return site.labour.wage_per_s * constant::seconds_per_hour; }

}  // namespace

std::vector<PricedPiece> vessel_shopping(const Plan& plan) {
  std::vector<PricedPiece> lines = stock_lines(plan.cutting);
  double water_kg = 0.0;
  for (const VesselPlan& vessel : plan.vessels) {
    for (const vessel::Piece& piece : vessel.pieces) {
      if (!is_cut(plan, piece)) add(lines, priced(piece, vessel.design.count, plan.site));
    }
    water_kg += vessel.design.count * water_of_year_kg(vessel);
  }
  if (plan.site.water.drinking_water) {
    add(lines, priced({"back-flow preventer, kind by the local code", "watering", 1, 0.0, 0.0, 0.0, ""}, 1, plan.site));
  }
  add(lines, priced({"timer valve", "watering", 1, 0.0, 0.0, 0.0, ""}, 1, plan.site));
  add(lines, priced({"probe thermometer, long enough for the core", "checks", 1, 0.0, 0.0, 0.0, ""}, 1, plan.site));
  add(lines, priced({"water for soaking and a year's sprinkling", "water", 1, 0.0, 0.0, 0.0, "water"}, 1, plan.site,
                    water_kg / 1000.0));
  return lines;
}

std::vector<PricedPiece> feedstock_shopping(const Plan& plan) {
  std::vector<PricedPiece> lines;
  double inoculum_kg = 0.0;
  for (const VesselPlan& vessel : plan.vessels) {
    inoculum_kg += vessel.design.count * vessel.fill.inoculum_kg;
    for (const material::Part& part : vessel.blend_as_delivered.parts) {
      PricedPiece line;
      line.piece.what = part.feedstock.name;
      line.piece.use = "feedstock";
      line.count = vessel.design.count;
      line.amount = vessel.design.count * part.mass_wet_kg;
      line.amount_unit = "kg";
      for (const material::Offer& offer : plan.site.offers) {
        if (offer.feedstock.id != part.feedstock.id || offer.price_per_kg == 0.0) continue;
        line.priced = true;
        line.cost = line.amount * offer.price_per_kg;
      }
      add(lines, line);
    }
  }
  if (inoculum_kg > 0.0) {
    PricedPiece line;
    line.piece.what = "finished compost as inoculum";
    line.piece.use = "feedstock";
    line.amount = inoculum_kg;
    line.amount_unit = "kg";
    lines.push_back(line);
  }
  return lines;
}

std::vector<LabourLine> labour_of(const Plan& plan) {
  int vessels = 0;
  double soaking_h = 0.0;
  double filling_h = 0.0;
  double daily_h = 0.0;
  for (const VesselPlan& vessel : plan.vessels) {
    vessels += vessel.design.count;
    const VesselHours hours = hours_of(plan.site, vessel);
    soaking_h += vessel.design.count * hours.soaking;
    filling_h += vessel.design.count * hours.filling;
    daily_h += vessel.design.count * hours.daily * practice::work_year_days;
  }
  std::vector<LabourLine> lines = {{"building the vessels", vessels * practice::build_hours_a_vessel, 0.0},
                                   {"soaking, one person by the bath", soaking_h, 0.0},
                                   {"filling", filling_h, 0.0},
                                   {"daily rounds over a year", daily_h, 0.0}};
  for (LabourLine& line : lines) line.cost = line.hours * hourly(plan.site);
  return lines;
}

void add_costs(Plan& plan) {
  plan.cutting = cuts_of(plan);
  plan.shopping = vessel_shopping(plan);
  plan.feedstock_shopping = feedstock_shopping(plan);
  plan.labour = labour_of(plan);
  plan.material_cost = plan.labour_cost = plan.labour_hours = 0.0;
  for (const PricedPiece& line : plan.shopping) plan.material_cost += line.cost;
  for (const PricedPiece& line : plan.feedstock_shopping) plan.material_cost += line.cost;
  for (const LabourLine& line : plan.labour) {
    plan.labour_hours += line.hours;
    plan.labour_cost += line.cost;
  }
}

Assumptions cost_choices() {
  return {
      {"plan: building time",
       std::to_string(static_cast<int>(practice::build_hours_a_vessel)) + " h a vessel, all people together", "chosen"},
      {"plan: short jobs", short_jobs_words(), "chosen"},
      {"plan: costs left out",
       "lines marked as not priced, delivery, tools, harvest, screening and spreading; timer, back-flow preventer and "
       "thermometer are shared by all vessels",
       "chosen"},
      {"plan: cutting",
       "saw cuts are counted, spare is not; all cloth of one material comes from one kind of roll, lengths may mix; a "
       "strip of cloth holds at most three pieces one behind the other",
       "chosen"},
  };
}

}  // namespace stillheap::plan
