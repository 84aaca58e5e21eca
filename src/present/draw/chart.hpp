#pragma once
#include <optional>
#include <string>
#include <vector>

#include "present/draw/text.hpp"
#include "present/draw/ticks.hpp"

namespace stillheap::sheet {

/// A line over days since filling, already in the reader's unit.
struct Curve {
  std::string label;
  std::vector<double> day, value;
  Pen pen;
};

/// The room between two lines over the same days.
struct Ribbon {
  std::string label;
  std::vector<double> day, low, high;
  Colour colour = accent_wash;
};

/// A level the reader should compare with; its label stands right of the frame.
struct Mark {
  double value = 0.0;
  std::string label;
};

/// Curves over the calendar. Everything drawn stays within the box it is given.
struct Chart {
  std::string title;    ///< quantity and unit, "Temperature, degC"
  std::string message;  ///< what it says, in a sentence over it; may be empty
  Date start;           ///< day 0
  double days = 1.0;
  std::vector<Ribbon> ribbons;
  std::vector<Curve> curves;
  std::vector<Mark> marks;
  std::optional<double> floor, ceiling;  ///< ends of the upright axis that are fixed (0 % oxygen)
  int most_ticks = 6;
  bool weekly = false;  ///< days since filling on the axis, a tick a week, instead of months
  double text_pt = 8.5;
  double least_left_pt = 0.0, least_right_pt = 0.0;  ///< room beside the frame, so that stacked frames line up
};

/// Gives all charts the widest room beside their frames that any of them needs.
void align_frames(Canvas& canvas, std::vector<Chart>& charts);

void draw_chart(Canvas& canvas, const Box& box, const Chart& chart);

}  // namespace stillheap::sheet
