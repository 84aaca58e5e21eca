#include "planning/plan/shopping.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "planning/plan/cutting.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/kit.hpp"
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

/// Forms go on to the next vessel: as many as one filling day needs, shared by kinds that take the same.
void add_piece(std::vector<PricedPiece>& lines, const VesselPlan& vessel, const vessel::Piece& piece,
               const site::Site& site) {
  if (piece.price_key != "form") return add(lines, priced(piece, vessel.design.count, site));
  const PricedPiece wanted = priced(piece, filled_in_a_day(vessel), site);
  for (PricedPiece& have : lines) {
    if (!same_article(have.piece, piece)) continue;
    if (have.count < wanted.count) have = wanted;
    return;
  }
  lines.push_back(wanted);
}

/// Water drawn for one vessel: soaking, and its programme.
double water_of_year_kg(const VesselPlan& vessel) {
  return std::max(0.0, vessel.fill.soak.water_to_draw_kg) + water::let_out_kg(vessel.programme);
}

double hourly(const site::Site& site) { return site.labour.wage_per_s * constant::seconds_per_hour; }

}  // namespace

std::vector<PricedPiece> vessel_shopping(const Plan& plan) {
  std::vector<PricedPiece> lines = stock_lines(plan.cutting);
  double water_kg = 0.0;
  for (const VesselPlan& vessel : plan.vessels) {
    for (const vessel::Piece& piece : vessel.pieces) {
      if (!is_cut(plan, piece)) add_piece(lines, vessel, piece, plan.site);
    }
    water_kg += vessel.design.count * water_of_year_kg(vessel);
  }
  for (const PricedPiece& line : kit_of(plan)) add(lines, line);
  add(lines, priced({"water for soaking and for the water programme", "water", 1, 0.0, 0.0, 0.0, "water"}, 1, plan.site,
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
        if (offer.feedstock.id != part.feedstock.id || !offer.price_given) continue;
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
  std::vector<LabourLine> lines = {{"building the vessels"},
                                   {"soaking and filling"},
                                   {"waiting for the bath, one person"},
                                   {"forms out"},
                                   {"cover and water line"},
                                   {"worms"},
                                   {"harvest of the first fill"},
                                   {"daily rounds over a year"},
                                   {"watering by hand, all runs of the programme"}};
  for (const VesselPlan& vessel : plan.vessels) {
    const VesselHours one = hours_of(plan.site, vessel);
    const double of_one[] = {practice::build_hours_a_vessel,
                             one.filling,
                             one.soaking,
                             one.forms_out,
                             one.covering,
                             one.worms,
                             one.harvest,
                             one.daily * practice::work_year_days,
                             one.watering_by_hand};
    for (std::size_t i = 0; i < lines.size(); ++i) lines[i].hours += vessel.design.count * of_one[i];
  }
  std::erase_if(lines, [](const LabourLine& line) { return line.hours <= 0.0; });
  for (LabourLine& line : lines) line.cost = line.hours * hourly(plan.site);
  return lines;
}

PricedSum sum_of(const std::vector<PricedPiece>& lines) {
  PricedSum sum;
  for (const PricedPiece& line : lines) {
    ++sum.lines;
    if (!line.priced) continue;
    ++sum.priced;
    sum.cost += line.cost;
  }
  return sum;
}

PricedSum material_sum(const Plan& plan) {
  const PricedSum parts = sum_of(plan.shopping);
  const PricedSum feedstocks = sum_of(plan.feedstock_shopping);
  return {parts.cost + feedstocks.cost, parts.priced + feedstocks.priced, parts.lines + feedstocks.lines};
}

std::string PricedSum::words() const {
  if (priced == lines) return "all lines priced";
  return "priced lines only: " + std::to_string(priced) + " of " + std::to_string(lines);
}

void add_costs(Plan& plan) {
  plan.cutting = cuts_of(plan);
  plan.shopping = vessel_shopping(plan);
  plan.feedstock_shopping = feedstock_shopping(plan);
  plan.labour = labour_of(plan);
  plan.material_cost = plan.labour_cost = plan.labour_hours = 0.0;
  plan.material_cost = material_sum(plan).cost;
  for (const LabourLine& line : plan.labour) {
    plan.labour_hours += line.hours;
    plan.labour_cost += line.cost;
  }
}

namespace {

std::string worms_words(UnitSystem units) {
  if (units == UnitSystem::metric)
    return quantity::format(practice::worms_kg_m2, Dimension::mass, units) +
           " of worms with bedding a square metre of top";
  const double kg_ft2 = practice::worms_kg_m2 * quantity::parse("1 ft2", Dimension::area);
  return quantity::format(kg_ft2, Dimension::mass, units, 2) + " of worms with bedding a square foot of top";
}

}  // namespace

Assumptions cost_choices(UnitSystem units) {
  return {
      {"plan: building time",
       std::to_string(static_cast<int>(practice::build_hours_a_vessel)) + " h a vessel, all people together", "chosen"},
      {"plan: short jobs", short_jobs_words(), "chosen"},
      {"plan: costs left out",
       "lines marked as not priced, delivery and spreading; fittings of the supply, tools and thermometer are shared "
       "by "
       "all vessels, forms and what holds them by those of one filling day",
       "chosen"},
      {"plan: screws, staples, cord and worms", kit_choices(units) + ", " + worms_words(units), "chosen"},
      {"plan: cutting",
       "saw cuts are counted, spare is not; all cloth of one material comes from one kind of roll, lengths may mix; a "
       "strip of cloth holds at most three pieces one behind the other",
       "chosen"},
  };
}

}  // namespace stillheap::plan
