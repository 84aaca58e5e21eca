#pragma once
#include <optional>
#include <string>
#include <vector>

#include "planning/cut/strips.hpp"

/// One material for all vessels: what is wanted from it, the stock it is cut from, and the cuts.
namespace stillheap::cut {

/// Panels, rolls, boards or pipes as they are sold or lie in the yard.
struct Stock {
  std::string use;              ///< which pieces come from it: mesh, cloth, lining, base_cloth, form, slat, line
  double length_m = 0.0;        ///< of one
  double width_m = 0.0;         ///< of panel, roll or board, outside of a pipe; 0: any
  std::optional<double> price;  ///< of one; nothing: by the price of the material
  std::optional<int> at_hand;   ///< so many lie there and none is bought; nothing: bought as needed
  double saw_m = 0.0;           ///< lost at each cut
  bool by_length = false;       ///< paid by the length taken off it
  bool compare = false;         ///< only for the table of other sizes
};

struct Part {
  std::string what;  ///< "lining of ring"
  double length_m = 0.0;
  double width_m = 0.0;  ///< of lengths: only drawn
  int count = 0;
};

struct Job {
  std::string key;        ///< use of the stock
  std::string what;       ///< "welded wire mesh"
  bool flat = false;      ///< cloth: length and width count, and pieces may be turned
  bool joinable = false;  ///< mesh: a piece longer than the stock is joined from equal parts
  std::vector<Part> parts;
  std::vector<Stock> stock;              ///< that may be used
  std::optional<double> price_per_area;  ///< nothing: not given
  std::optional<double> price_per_length;
};

/// One panel, roll, board or pipe with what comes out of it.
struct StockPiece {
  std::size_t stock = 0;
  std::vector<Placed> pieces;  ///< `want` counts in the parts
  double used_m = 0.0;         ///< along it, saw cuts included
};

struct JobCuts {
  std::vector<Part> parts;  ///< as cut: long ones may have been halved
  std::vector<StockPiece> pieces;
  double cost = 0.0;
  bool priced = false;
  double stock_area_m2 = 0.0;  ///< taken from the stock (by length: what is taken off)
  double part_area_m2 = 0.0;
  double waste_share = 0.0;  ///< of what is paid for or taken; by length for lengths, by area for cloth
  double gap_share = 0.0;    ///< it can cost at most this share less; 0: proven best
  std::string note;          ///< joints, or why nothing could be cut
  [[nodiscard]] bool done() const noexcept { return !pieces.empty(); }
};

/// The cheapest cuts; where no price is known, the least stock. Cloth comes from one kind of roll, the cheapest;
/// lengths may mix all kinds. When nothing can be cut, `note` says why.
[[nodiscard]] JobCuts cut_job(const Job& job);

/// What the stock that is used costs; 0 where no price is known.
[[nodiscard]] double cost_of(const Job& job, const JobCuts& cuts) noexcept;

/// How many of one stock are used.
[[nodiscard]] int pieces_of(const JobCuts& cuts, std::size_t stock) noexcept;

}  // namespace stillheap::cut
