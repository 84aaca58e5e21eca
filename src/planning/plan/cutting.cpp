#include "planning/plan/cutting.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "planning/plan/hours.hpp"

namespace stillheap::plan {
namespace {

constexpr double same_size_m = 0.002;  // chosen: a nominal size may be off by that from the size it stands for

bool is_cloth(const std::string& key) { return key == "lining" || key == "base_cloth"; }

std::string what_of(const std::string& key) {
  if (key == "mesh") return "welded wire mesh";
  if (is_cloth(key) || key == "cloth") return "breathable cloth";
  if (key == "form") return "smooth pipe for forms";
  if (key == "slat") return "boards for slats and bearers";
  if (key == "board") return "boards and posts of the wall";
  return "water line";
}

/// Outside of a pipe or width of a board: what stock must match. Mesh must only be wide enough.
double section_m(const vessel::Piece& piece) { return piece.diameter_m > 0.0 ? piece.diameter_m : piece.width_m; }

bool suits(const cut::Stock& stock, const std::string& key, double width_m) {
  if (is_cloth(key)) return stock.use == key || stock.use == "cloth";
  if (stock.use != key) return false;
  if (key == "mesh") return stock.width_m >= width_m - 1e-4;
  return stock.width_m <= 0.0 || key == "line" || std::abs(stock.width_m - width_m) <= same_size_m;
}

/// Cloth is one material when stock is named for all of it together.
std::string job_key(const site::Site& site, const vessel::Piece& piece) {
  const bool together = std::any_of(site.stock.begin(), site.stock.end(),
                                    [](const cut::Stock& stock) { return stock.use == "cloth" && !stock.compare; });
  return is_cloth(piece.price_key) && together ? "cloth" : piece.price_key;
}

bool same_job(const cut::Job& job, const std::string& key, double width_m) {
  if (job.key != key) return false;
  return job.flat || key == "line" || std::abs(job.parts.front().width_m - width_m) <= same_size_m;
}

std::optional<double> price(const site::Site& site, const std::string& key) {
  const auto found = site.prices.find(key == "cloth" ? "lining" : key);
  return found == site.prices.end() ? std::nullopt : std::optional(found->second);
}

cut::Job new_job(const site::Site& site, const std::string& key, double width_m) {
  cut::Job job;
  job.key = key;
  job.what = what_of(key);
  job.flat = is_cloth(key) || key == "cloth";
  job.joinable = key == "mesh";
  (job.flat || key == "mesh" ? job.price_per_area : job.price_per_length) = price(site, key);
  for (const cut::Stock& stock : site.stock) {
    const bool fits = key == "cloth" ? stock.use == "cloth" : suits(stock, key, width_m);
    if (fits && !stock.compare) job.stock.push_back(stock);
  }
  return job;
}

/// Whether the site file names stock for it, suited or not.
bool stock_named(const site::Site& site, const std::string& key) {
  return std::any_of(site.stock.begin(), site.stock.end(), [&](const cut::Stock& stock) {
    return !stock.compare && (stock.use == key || (is_cloth(key) && stock.use == "cloth"));
  });
}

std::string part_name(const Plan& plan, const VesselPlan& vessel, const vessel::Piece& piece) {
  return plan.vessels.size() > 1 ? piece.use + ", " + vessel.design.name : piece.use;
}

/// Forms are pulled and go to the next vessel, so they are needed for one filling day only.
int needed(const VesselPlan& vessel, const vessel::Piece& piece) {
  return piece.count * (piece.price_key == "form" ? filled_in_a_day(vessel) : vessel.design.count);
}

void add_part(const Plan& plan, const VesselPlan& vessel, const vessel::Piece& piece, std::vector<MaterialCuts>& all) {
  const std::string key = job_key(plan.site, piece);
  const double width_m = section_m(piece);
  if (key.empty() || piece.length_m <= 0.0) return;
  auto at =
      std::find_if(all.begin(), all.end(), [&](const MaterialCuts& one) { return same_job(one.job, key, width_m); });
  if (at == all.end()) {
    cut::Job job = new_job(plan.site, key, width_m);
    if (job.stock.empty() && !stock_named(plan.site, key)) return;
    all.push_back({std::move(job), {}, {}});
    at = all.end() - 1;
  }
  const std::string name = part_name(plan, vessel, piece);
  for (cut::Part& part : at->job.parts) {
    if (std::abs(part.length_m - piece.length_m) > 1e-9 || std::abs(part.width_m - width_m) > 1e-9) continue;
    if (key == "form") {
      part.count = std::max(part.count, needed(vessel, piece));
    } else {
      part.count += needed(vessel, piece);
    }
    if (part.what.find(name) == std::string::npos) part.what += " and " + name;
    return;
  }
  at->job.parts.push_back({name, piece.length_m, width_m, needed(vessel, piece)});
}

/// What a vessel would be if its ring were one panel of this mesh.
void add_effect(const Plan& plan, OtherSize& other) {
  const auto round = std::find_if(plan.vessels.begin(), plan.vessels.end(), [](const VesselPlan& vessel) {
    return vessel.design.footprint == vessel::Footprint::round && vessel.design.wall == vessel::Wall::open;
  });
  if (round == plan.vessels.end()) return;
  vessel::Design design = round->design;
  const double freeboard_m = design.height_m - design.fill_height_m;
  // A long roll makes the ring as drawn; only a panel that is shorter, or not much longer, makes another one.
  const bool one_ring = other.stock.length_m < 2.0 * vessel::perimeter_m(design);
  if (one_ring) design.diameter_m = vessel::ring_diameter_m(other.stock.length_m);
  design.height_m = other.stock.width_m;
  design.fill_height_m = std::max(0.0, design.height_m - freeboard_m);
  other.diameter_m = design.diameter_m;
  other.height_m = design.height_m;
  other.volume_m3 = vessel::material_volume_m3(design);
}

void weigh_others(const Plan& plan, MaterialCuts& material) {
  for (const cut::Stock& stock : plan.site.stock) {
    const std::string& key = material.job.key;
    const bool same = stock.use == key || (material.job.flat && stock.use == "cloth");
    if (!stock.compare || !same) continue;
    OtherSize other;
    other.stock = stock;
    cut::Job job = material.job;
    job.stock = {stock};
    const bool too_narrow = key == "mesh" && stock.width_m < job.parts.front().width_m - 1e-4;
    if (too_narrow) {
      other.cuts.note = "too narrow for the height as drawn";
    } else {
      other.cuts = cut::cut_job(job);
    }
    if (key == "mesh") add_effect(plan, other);
    material.others.push_back(std::move(other));
  }
}

}  // namespace

std::vector<MaterialCuts> cuts_of(const Plan& plan) {
  std::vector<MaterialCuts> all;
  for (const VesselPlan& vessel : plan.vessels) {
    for (const vessel::Piece& piece : vessel.pieces) add_part(plan, vessel, piece, all);
  }
  for (MaterialCuts& material : all) {
    material.cuts = cut::cut_job(material.job);
    weigh_others(plan, material);
  }
  return all;
}

bool is_cut(const Plan& plan, const vessel::Piece& piece) {
  const std::string key = job_key(plan.site, piece);
  return std::any_of(plan.cutting.begin(), plan.cutting.end(), [&](const MaterialCuts& material) {
    return material.cuts.done() && piece.length_m > 0.0 && same_job(material.job, key, section_m(piece));
  });
}

std::vector<PricedPiece> stock_lines(const std::vector<MaterialCuts>& cutting) {
  std::vector<PricedPiece> lines;
  for (const MaterialCuts& material : cutting) {
    for (std::size_t s = 0; s < material.job.stock.size(); ++s) {
      const cut::Stock& stock = material.job.stock[s];
      const int count = cut::pieces_of(material.cuts, s);
      if (count == 0) continue;
      PricedPiece line;
      line.stock = true;
      line.piece.what = material.job.what;
      line.piece.use = stock.at_hand ? "at hand, see the cut list" : "see the cut list";
      line.piece.price_key = material.job.key;
      line.piece.length_m = stock.length_m;
      (material.job.key == "form" ? line.piece.diameter_m : line.piece.width_m) = stock.width_m;
      line.count = count;
      line.amount = count;
      line.amount_unit = "each";
      cut::JobCuts only = material.cuts;
      std::erase_if(only.pieces, [s](const cut::StockPiece& piece) { return piece.stock != s; });
      line.cost = cut::cost_of(material.job, only);
      line.priced = material.cuts.priced;
      if (stock.by_length) {
        line.amount = 0.0;
        for (const cut::StockPiece& piece : only.pieces) line.amount += piece.used_m;
        line.amount_unit = "m";
      }
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

}  // namespace stillheap::plan
