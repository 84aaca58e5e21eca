#pragma once
#include <string>
#include <vector>

namespace stillheap {

/// A value the user did not give, or a simplification the model makes. Every report lists them.
struct Assumption {
  std::string topic;   ///< for example "vessel.lining.resistance" or "model: temperature response"
  std::string value;   ///< the value with its unit, or the simplification in one sentence
  std::string source;  ///< author, year, table; or "chosen"; or "common practice, no source"
};
using Assumptions = std::vector<Assumption>;

/// A finding the user should see but that stops nothing (a blend outside a published range).
struct Warning {
  std::string where;   ///< key or place
  std::string what;    ///< the reading beside the limit, both with units
  std::string source;  ///< the rule behind it
};
using Warnings = std::vector<Warning>;

}  // namespace stillheap
