#pragma once
#include <span>
#include <string>

#include "yard/record/doubt.hpp"

/// Temperatures that no heap takes in so short a time: mostly a wrong unit, a wrong heap or a probe that was moved.
/// Only the files of this folder include this.
namespace stillheap::record {

/// A temperature against what the same place showed within half a day.
void doubt_jump(const Store& store, const Reading& reading, UnitSystem units, Doubts& doubts);

/// Why the readings of one column of a file, all of one place and measure, are unlikely as a whole; empty when they
/// are not. `fahrenheit_column`: its numbers are read in degF. Against what the place showed in the days before; where
/// nothing was read there, a young heap's column that is cold throughout in degrees Fahrenheit and would be a hot
/// heap's in degrees Celsius.
[[nodiscard]] std::string column_doubt(const Store& store, const Fill& fill, std::span<const Reading> column,
                                       bool fahrenheit_column, UnitSystem units);

}  // namespace stillheap::record
