#pragma once
#include <optional>
#include <string>
#include <vector>

#include "present/draw/flow.hpp"

namespace stillheap::sheet {

/// A value beside the range it should lie in, all in the shown unit.
struct Reading {
  std::string name;
  std::string value;  ///< with unit
  double shown = 0.0;
  std::optional<double> low{}, high{};  ///< of the allowed range; one end may be open, both: no range
  std::string low_words{}, high_words{};
  double axis_high = 1.0;  ///< the bar runs from 0 to here
  std::string note{};      ///< instead of a bar when there is no range
};

/// "within", "below the range" or "above the range"; empty without a range.
[[nodiscard]] std::string verdict(const Reading& reading);

/// One line a reading: name, value, bar with the allowed part marked, and the verdict in words.
void draw_readings(Flow& flow, const std::vector<Reading>& readings);

}  // namespace stillheap::sheet
