#pragma once
#include <vector>

#include "core/optimise/integer_program.hpp"
#include "planning/supply/wish.hpp"

/// The yard's year as an integer programme. Symbols, p a part of the year that comes round, sums over cyclic parts:
///   x_p fillings begun (whole), P places (whole), M hours of the busiest part, I_p compost in store at its end,
///   h_p = sum of x_f with f + harvest(f) = p, harvests;  d_p wanted;  y yield;  F_p a material in store.
///   places    sum of x_f over the parts f in whose stay p lies           <= P <= most places
///   supply    I_p <= I_(p-1) + y h_p - d_p                                what is over may be given away
///   waiting   I_p <= d_(p+1) + ... + d_(p+store(p)),  I_p <= room         first in, first out
///   material  F_p <= F_(p-1) + arises_p - need x_p                        what is over may be left
///   keeping   F_p <= all that arose in parts that may still wait after p  first in, first out
///   work      sum of hours of jobs and rounds that fall into p            <= M, <= most hours of p
/// Both bounds of waiting are exact: with first in, first out the stock is what came in last.
namespace stillheap::supply {

/// What may give way, to find out what stands in the way.
enum class Limit { wanted, places, hours, seasons, store_room, store_days, cold };
inline constexpr int limit_count = 7;

struct Relief {
  std::vector<Limit> gives_way;
  [[nodiscard]] bool has(Limit limit) const noexcept;
};

/// Where things stand among the columns.
struct Columns {
  int parts = 0;
  int fills = 0, places = 0, busiest = 0, stock = 0;
  std::vector<int> material;  ///< first column of each season's store
  int gap = -1;               ///< wanted and not there; -1: not among the columns, as below
  int overtime = -1;
  std::vector<int> bought;  ///< each season; empty: none
  int room = -1;
  int count = 0;
};

struct Model {
  Columns at;
  cut::IntegerProgram program;  ///< without a cost
};

[[nodiscard]] Model model_of(const Wish& wish, const Relief& relief = {});

/// Adds a row: the sum of these columns is at most so much.
void hold(Model& model, std::vector<cut::Entry> entries, double at_most);

/// Hours that one filling of part `fill` brings in each part, rounds included.
[[nodiscard]] std::vector<double> hours_of_fill(const Wish& wish, const Lags& lags, int fill);

}  // namespace stillheap::supply
