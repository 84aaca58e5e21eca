#include "present/draw/table.hpp"

#include <algorithm>
#include <numeric>

namespace stillheap::sheet {
namespace {

constexpr double gap_pt = 10.0;  ///< between two columns
const std::string empty_cell;

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

const std::string& cell_text(const Row& row, std::size_t column) {
  return column < row.cells.size() ? row.cells[column] : empty_cell;
}

Style cell_style(const Table& table, const Row& row, std::size_t column) {
  Style style{table.size_pt};
  style.align = table.columns[column].align;
  if (table.columns[column].strong || row.kind == RowKind::total) style.weight = Weight::strong;
  return style;
}

Style head_style(const Table& table, std::size_t column) {
  constexpr double small_pt = 9.0, card_pt = 12.0;  // a card is read at arm's length, heads and all
  return {table.size_pt < card_pt ? std::min(table.size_pt, small_pt) : card_pt, Weight::strong, soft,
          table.columns[column].align};
}

std::vector<double> column_widths(Flow& flow, const Table& table) {
  std::vector<double> least;
  std::vector<double> natural;
  std::vector<double> mean;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const Column& column = table.columns[c];
    double short_side = column.fixed_pt;
    double long_side = column.fixed_pt;
    double total = column.fixed_pt * static_cast<double>(table.rows.size());
    const auto widen = [&](std::string_view text, const Style& style) {
      short_side = std::max(short_side, longest_word_pt(flow.canvas(), text, style));
      const double wide = measure(flow.canvas(), text, style).width;
      long_side = std::max(long_side, wide);
      total += wide;
    };
    if (column.fixed_pt <= 0.0) {
      widen(column.head, head_style(table, c));
      for (const Row& row : table.rows) {
        if (row.kind != RowKind::group) widen(cell_text(row, c), cell_style(table, row, c));
      }
    }
    least.push_back(short_side + 0.5);
    natural.push_back(long_side + 0.5);
    mean.push_back(total / static_cast<double>(table.rows.size()));
  }
  const double gaps = gap_pt * static_cast<double>(table.columns.size() - 1);
  const double room = flow.width() - gaps;
  constexpr std::size_t long_table = 12;  // rows; chosen
  if (table.rows.size() > long_table && sum(natural) > room) {
    constexpr double narrow = 0.28;  // of the width; chosen: such a column (dates, keys) is never wrapped
    std::vector<double> unwrapped = least;
    for (std::size_t c = 0; c < least.size(); ++c) {
      if (natural[c] < narrow * room) unwrapped[c] = natural[c];
    }
    // Many narrow columns leave no room for that; then all may wrap, but between words.
    return sum(unwrapped) < room ? share_by_mean(unwrapped, mean, room) : share_widths(least, natural, room);
  }
  return share_widths(least, natural, room);
}

/// Spare width goes between the columns, so that a short table still reaches across the page; a tick box stays
/// beside what it ticks.
std::vector<double> column_places(const Table& table, const std::vector<double>& widths, double left, double width) {
  const double spare = width - sum(widths) - gap_pt * static_cast<double>(widths.size() - 1);
  const auto takes_spare = [&](std::size_t c) { return c + 1 < widths.size() && !(c == 0 && table.columns[c].paint); };
  double gaps = 0.0;
  for (std::size_t c = 0; c < widths.size(); ++c) gaps += takes_spare(c) ? 1.0 : 0.0;
  const double extra = table.fill_width && gaps > 0.0 ? std::max(spare, 0.0) / gaps : 0.0;
  std::vector<double> places;
  double x = left;
  for (std::size_t c = 0; c < widths.size(); ++c) {
    places.push_back(x);
    x += widths[c] + gap_pt + (takes_spare(c) ? extra : 0.0);
  }
  return places;
}

struct Grid {
  std::vector<double> places, widths;
  double right = 0.0;
};

double head_height(Flow& flow, const Table& table, const Grid& grid) {
  double height = 0.0;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    height =
        std::max(height, measure(flow.canvas(), table.columns[c].head, head_style(table, c), grid.widths[c]).height);
  }
  return height + 4.0;
}

void draw_head(Flow& flow, const Table& table, const Grid& grid) {
  const bool any = std::any_of(table.columns.begin(), table.columns.end(),
                               [](const Column& column) { return !column.head.empty(); });
  if (!any) return;
  const double height = head_height(flow, table, grid);
  const Tag row(flow.canvas(), "TR");
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const Tag cell(flow.canvas(), "TH");
    const Style style = head_style(table, c);
    const double tall = measure(flow.canvas(), table.columns[c].head, style, grid.widths[c]).height;
    draw_text(flow.canvas(), {grid.places[c], flow.y() + height - 4.0 - tall}, table.columns[c].head, style,
              grid.widths[c]);
  }
  flow.space(height);
  line(flow.canvas(), {flow.left(), flow.y()}, {grid.right, flow.y()}, {ink, 0.7});
}

double row_height(Flow& flow, const Table& table, const Row& row, const Grid& grid) {
  if (row.kind == RowKind::group) {
    return measure(flow.canvas(), cell_text(row, 0), {table.size_pt + 0.5, Weight::strong}, grid.right - flow.left())
               .height +
           2.0 * table.row_padding_pt * flow.white() + 6.0;
  }
  double height = measure(flow.canvas(), "X", Style{table.size_pt}).height;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (table.columns[c].paint) continue;
    height =
        std::max(height, measure(flow.canvas(), cell_text(row, c), cell_style(table, row, c), grid.widths[c]).height);
  }
  return height + 2.0 * table.row_padding_pt * flow.white();
}

void draw_row(Flow& flow, const Table& table, std::size_t index, const Grid& grid, double height) {
  const Row& row = table.rows[index];
  const double top = flow.y() + table.row_padding_pt * flow.white();
  const Tag tag(flow.canvas(), "TR");
  if (row.kind == RowKind::group) {
    const Tag head(flow.canvas(), "TH");
    draw_text(flow.canvas(), {flow.left(), top + 6.0}, cell_text(row, 0), {table.size_pt + 0.5, Weight::strong},
              grid.right - flow.left());
  } else {
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      const Tag cell(flow.canvas(), "TD");
      if (table.columns[c].paint && row.kind == RowKind::plain) {
        table.columns[c].paint(flow.canvas(), {grid.places[c], flow.y(), grid.widths[c], height}, index);
      } else {
        draw_text(flow.canvas(), {grid.places[c], top}, cell_text(row, c), cell_style(table, row, c), grid.widths[c]);
      }
    }
  }
  flow.space(height);
  const bool next_total = index + 1 < table.rows.size() && table.rows[index + 1].kind == RowKind::total;
  line(flow.canvas(), {flow.left(), flow.y()}, {grid.right, flow.y()}, next_total ? Pen{ink, 0.7} : Pen{hair, 0.5});
}

}  // namespace

std::vector<double> share_widths(const std::vector<double>& least, const std::vector<double>& natural,
                                 double available_pt) {
  const double needed = sum(least);
  std::vector<double> widths = natural;
  if (sum(natural) <= available_pt) return widths;
  if (needed >= available_pt) {
    for (std::size_t c = 0; c < widths.size(); ++c) widths[c] = least[c] * available_pt / needed;
    return widths;
  }
  double low = 0.0;
  double high = available_pt;
  for (int i = 0; i < 60; ++i) {
    const double cap = 0.5 * (low + high);
    for (std::size_t c = 0; c < widths.size(); ++c) widths[c] = std::max(least[c], std::min(natural[c], cap));
    (sum(widths) > available_pt ? high : low) = cap;
  }
  return widths;
}

std::vector<double> share_by_mean(const std::vector<double>& least, const std::vector<double>& mean,
                                  double available_pt) {
  if (sum(least) >= available_pt) return share_widths(least, least, available_pt);
  std::vector<bool> held(least.size(), false);
  std::vector<double> widths = least;
  for (bool again = true; again;) {
    again = false;
    double room = available_pt;
    double weight = 0.0;
    for (std::size_t c = 0; c < least.size(); ++c) (held[c] ? room : weight) += held[c] ? -least[c] : mean[c];
    for (std::size_t c = 0; c < least.size(); ++c) {
      if (held[c]) continue;
      widths[c] = weight > 0.0 ? room * mean[c] / weight : least[c];
      if (widths[c] < least[c]) {
        held[c] = true;
        widths[c] = least[c];
        again = true;
      }
    }
  }
  return widths;
}

void draw_table(Flow& flow, const Table& table) {
  if (table.columns.empty() || table.rows.empty()) return;
  Grid grid;
  grid.widths = column_widths(flow, table);
  grid.places = column_places(table, grid.widths, flow.left(), flow.width());
  grid.right = grid.places.back() + grid.widths.back();
  std::vector<double> heights;
  for (const Row& row : table.rows) heights.push_back(row_height(flow, table, row, grid));
  const double over =
      (table.heading.empty() ? 0.0 : flow.heading_height(table.heading)) + head_height(flow, table, grid);
  const bool whole = over + sum(heights) < 0.5 * flow.canvas().paper().height_pt;
  flow.need(over + (whole ? sum(heights) : heights[0] + (heights.size() > 1 ? heights[1] : 0.0)));
  if (!table.heading.empty()) flow.heading(table.heading, 0.0);
  const Tag tag(flow.canvas(), "Table");
  draw_head(flow, table, grid);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const bool heads_group = table.rows[i].kind == RowKind::group && i + 1 < table.rows.size();
    if (flow.need(heights[i] + (heads_group ? heights[i + 1] : 0.0))) draw_head(flow, table, grid);
    draw_row(flow, table, i, grid, heights[i]);
  }
  flow.space(8.0 * flow.white());
}

void paint_tick_box(Canvas& canvas, const Box& cell, std::size_t /*row*/) {
  const double side = std::min(11.0, cell.height - 4.0);
  frame(canvas, {cell.x + 0.5, cell.middle_y() - side / 2.0, side, side}, {ink, 0.8});
}

void draw_facts(Flow& flow, const std::string& heading, const std::vector<std::pair<std::string, std::string>>& facts,
                double size_pt) {
  constexpr double label_share = 0.42;  // chosen: values of all lists on a page stand under each other
  Table table;
  table.heading = heading;
  table.size_pt = size_pt;
  table.columns = {{.head = "", .fixed_pt = label_share * flow.width()},
                   {.head = "", .fixed_pt = (1.0 - label_share) * flow.width() - gap_pt, .strong = true}};
  for (const auto& [label, value] : facts) table.rows.push_back({{label, value}});
  draw_table(flow, table);
}

}  // namespace stillheap::sheet
