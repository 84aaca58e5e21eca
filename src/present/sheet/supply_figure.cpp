#include "present/sheet/supply_figure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/practice.hpp"
#include "present/draw/dates.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double left_pt = 62.0;  // room for "Place 12" and for axis labels
constexpr int rows_a_page = 30;
constexpr Style small{8.5, Weight::regular, soft};
constexpr Colour hot{0.56, 0.22, 0.06};
constexpr Colour cooling{0.80, 0.56, 0.40};
constexpr Colour curing{0.93, 0.85, 0.80};

/// Columns of the half-months in a box.
struct Columns {
  Box box;
  int count = 24;
  [[nodiscard]] double x(double part) const { return box.x + box.width * part / count; }
  [[nodiscard]] double width() const { return box.width / count; }
};

Columns columns_in(const Box& row, int count) {
  return {{row.x + left_pt, row.y, row.width - left_pt, row.height}, count};
}

/// Thin lines between months, dashed ones between their halves.
void draw_grid(Canvas& canvas, const Columns& columns, const supply::Outcome& outcome) {
  for (int part = 0; part <= columns.count; ++part) {
    const bool month = supply::part_shown(outcome, part) % 2 == 0;
    const Pen pen = month ? Pen{hair, 0.7} : Pen{hair, 0.3, {1.0, 2.0}};
    line(canvas, {columns.x(part), columns.box.y}, {columns.x(part), columns.box.bottom()}, pen);
  }
}

/// Months over their columns, the year with the first one and with each January.
void draw_months(Flow& flow, const supply::Outcome& outcome) {
  const int count = supply::parts(outcome.wish.year);
  const Columns columns = columns_in(flow.take(27.0), count);
  for (int part = 0; part < count;) {
    const std::chrono::year_month_day day{supply::half_month_after(outcome.start, part).first};
    const int halves = supply::part_shown(outcome, part) % 2 == 0 && part + 1 < count ? 2 : 1;
    const double middle = columns.x(part + 0.5 * halves);
    const bool year = part == 0 || day.month() == std::chrono::January;
    draw_label(flow.canvas(), {middle, columns.box.bottom() - 3.0}, month_short(static_cast<unsigned>(day.month())),
               {9.0, Weight::strong}, Across::middle, Down::bottom);
    if (year) {
      draw_label(flow.canvas(), {middle, columns.box.bottom() - 15.0}, std::to_string(static_cast<int>(day.year())),
                 small, Across::middle, Down::bottom);
    }
    part += halves;
  }
}

/// Swatches with words, one after the other on a line.
struct Key {
  std::string words;
  std::function<void(Canvas&, const Box&)> draw;
};

void draw_keys(Flow& flow, const std::vector<Key>& keys) {
  double x = flow.left();
  flow.space(4.0);
  Box row = flow.take(15.0);
  for (const Key& key : keys) {
    const double wide = measure(flow.canvas(), key.words, small).width;
    if (x + 24.0 + wide > flow.left() + flow.width()) {
      row = flow.take(15.0);
      x = flow.left();
    }
    key.draw(flow.canvas(), {x, row.y + 2.0, 18.0, 9.0});
    draw_label(flow.canvas(), {x + 22.0, row.middle_y() - 1.0}, key.words, small, Across::left, Down::middle);
    x += 22.0 + wide + 14.0;
  }
}

Key swatch(const std::string& words, Colour colour) {
  return {words, [colour](Canvas& canvas, const Box& box) {
            fill(canvas, box, colour);
            frame(canvas, box, {ink, 0.5});
          }};
}

void draw_filling(Canvas& canvas, double x, const Box& bar) {
  const double tall = std::min(bar.height, 9.0);
  const Spot mark[] = {{x, bar.middle_y() - 0.5 * tall}, {x + tall, bar.middle_y()}, {x, bar.middle_y() + 0.5 * tall}};
  fill_polygon(canvas, mark, paper_white);
  polyline(canvas, mark, {ink, 0.9}, true);
}

void draw_harvest(Canvas& canvas, double x, const Box& bar) {
  const double radius = std::min(0.5 * bar.height, 4.0);
  disc(canvas, {x, bar.middle_y()}, radius, ink);
}

/// Part of the year shown that lies so many days after a filling.
double part_at(const supply::Outcome& outcome, const supply::Stay& stay, double days) {
  const supply::Year& year = outcome.wish.year;
  double part = stay.fill;
  while (days > 0.0) {
    const int at = static_cast<int>(std::floor(part));
    const double length =
        supply::length_days(year, supply::part_after(year, static_cast<int>(supply::part_shown(outcome, 0)), at));
    if (days < length) return part + days / length;
    days -= length;
    part += 1.0;
  }
  return part;
}

/// One vessel's stay: filled, hot, cooling, curing, harvested, resting.
void draw_stay(Canvas& canvas, const Columns& columns, const supply::Outcome& outcome, const supply::Stay& stay,
               const Phases& phases, const Box& row) {
  const auto clamped = [&](double part) { return columns.x(std::clamp(part, 0.0, double(columns.count))); };
  const Box bar = shrink(row, std::min(3.0, 0.18 * row.height));
  const double end = stay.harvest;
  const double hot_end = phases.hot_days > 0.0 ? std::min(end, part_at(outcome, stay, phases.hot_days)) : stay.fill;
  double cool_end =
      std::max(hot_end, phases.cool_days > 0.0 ? std::min(end, part_at(outcome, stay, phases.cool_days)) : hot_end);
  if (phases.hot_days > 0.0 && phases.cool_days <= 0.0) cool_end = end;
  const auto piece = [&](double from, double to, Colour colour) {
    if (clamped(to) > clamped(from))
      fill(canvas, {clamped(from), bar.y, clamped(to) - clamped(from), bar.height}, colour);
  };
  piece(stay.fill, hot_end, hot);
  piece(hot_end, cool_end, cooling);
  piece(cool_end, end, curing);
  const Pen edge = stay.year < 0 ? Pen{ink, 0.7, {2.0, 2.0}} : Pen{ink, 0.7};
  if (clamped(end) > clamped(stay.fill))
    frame(canvas, {clamped(stay.fill), bar.y, clamped(end) - clamped(stay.fill), bar.height}, edge);
  if (stay.fill >= 0) draw_filling(canvas, clamped(stay.fill), bar);
  if (stay.harvest >= 0 && stay.harvest < columns.count) draw_harvest(canvas, columns.x(stay.harvest) + 4.0, bar);
}

void draw_rows(Flow& flow, const supply::Outcome& outcome, const Phases& phases, int first, int count, double tall) {
  const int parts = supply::parts(outcome.wish.year);
  const Columns columns = columns_in(flow.take(tall * count), parts);
  Canvas& canvas = flow.canvas();
  const auto row = [&](int place) {
    return Box{columns.box.x, columns.box.y + (place - first) * tall, columns.box.width, tall};
  };
  draw_grid(canvas, columns, outcome);
  for (int place = first; place < first + count; ++place) {
    const Box box = row(place);
    line(canvas, {flow.left(), box.bottom()}, {box.right(), box.bottom()}, {hair, 0.4});
    draw_label(canvas, {box.x - 6.0, box.middle_y()}, "place " + std::to_string(place + 1), {std::min(9.0, tall - 2.0)},
               Across::right, Down::middle);
  }
  for (const supply::Stay& stay : outcome.stays) {
    if (stay.place < first || stay.place >= first + count) continue;
    const Clip clip(canvas, {columns.box.x - 1.0, columns.box.y, columns.box.width + 2.0, columns.box.height});
    draw_stay(canvas, columns, outcome, stay, phases, row(stay.place));
  }
}

/// A round number not below the value: 1, 2, 2.5 or 5 times a power of ten.
double round_up(double value) {
  if (!(value > 0.0)) return 1.0;
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0})
    if (step * power >= value * (1.0 - 1e-9)) return step * power;
  return 10.0 * power;
}

/// Upright axis from 0 to a round top, with its label.
struct Axis {
  Columns columns;
  double top = 1.0;
  [[nodiscard]] double y(double value) const {
    return columns.box.bottom() - columns.box.height * std::min(value, top) / top;
  }
};

Axis draw_axis(Flow& flow, const supply::Outcome& outcome, double most, double tall, const std::string& unit) {
  const Box room = flow.take(tall + 6.0);
  const Axis axis{columns_in({room.x, room.y + 4.0, room.width, tall}, supply::parts(outcome.wish.year)),
                  round_up(most)};
  Canvas& canvas = flow.canvas();
  draw_grid(canvas, axis.columns, outcome);
  for (const double share : {0.0, 0.5, 1.0}) {
    const double y = axis.y(share * axis.top);
    line(canvas, {axis.columns.box.x, y}, {axis.columns.box.right(), y}, {hair, share == 0.0 ? 0.9 : 0.5});
    const double value = share * axis.top;
    const int decimals = std::abs(value - std::round(value)) < 1e-9 ? 0 : axis.top < 2.0 ? 2 : 1;
    draw_label(canvas, {axis.columns.box.x - 6.0, y}, decimal(value, decimals) + ' ' + unit, small, Across::right,
               Down::middle);
  }
  return axis;
}

/// A line with a step at each half-month.
void draw_steps(Canvas& canvas, const Axis& axis, const std::vector<double>& shown, const Pen& pen) {
  std::vector<Spot> spots;
  for (std::size_t k = 0; k < shown.size(); ++k) {
    spots.push_back({axis.columns.x(static_cast<double>(k)), axis.y(shown[k])});
    spots.push_back({axis.columns.x(static_cast<double>(k) + 1.0), axis.y(shown[k])});
  }
  polyline(canvas, spots, pen);
}

/// A list of the plan in the order shown, times a factor.
std::vector<double> shown(const supply::Outcome& outcome, const std::vector<double>& list, double factor = 1.0) {
  std::vector<double> values;
  values.reserve(list.size());
  for (int ahead = 0; ahead < supply::parts(outcome.wish.year); ++ahead)
    values.push_back(factor * list[supply::part_shown(outcome, ahead)]);
  return values;
}

double most_of(const std::vector<double>& values) {
  return values.empty() ? 0.0 : *std::max_element(values.begin(), values.end());
}

const Pen ceiling_pen{ink, 1.4, {5.0, 3.0}};
const Pen wanted_pen{ink, 1.6};
const Pen store_pen{accent, 1.4, {1.5, 2.5}};

Key line_key(const std::string& words, const Pen& pen) {
  return {words, [pen](Canvas& canvas, const Box& box) {
            line(canvas, {box.x, box.middle_y()}, {box.right(), box.middle_y()}, pen);
          }};
}

}  // namespace

Phases phases_of(const plan::VesselPlan& vessel) {
  Phases phases;
  if (vessel.forecast.history.empty()) return phases;
  const auto hot_times = rules::stretches_within(plan::core_history(vessel.forecast), plan::practice::hot_c,
                                                 std::numeric_limits<double>::infinity());
  if (!hot_times.empty()) phases.hot_days = hot_times.back().end_s / constant::seconds_per_day;
  phases.cool_days = vessel.forecast.summary.cool_day.value_or(0.0);
  return phases;
}

void draw_places(Flow& flow, const supply::Outcome& outcome, const Phases& phases) {
  const int places = outcome.plan.places;
  if (places == 0) return;
  const double tall = places <= 12 ? 19.0 : 15.0;
  for (int first = 0; first < places; first += rows_a_page) {
    const int count = std::min(rows_a_page, places - first);
    flow.need(27.0 + tall * count + 36.0);
    draw_months(flow, outcome);
    draw_rows(flow, outcome, phases, first, count, tall);
    flow.space(4.0);
  }
  std::vector<Key> keys;
  keys.push_back(
      {"filled in this half-month", [](Canvas& canvas, const Box& box) { draw_filling(canvas, box.x + 6.0, box); }});
  if (phases.hot_days > 0.0) keys.push_back(swatch("hot", hot));
  if (phases.hot_days > 0.0) keys.push_back(swatch("cooling", cooling));
  keys.push_back(swatch(phases.hot_days > 0.0 ? "curing" : "filled", curing));
  keys.push_back({"harvested in this half-month",
                  [](Canvas& canvas, const Box& box) { draw_harvest(canvas, box.middle_x(), box); }});
  keys.push_back({"dashed edge: filled in the year before, not there in the first", [](Canvas& canvas, const Box& box) {
                    frame(canvas, box, {ink, 0.7, {2.0, 2.0}});
                  }});
  draw_keys(flow, keys);
}

void draw_work(Flow& flow, const supply::Outcome& outcome) {
  const std::vector<double> hours = shown(outcome, outcome.plan.hours);
  const bool held = !outcome.wish.most_hours.empty();
  const std::vector<double> most = held ? shown(outcome, outcome.wish.most_hours) : std::vector<double>{};
  flow.heading("Work of all people, hours in each half-month", 112.0);
  const Axis axis = draw_axis(flow, outcome, std::max(most_of(hours), most_of(most)) * 1.12, 84.0, "h");
  Canvas& canvas = flow.canvas();
  for (std::size_t k = 0; k < hours.size(); ++k) {
    const double x = axis.columns.x(static_cast<double>(k)) + 2.0;
    const Box bar{x, axis.y(hours[k]), axis.columns.width() - 4.0, axis.columns.box.bottom() - axis.y(hours[k])};
    fill(canvas, bar, cooling);
    frame(canvas, bar, {ink, 0.5});
  }
  std::vector<Key> keys{swatch("work", cooling)};
  if (held) {
    draw_steps(canvas, axis, most, ceiling_pen);
    keys.push_back(line_key("what can be worked", ceiling_pen));
  }
  for (std::size_t k = 0; k < hours.size(); ++k) {
    const double x = axis.columns.x(static_cast<double>(k) + 0.5);
    draw_label(canvas, {x, axis.y(hours[k]) - 2.5}, decimal(hours[k], 0), small, Across::middle, Down::bottom, true);
  }
  draw_keys(flow, keys);
}

void draw_supply(Flow& flow, const supply::Outcome& outcome, UnitSystem units) {
  const AxisUnit unit = axis_unit(Dimension::volume, units);
  const double factor = unit.scale;
  std::vector<double> harvested(outcome.plan.harvests.begin(), outcome.plan.harvests.end());
  harvested = shown(outcome, harvested, factor * outcome.wish.yield_m3);
  const std::vector<double> wanted = shown(outcome, outcome.wish.wanted_m3, factor);
  const std::vector<double> stock = shown(outcome, outcome.plan.stock_m3, factor);
  const std::vector<double> missing = shown(outcome, outcome.plan.short_m3, factor);
  flow.heading("Compost in each half-month, " + quantity::typeset(unit.label), 112.0);
  const double most = std::max({most_of(harvested), most_of(wanted), most_of(stock)});
  const Axis axis = draw_axis(flow, outcome, most * 1.05, 84.0, quantity::typeset(unit.label));
  Canvas& canvas = flow.canvas();
  for (std::size_t k = 0; k < harvested.size(); ++k) {
    const double x = axis.columns.x(static_cast<double>(k));
    const auto bar = [&](double from, double to, Colour colour) {
      if (to <= from) return;
      const Box box{x + 2.0, axis.y(to), axis.columns.width() - 4.0, axis.y(from) - axis.y(to)};
      fill(canvas, box, colour);
      frame(canvas, box, {ink, 0.5});
    };
    bar(0.0, harvested[k], curing);
    bar(wanted[k] - missing[k], wanted[k], hot);
  }
  draw_steps(canvas, axis, wanted, wanted_pen);
  draw_steps(canvas, axis, stock, store_pen);
  std::vector<Key> keys{swatch("harvested", curing), line_key("wanted", wanted_pen),
                        line_key("in store at its end", store_pen)};
  if (most_of(missing) > 0.0) keys.push_back(swatch("of what is wanted, not there", hot));
  draw_keys(flow, keys);
}

}  // namespace stillheap::sheet
