#include "planning/cut/job.hpp"

#include <algorithm>
#include <cmath>

#include "planning/cut/lengths.hpp"

namespace stillheap::cut {
namespace {

/// Price of a whole one; nothing when neither it nor its material has a price.
std::optional<double> price_of(const Job& job, const Stock& stock) {
  if (stock.at_hand) return 0.0;
  if (stock.price) return stock.price;
  if (job.price_per_area && stock.width_m > 0.0) return *job.price_per_area * stock.length_m * stock.width_m;
  if (job.price_per_length) return *job.price_per_length * stock.length_m;
  return std::nullopt;
}

bool all_priced(const Job& job) {
  return std::all_of(job.stock.begin(), job.stock.end(),
                     [&](const Stock& stock) { return price_of(job, stock).has_value(); });
}

/// Paid for a share of it when it is sold by length.
double paid(const Job& job, const Stock& stock, double used_m) {
  const double whole = price_of(job, stock).value_or(0.0);
  return stock.by_length ? whole * std::min(1.0, used_m / stock.length_m) : whole;
}

double drawn_width_m(const Part& part, const Stock& stock) {
  return stock.width_m > 0.0 ? stock.width_m : part.width_m;
}

/// Sums areas, cost and waste of what was cut.
void add_up(const Job& job, JobCuts& cuts) {
  double taken = 0.0;
  double kept = 0.0;
  for (const StockPiece& piece : cuts.pieces) {
    const Stock& stock = job.stock[piece.stock];
    const double length_m = stock.by_length ? std::min(piece.used_m, stock.length_m) : stock.length_m;
    const double width_m = drawn_width_m(cuts.parts[piece.pieces.front().want], stock);
    cuts.stock_area_m2 += length_m * width_m;
    taken += job.flat ? length_m * width_m : length_m;
    for (const Placed& placed : piece.pieces) {
      cuts.part_area_m2 += placed.along_m * placed.across_m;
      kept += job.flat ? placed.along_m * placed.across_m : placed.along_m;
    }
  }
  cuts.cost = cost_of(job, cuts);
  cuts.priced = all_priced(job);
  cuts.waste_share = taken > 0.0 ? std::max(0.0, 1.0 - kept / taken) : 0.0;
}

/// Pieces longer than every stock in equal parts that fit.
void join_long_ones(const Job& job, JobCuts& cuts) {
  double longest_m = 0.0;
  for (const Stock& stock : job.stock) longest_m = std::max(longest_m, stock.length_m);
  for (Part& part : cuts.parts) {
    if (!job.joinable || part.length_m <= longest_m + 1e-6 || longest_m <= 0.0) continue;
    const int lengths = static_cast<int>(std::ceil(part.length_m / longest_m - 1e-6));
    cuts.note += (cuts.note.empty() ? "" : " ") + part.what + " is joined from " + std::to_string(lengths) +
                 " equal lengths, each joint tied like the first.";
    part.length_m /= lengths;
    part.count *= lengths;
  }
}

void cut_along(const Job& job, JobCuts& cuts) {
  const bool priced = all_priced(job);
  std::vector<Bar> bars;
  double saw_m = 0.0;
  for (const Stock& stock : job.stock) {
    // Sold by length, waste costs nothing: the fewest cuts into a new one are wanted then.
    bars.push_back({stock.length_m, stock.at_hand || priced ? *price_of(job, stock) : stock.length_m, stock.at_hand});
    saw_m = std::max(saw_m, stock.saw_m);
  }
  std::vector<Want> wants;
  for (const Part& part : cuts.parts) wants.push_back({part.length_m, part.count});
  const std::optional<LengthCuts> found = cut_lengths(bars, wants, saw_m);
  if (!found) {
    cuts.note = "The stock named does not suffice: a piece is longer than every one of it, or too few are at hand.";
    return;
  }
  for (const CutBar& bar : found->bars) {
    StockPiece piece{bar.stock, {}, 0.0};
    for (const std::size_t want : bar.wants) {
      piece.pieces.push_back(
          {want, piece.used_m, 0.0, wants[want].length_m,
           std::min(cuts.parts[want].width_m, drawn_width_m(cuts.parts[want], job.stock[bar.stock]))});
      piece.used_m += wants[want].length_m + saw_m;
    }
    piece.used_m = std::min(piece.used_m, job.stock[bar.stock].length_m);
    cuts.pieces.push_back(std::move(piece));
  }
  cuts.gap_share = found->cost > 0.0 && !found->optimal() ? 1.0 - found->bound / found->cost : 0.0;
}

/// Strips packed into whole rolls, in order along each.
std::vector<StockPiece> into_rolls(const StripCuts& strips, std::size_t stock, double roll_length_m) {
  std::vector<Want> wants;
  std::vector<std::vector<std::size_t>> alike;  // strips of each want
  for (std::size_t i = 0; i < strips.strips.size(); ++i) {
    const double length_m = strips.strips[i].length_m;
    const auto same = std::find_if(wants.begin(), wants.end(),
                                   [&](const Want& want) { return std::abs(want.length_m - length_m) < 1e-9; });
    if (same == wants.end()) {
      wants.push_back({length_m, 1});
      alike.push_back({i});
    } else {
      ++same->count;
      alike[static_cast<std::size_t>(same - wants.begin())].push_back(i);
    }
  }
  std::vector<StockPiece> rolls;
  const std::optional<LengthCuts> packed = cut_lengths({{roll_length_m, 1.0, {}}}, wants, 0.0);
  if (!packed) return rolls;
  for (const CutBar& bar : packed->bars) {
    StockPiece roll{stock, {}, 0.0};
    for (const std::size_t want : bar.wants) {
      const std::size_t strip = alike[want].back();
      alike[want].pop_back();
      for (Placed piece : strips.strips[strip].pieces) {
        piece.x_m += roll.used_m;
        roll.pieces.push_back(piece);
      }
      roll.used_m += strips.strips[strip].length_m;
    }
    rolls.push_back(std::move(roll));
  }
  return rolls;
}

/// The job cut from one kind of roll; nothing when it does not suffice.
std::optional<JobCuts> cut_from_roll(const Job& job, std::size_t which) {
  const Stock& stock = job.stock[which];
  std::vector<Rectangle> wants;
  for (const Part& part : job.parts) wants.push_back({part.length_m, part.width_m, part.count});
  const std::optional<StripCuts> strips = cut_strips(stock.width_m, stock.length_m, wants);
  if (!strips) return std::nullopt;
  JobCuts cuts;
  cuts.parts = job.parts;
  cuts.pieces = into_rolls(*strips, which, stock.length_m);
  if (stock.at_hand && static_cast<int>(cuts.pieces.size()) > *stock.at_hand) return std::nullopt;
  add_up(job, cuts);
  const double bound = stock.by_length ? strips->bound_m : std::ceil(strips->bound_m / stock.length_m - 1e-6);
  const double have = stock.by_length ? strips->length_m : static_cast<double>(cuts.pieces.size());
  cuts.gap_share = have > bound * (1.0 + 1e-6) ? 1.0 - bound / have : 0.0;
  return cuts;
}

void cut_across(const Job& job, JobCuts& cuts) {
  std::optional<JobCuts> best;
  const auto better = [&](const JobCuts& one) {
    if (!best) return true;
    return one.priced ? one.cost < best->cost : one.stock_area_m2 < best->stock_area_m2;
  };
  for (std::size_t s = 0; s < job.stock.size(); ++s) {
    std::optional<JobCuts> one = cut_from_roll(job, s);
    if (one && better(*one)) best = std::move(one);
  }
  if (best) {
    cuts = std::move(*best);
  } else {
    cuts.note = "No roll named is wide and long enough for every piece; take a wider one, or sew.";
  }
}

}  // namespace

JobCuts cut_job(const Job& job) {
  JobCuts cuts;
  cuts.parts = job.parts;
  if (job.stock.empty()) {
    cuts.note = "None of the stock named suits: it is too narrow, or of another width.";
    return cuts;
  }
  if (job.flat) {
    cut_across(job, cuts);
    return cuts;
  }
  join_long_ones(job, cuts);
  cut_along(job, cuts);
  if (cuts.done()) add_up(job, cuts);
  return cuts;
}

double cost_of(const Job& job, const JobCuts& cuts) noexcept {
  double cost = 0.0;
  for (const StockPiece& piece : cuts.pieces) cost += paid(job, job.stock[piece.stock], piece.used_m);
  return cost;
}

int pieces_of(const JobCuts& cuts, std::size_t stock) noexcept {
  return static_cast<int>(std::count_if(cuts.pieces.begin(), cuts.pieces.end(),
                                        [stock](const StockPiece& piece) { return piece.stock == stock; }));
}

}  // namespace stillheap::cut
