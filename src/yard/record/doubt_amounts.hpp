#pragma once
#include <optional>
#include <string>

#include "yard/record/doubt.hpp"

/// The unlikely in amounts and places, against the vessel they are of. Only the files of this folder include this.
namespace stillheap::record {

inline constexpr const char* look_again = "look again; if it is so, say that you are sure";
void add_doubt(Doubts& doubts, const std::string& where, const std::string& what, const std::string& mend = look_again);

/// An amount against the most that is usual; `what` says what that most is.
struct Most {
  double si = 0.0;
  Dimension dimension = Dimension::length;
  std::string what;
};
void doubt_more(const std::optional<double>& si, const Most& most, const std::string& where, UnitSystem units,
                Doubts& doubts);

/// A place in a heap of this design.
void doubt_place(const Place& place, const YardFacts::Design& design, UnitSystem units, Doubts& doubts);

/// Amounts of water, worms and compost that the vessel can hardly have taken or given.
void doubt_amounts(const Event& event, const YardFacts::Design& design, UnitSystem units, Doubts& doubts);
/// What a vessel of this design can hardly have been filled with.
void doubt_amounts(const Fill& fill, const YardFacts::Design& design, UnitSystem units, Doubts& doubts);
void doubt_amounts(const LotUse& use, const YardFacts::Design& design, UnitSystem units, Doubts& doubts);
void doubt_amounts(const Spreading& spreading, const YardFacts::Design& design, UnitSystem units, Doubts& doubts);

}  // namespace stillheap::record
