#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "present/draw/colour.hpp"
#include "present/draw/range_bar.hpp"
#include "present/draw/table.hpp"
#include "present/draw/ticks.hpp"
#include "present/sheet/field_view.hpp"
#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/pattern_words.hpp"
#include "present/sheet/words.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

std::vector<std::string> labels(const std::vector<Tick>& ticks) {
  std::vector<std::string> words;
  for (const Tick& tick : ticks) words.push_back(tick.label);
  return words;
}

TEST(RoundTicks, StandAtOneTwoAndFiveTimesAPowerOfTen) {
  EXPECT_EQ(labels(round_ticks(0.0, 70.0, 8)),
            (std::vector<std::string>{"0", "10", "20", "30", "40", "50", "60", "70"}));
  EXPECT_EQ(labels(round_ticks(-7.0, 33.0, 5)), (std::vector<std::string>{"0", "10", "20", "30"}));
  EXPECT_EQ(labels(round_ticks(0.0, 0.9, 5)), (std::vector<std::string>{"0.0", "0.2", "0.4", "0.6", "0.8"}));
}

TEST(RoundTicks, StayWithinTheRangeAndTheirNumber) {
  for (int most = 1; most < 12; ++most) {
    const auto ticks = round_ticks(-13.7, 412.9, most);
    EXPECT_LE(static_cast<int>(ticks.size()), most);
    for (const Tick& tick : ticks) {
      EXPECT_GE(tick.at, -13.7);
      EXPECT_LE(tick.at, 412.9);
    }
  }
}

TEST(RoundTicks, AreNoneForAnEmptyRange) {
  EXPECT_TRUE(round_ticks(3.0, 3.0, 5).empty());
  EXPECT_TRUE(round_ticks(std::nan(""), 3.0, 5).empty());
}

TEST(RoundSpan, HasATickAtBothEnds) {
  for (const double high : {61.0, 66.4, 68.4, 71.9, 103.0}) {
    const Span span = round_span(58.3, high, 5);
    const auto ticks = ticks_of(span);
    EXPECT_NEAR(ticks.front().at, span.low, 1e-9);
    EXPECT_NEAR(ticks.back().at, span.high, 1e-9);
  }
}

TEST(RoundSpan, OpensToRoundEnds) {
  const Span span = round_span(11.3, 67.2, 6);
  EXPECT_DOUBLE_EQ(span.low, 10.0);
  EXPECT_DOUBLE_EQ(span.high, 70.0);
  const Span flat = round_span(5.0, 5.0, 6);
  EXPECT_LT(flat.low, 5.0);
  EXPECT_GT(flat.high, 5.0);
}

TEST(MonthTicks, NameTheYearAtTheStartAndEachJanuary) {
  const auto ticks = month_ticks(read_date("2026-11-15"), 120.0);
  EXPECT_EQ(labels(ticks), (std::vector<std::string>{"Dec 2026", "Jan 2027", "Feb", "Mar"}));
  EXPECT_DOUBLE_EQ(ticks.front().at, 16.0);
}

TEST(ThinOut, KeepsLabelsApart) {
  std::vector<Tick> ticks;
  for (int i = 0; i < 12; ++i) ticks.push_back({static_cast<double>(i), "x"});
  EXPECT_EQ(thin_out(ticks, std::vector<double>(12, 8.0), 10.0, 4.0).size(), 6U);
  EXPECT_EQ(thin_out(ticks, std::vector<double>(12, 5.0), 10.0, 4.0).size(), 12U);
}

TEST(Spread, MovesPlacesApartAndKeepsTheirOrder) {
  const auto places = spread({10.0, 11.0, 9.5}, 5.0, 0.0, 100.0);
  EXPECT_NEAR(places[2], 9.5, 1e-12);
  EXPECT_NEAR(places[0], 14.5, 1e-12);
  EXPECT_NEAR(places[1], 19.5, 1e-12);
  EXPECT_LE(spread({99.0, 99.5}, 5.0, 0.0, 100.0)[1], 100.0);
}

TEST(FieldMaps, RiseEvenlyInLightness) {
  for (const FieldMap map : {FieldMap::inferno, FieldMap::viridis}) {
    double before = lightness(map_colour(map, 0.0));
    double least = 1e9;
    double most = 0.0;
    for (int i = 1; i <= 20; ++i) {
      const double now = lightness(map_colour(map, i / 20.0));
      least = std::min(least, now - before);
      most = std::max(most, now - before);
      before = now;
    }
    EXPECT_GT(least, 0.0);
    EXPECT_LT(most, 3.0 * least);
  }
}

TEST(FieldMaps, HoldTheirEnds) {
  EXPECT_DOUBLE_EQ(map_colour(FieldMap::viridis, -1.0).red, map_colour(FieldMap::viridis, 0.0).red);
  EXPECT_DOUBLE_EQ(map_colour(FieldMap::viridis, 2.0).green, map_colour(FieldMap::viridis, 1.0).green);
}

TEST(Colours, ReadOnWhiteAlsoInGrey) {
  // Contrast ratio of WCAG 2.1 from luminance; L* 49.5 is the darkest grey that gives 4.5 to 1 on white.
  for (const Colour colour : {ink, soft, accent}) EXPECT_LT(lightness(colour), 45.0);
}

TEST(Typeset, WritesUnitsForPrint) {
  EXPECT_EQ(typeset("55 degC"), "55\u00A0°C");
  EXPECT_EQ(typeset("1.2 m3 of chips"), "1.2\u00A0m³ of chips");
  EXPECT_EQ(typeset("11 7/8 in wide"), "11\u00A07/8\u00A0in wide");
  EXPECT_EQ(typeset("4 ft 6 in"), "4\u00A0ft\u00A06\u00A0in");
  EXPECT_EQ(typeset("stem2 and degCx stay"), "stem2 and degCx stay");
  EXPECT_EQ(typeset("250 kg/m3"), "250\u00A0kg/m³");
}

TEST(Words, SayTheUnitOnceInASpan) {
  EXPECT_EQ(span_of("61 degC", "70 degC"), "61 to 70 degC");
  EXPECT_EQ(span_of("900 kg", "1.1 t"), "900 kg to 1.1 t");
  EXPECT_EQ(span_of("5 kg", "5 kg"), "5 kg");
  EXPECT_EQ(span_of("5 ft 2 in", "5 ft 4 in"), "5 ft 2 in to 5 ft 4 in");
}

TEST(Words, RoundPercentagesToAHundred) {
  EXPECT_EQ(whole_percent({51.2, 35.5, 13.3}), (std::vector<int>{51, 36, 13}));
  EXPECT_EQ(whole_percent({1.0, 1.0, 1.0}), (std::vector<int>{34, 33, 33}));
  EXPECT_EQ(whole_percent({0.0}), (std::vector<int>{0}));
}

TEST(Words, WriteTimesPeopleSet) {
  EXPECT_EQ(clock_time(4.5), "4 h 30 min");
  EXPECT_EQ(clock_time(0.5), "30 min");
  EXPECT_EQ(counted_days(1.2), "1 day");
  EXPECT_EQ(counted_days(0.2), "0 days");
}

TEST(Words, ConvertAxesThroughTheUnitDatabase) {
  EXPECT_NEAR(axis_unit(Dimension::temperature, UnitSystem::us).shown(55.0), 131.0, 1e-9);
  EXPECT_NEAR(axis_unit(Dimension::length, UnitSystem::us).shown(0.3048), 1.0, 1e-9);
  EXPECT_NEAR(axis_unit(Dimension::mass, UnitSystem::us).shown(0.45359237), 1.0, 1e-9);
}

TEST(Words, GiveDatesAsPeopleReadThem) {
  EXPECT_EQ(short_date(read_date("2026-04-03")), "Fri 3 Apr 2026");
  EXPECT_EQ(date_span(read_date("2026-12-30"), read_date("2027-01-02")), "30 Dec 2026 to 2 Jan 2027");
  EXPECT_EQ(date_span(read_date("2026-04-03"), read_date("2026-04-09")), "3 to 9 Apr 2026");
}

TEST(ShareWidths, FillTheRoomBetweenLeastAndNatural) {
  const auto widths = share_widths({20.0, 30.0}, {50.0, 200.0}, 150.0);
  EXPECT_NEAR(std::accumulate(widths.begin(), widths.end(), 0.0), 150.0, 1e-9);
  EXPECT_GE(widths[0], 20.0);
  EXPECT_GE(widths[1], 30.0);
  EXPECT_EQ(share_widths({20.0, 30.0}, {50.0, 60.0}, 150.0), (std::vector<double>{50.0, 60.0}));
  const auto tight = share_widths({100.0, 300.0}, {500.0, 600.0}, 200.0);
  EXPECT_NEAR(tight[0] + tight[1], 200.0, 1e-9);
}

TEST(ShareByMean, FollowsTheTextAndKeepsTheLongestWord) {
  const auto widths = share_by_mean({50.0, 20.0, 20.0}, {10.0, 30.0, 90.0}, 290.0);
  EXPECT_NEAR(widths[0], 50.0, 1e-9);
  EXPECT_NEAR(widths[1], 60.0, 1e-9);
  EXPECT_NEAR(widths[2], 180.0, 1e-9);
}

TEST(Rings, AreFoundAmongChannels) {
  const auto rings = rings_of(sample::round_design());
  ASSERT_EQ(rings.size(), 1U);
  EXPECT_EQ(rings[0].channels.size(), 5U);
  EXPECT_TRUE(rings[0].even);
  EXPECT_NEAR(rings[0].radius_m, 0.42, 1e-9);
  EXPECT_NEAR(rings[0].chord_m, 2.0 * 0.42 * std::sin(constant::pi / 5.0), 1e-9);
}

TEST(Readings, SayWhereTheyLie) {
  Reading reading{"moisture", "55 %", 0.55, 0.6, 0.7};
  EXPECT_EQ(verdict(reading), "below the range");
  reading.shown = 0.65;
  EXPECT_EQ(verdict(reading), "within");
  reading.shown = 0.71;
  EXPECT_EQ(verdict(reading), "above the range");
  EXPECT_EQ(verdict(Reading{"density", "450 kg/m3"}), "");
}

// A row tells of the time up to it, so midnight belongs to the day that ends there: no lone last row, no lone first
// one.
TEST(DailyRows, AverageEachDay) {
  std::vector<forecast::HistoryRow> rows(5);
  const double core[] = {10.0, 20.0, 30.0, 50.0, 70.0};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i].day = 0.5 * static_cast<double>(i);
    rows[i].core_c = core[i];
  }
  const auto daily = daily_rows(rows);
  ASSERT_EQ(daily.size(), 2U);
  EXPECT_DOUBLE_EQ(daily[0].core_c, 25.0);
  EXPECT_DOUBLE_EQ(daily[1].core_c, 60.0);
  EXPECT_EQ(daily_rows({rows[0]}).size(), 1U);
}

/// One square of two triangles, three levels, value = x + 10 y + 100 z.
struct Cube {
  forecast::FieldMesh mesh{{{0.0, 0.0}, {1.0, 0.0}, {1.0, 1.0}, {0.0, 1.0}}, {{0, 1, 2}, {0, 2, 3}}, 3};
  forecast::Snapshot snapshot;
  Cube() {
    snapshot.level_m = {0.0, 0.5, 1.0};
    for (const double z : snapshot.level_m) {
      for (const Point p : mesh.points)
        snapshot.temperature_c.push_back(static_cast<float>(p.x_m + 10.0 * p.y_m + 100.0 * z));
    }
  }
};

TEST(PlanCut, InterpolatesBetweenLevels) {
  const Cube cube;
  for (const ValueTriangle& triangle : plan_cut(cube.mesh, cube.snapshot, cube.snapshot.temperature_c, 0.25)) {
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_NEAR(triangle.value[k], triangle.corner[k].x_m + 10.0 * triangle.corner[k].y_m + 25.0, 1e-5);
    }
  }
}

TEST(UprightCut, CoversTheWholeSectionWithTheRightValues) {
  const Cube cube;
  double area = 0.0;
  for (const ValueTriangle& t : upright_cut(cube.mesh, cube.snapshot, cube.snapshot.temperature_c, 0.4)) {
    const auto& c = t.corner;
    area +=
        0.5 * std::abs((c[1].x_m - c[0].x_m) * (c[2].y_m - c[0].y_m) - (c[2].x_m - c[0].x_m) * (c[1].y_m - c[0].y_m));
    for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(t.value[k], c[k].x_m + 4.0 + 100.0 * c[k].y_m, 1e-4);
  }
  EXPECT_NEAR(area, 1.0, 1e-9);
}

TEST(LevelLine, LiesWhereTheValueIs) {
  const Cube cube;
  const auto cut = plan_cut(cube.mesh, cube.snapshot, cube.snapshot.temperature_c, 0.0);
  const auto pieces = level_line(cut, 5.0);
  ASSERT_FALSE(pieces.empty());
  for (const Segment& piece : pieces) {
    EXPECT_NEAR(piece.from.x_m + 10.0 * piece.from.y_m, 5.0, 1e-5);
    EXPECT_NEAR(piece.to.x_m + 10.0 * piece.to.y_m, 5.0, 1e-5);
  }
}

}  // namespace
}  // namespace stillheap::sheet
