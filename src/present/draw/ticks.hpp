#pragma once
#include <string>
#include <vector>

#include "present/draw/dates.hpp"

namespace stillheap::sheet {

struct Tick {
  double at = 0.0;
  std::string label;
};

/// Round values (1, 2 or 5 times a power of ten) inside [low, high], at most `most` of them; labels carry just
/// the decimals the step needs. Empty when the range is empty or not finite.
[[nodiscard]] std::vector<Tick> round_ticks(double low, double high, int most);

/// The range opened to the next round values, so that a curve never touches the frame's corner.
struct Span {
  double low = 0.0, high = 1.0;
  double step = 0.2;  ///< between ticks
};
/// All multiples of the step inside [low, high].
[[nodiscard]] std::vector<Tick> ticks_of(const Span& span);
[[nodiscard]] Span round_span(double low, double high, int most);

/// First day of each month within `days` of the start, "Apr", and the year with the first and each January.
[[nodiscard]] std::vector<Tick> month_ticks(Date start, double days);

/// Every seventh day within `days` of the start with its date, "day 7, 13 Sep".
[[nodiscard]] std::vector<Tick> week_ticks(Date start, double days);

/// Keeps ticks so that labels of the given widths do not come closer than `gap`: every first, second, third...
/// `scale` turns a tick's place into the widths' units.
[[nodiscard]] std::vector<Tick> thin_out(const std::vector<Tick>& ticks, const std::vector<double>& widths,
                                         double scale, double gap);

/// Moves wanted places apart to at least `gap`, keeps their order and stays within [low, high] if there is room.
[[nodiscard]] std::vector<double> spread(std::vector<double> wanted, double gap, double low, double high);

}  // namespace stillheap::sheet
