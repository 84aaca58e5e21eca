#pragma once
#include <string>

#include "core/quantity/quantity.hpp"

namespace stillheap::quantity {

/// The step to which format_workshop rounds: 1 mm or 1/16 in.
[[nodiscard]] double workshop_step_m(UnitSystem system) noexcept;

/// The length that format_workshop writes, exactly: the nearest step, halves away from zero.
[[nodiscard]] double to_workshop_m(double length_m, UnitSystem system) noexcept;

/// Collects the lengths one drawing shows, so that the drawing can state what its rounding hides.
class WorkshopLengths {
 public:
  explicit WorkshopLengths(UnitSystem system) : system_(system) {}
  /// The length as marked on a workbench; remembers the rounding error.
  [[nodiscard]] std::string operator()(double length_m);
  [[nodiscard]] UnitSystem system() const noexcept { return system_; }
  /// The largest error of all lengths so far, without sign.
  [[nodiscard]] double worst_error_m() const noexcept { return worst_m_; }
  /// "Lengths are rounded to 1 mm; the largest rounding on this sheet is 0.4 mm." Empty where nothing was rounded.
  [[nodiscard]] std::string statement() const;

 private:
  UnitSystem system_;
  double worst_m_ = 0.0;
};

}  // namespace stillheap::quantity
