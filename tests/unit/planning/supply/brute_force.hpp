#pragma once
#include <algorithm>
#include <cmath>
#include <deque>
#include <optional>
#include <random>
#include <vector>

#include "planning/supply/wish.hpp"

/// The yard played part by part over years, without a programme: slow and plain, to hold the programme against.
namespace stillheap::supply::test {

/// What a plan is judged by, in the order of the aims.
struct Score {
  int places = 0;
  int fills = 0;
  double busiest_hours = 0.0;
  double kept_m3 = 0.0;
};

inline bool better(const Score& a, const Score& b) {
  if (a.places != b.places) return a.places < b.places;
  if (a.fills != b.fills) return a.fills < b.fills;
  if (std::abs(a.busiest_hours - b.busiest_hours) > 1e-5) return a.busiest_hours < b.busiest_hours;
  return a.kept_m3 < b.kept_m3;
}

/// Something that came at a time and is used oldest first, and thrown away when too old or over the room.
struct Heap {
  struct Batch {
    int last_part;
    double amount;
  };
  std::deque<Batch> batches;

  /// False when there is less than that.
  bool take(double amount) {
    while (amount > 1e-9 && !batches.empty()) {
      const double taken = std::min(amount, batches.front().amount);
      batches.front().amount -= taken;
      amount -= taken;
      if (batches.front().amount <= 1e-12) batches.pop_front();
    }
    return amount <= 1e-6;
  }
  void end_part(int part, double room) {
    while (!batches.empty() && batches.front().last_part <= part) batches.pop_front();
    double sum = 0.0;
    for (const Batch& one : batches) sum += one.amount;
    while (sum > room + 1e-12 && !batches.empty()) {
      const double less = std::min(sum - room, batches.front().amount);
      batches.front().amount -= less;
      sum -= less;
      if (batches.front().amount <= 1e-12) batches.pop_front();
    }
  }
};

constexpr int years = 5;

inline double day_of(const Wish& wish, int part) {
  const int n = parts(wish.year);
  return (part / n) * wish.year.days + wish.year.first_day[static_cast<std::size_t>(part % n)];
}

/// First part that begins `days` or more after this one.
inline int part_from(const Wish& wish, int part, double days) {
  int later = part;
  while (day_of(wish, later) - day_of(wish, part) < days - 1e-9) ++later;
  return later;
}

/// Last part that begins at most `days` after this one.
inline int part_to(const Wish& wish, int part, double days) {
  int later = part;
  while (day_of(wish, later + 1) - day_of(wish, part) <= days + 1e-9) ++later;
  return later;
}

/// The score when these fillings every year meet the wish.
inline std::optional<Score> play(const Wish& wish, const std::vector<int>& fills) {
  const int n = parts(wish.year);
  const int end = years * n;
  const auto of_year = [n](int part) { return static_cast<std::size_t>(part % n); };
  std::vector<double> busy(static_cast<std::size_t>(8 * years * n), 0.0), hours = busy, harvested = busy;
  Score score;
  for (int part = 0; part < end; ++part) {
    const int count = fills[of_year(part)];
    if (count > 0 && !wish.may_fill[of_year(part)]) return std::nullopt;
    if (part < n) score.fills += count;
    const int harvest = part_from(wish, part, wish.harvest_days);
    harvested[static_cast<std::size_t>(harvest)] += count * wish.yield_m3;
    for (int p = part; p < part_from(wish, part, wish.harvest_days + wish.rest_days); ++p)
      busy[static_cast<std::size_t>(p)] += count;
    for (int p = part; p < harvest; ++p)
      hours[static_cast<std::size_t>(p)] += count * wish.work.daily_hours * (day_of(wish, p + 1) - day_of(wish, p));
    hours[static_cast<std::size_t>(harvest)] += count * wish.work.harvest_hours;
    for (const Job& job : wish.work.jobs)
      hours[static_cast<std::size_t>(part_to(wish, part, job.after_days))] += count * job.hours;
  }
  for (int p = end - n; p < end; ++p) {
    score.places = std::max(score.places, static_cast<int>(busy[static_cast<std::size_t>(p)]));
    const double worked = hours[static_cast<std::size_t>(p)];
    score.busiest_hours = std::max(score.busiest_hours, worked);
    if (!wish.most_hours.empty() && worked > wish.most_hours[of_year(p)] + 1e-6) return std::nullopt;
  }
  if (wish.most_places > 0 && score.places > wish.most_places) return std::nullopt;

  Heap compost;
  for (int p = 0; p < end; ++p) {
    compost.batches.push_back({part_to(wish, p, wish.store_days), harvested[static_cast<std::size_t>(p)]});
    const bool enough = compost.take(wish.wanted_m3[of_year(p)]);
    if (p >= end - n && !enough) return std::nullopt;
    compost.end_part(p, wish.store_m3);
  }
  for (const Season& season : wish.seasons) {
    Heap material;
    for (int p = 0; p < end; ++p) {
      material.batches.push_back({part_to(wish, p, season.keeps_days), season.arises_m3[of_year(p)]});
      const bool enough = material.take(season.per_fill_m3 * fills[of_year(p)]);
      if (p >= end - n && !enough) return std::nullopt;
      material.end_part(p, 1e30);
    }
  }
  // Least waiting: going back in time, everything wanted is taken from the youngest harvest that still has some.
  std::vector<double> left = harvested;
  for (int p = end - 1; p >= n; --p) {
    double open = wish.wanted_m3[of_year(p)];
    for (int q = p; q >= 0 && open > 1e-9; --q) {
      const double taken = std::min(open, left[static_cast<std::size_t>(q)]);
      left[static_cast<std::size_t>(q)] -= taken;
      open -= taken;
      for (int kept = q; kept < p; ++kept)  // counted in the middle year, away from both ends
        if (kept / n == years / 2) score.kept_m3 += taken;
    }
  }
  return score;
}

/// The best of all years with at most so many fillings in each part.
inline std::optional<Score> best_by_trying_all(const Wish& wish, int most) {
  std::vector<int> fills(wish.year.first_day.size(), 0);
  std::optional<Score> best;
  while (true) {
    const std::optional<Score> score = play(wish, fills);
    if (score && (!best || better(*score, *best))) best = score;
    std::size_t at = 0;
    while (at < fills.size() && fills[at] == most) fills[at++] = 0;
    if (at == fills.size()) return best;
    ++fills[at];
  }
}

/// A small random wish: four or five uneven parts.
inline Wish small_wish(std::mt19937& random) {
  const auto any = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  const auto one_in = [&](int n) { return std::uniform_int_distribution<int>(1, n)(random) == 1; };
  Wish wish;
  wish.year = one_in(2) ? Year{{0.0, 80.0, 190.0, 270.0}, 365.0} : Year{{0.0, 60.0, 140.0, 210.0, 300.0}, 365.0};
  const std::size_t n = wish.year.first_day.size();
  for (std::size_t p = 0; p < n; ++p) wish.wanted_m3.push_back(one_in(3) ? 0.0 : std::round(any(0.0, 30.0)) / 10.0);
  wish.yield_m3 = any(0.8, 2.2);
  wish.harvest_days = any(60.0, 420.0);
  wish.rest_days = any(0.0, 40.0);
  wish.may_fill.assign(n, true);
  if (one_in(3)) wish.may_fill[0] = false;
  wish.store_days = any(20.0, 250.0);
  if (one_in(3)) wish.store_m3 = any(0.5, 4.0);
  if (one_in(3)) wish.most_places = std::uniform_int_distribution<int>(2, 7)(random);
  wish.work.jobs = {{"fill", 0.0, any(3.0, 6.0)}, {"forms out", 1.0, 0.5}, {"worms", any(60.0, 150.0), 0.5}};
  wish.work.harvest_hours = any(1.0, 4.0);
  wish.work.daily_hours = one_in(2) ? 0.02 : 0.0;
  if (one_in(3)) wish.most_hours.assign(n, any(12.0, 40.0));
  if (one_in(2)) {
    Season season{"straw", "Straw", any(0.5, 1.5), {}, any(0.0, 300.0)};
    for (std::size_t p = 0; p < n; ++p) season.arises_m3.push_back(one_in(2) ? 0.0 : any(1.0, 9.0));
    wish.seasons.push_back(season);
  }
  return wish;
}

}  // namespace stillheap::supply::test
