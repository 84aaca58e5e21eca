#pragma once
#include <functional>
#include <string>
#include <vector>

#include "present/draw/flow.hpp"

namespace stillheap::sheet {

struct Column {
  std::string head{};
  Align align = Align::left;
  double fixed_pt = 0.0;  ///< a set width instead of one measured from the cells
  bool strong = false;
  /// Draws into the cell instead of its text (tick boxes, bars).
  std::function<void(Canvas&, const Box& cell, std::size_t row)> paint{};
};

enum class RowKind { plain, group, total };

/// A group row spans the table and stays with the row after it.
struct Row {
  std::vector<std::string> cells{};
  RowKind kind = RowKind::plain;
};

struct Table {
  std::string heading{};  ///< stands over the table and never alone at a page's end
  std::vector<Column> columns;
  std::vector<Row> rows;
  double size_pt = 10.0;
  bool fill_width = true;  ///< stretch to the full width of the page
  double row_padding_pt = 3.0;
};

/// Column widths between the least (longest word) and the natural (whole text on one line) that fill
/// `available_pt`: natural ones if they fit, else the widest columns are cut to one width until the sum fits. When even
/// the least do not fit they are scaled down and words break.
[[nodiscard]] std::vector<double> share_widths(const std::vector<double>& least, const std::vector<double>& natural,
                                               double available_pt);

/// Column widths in proportion to the mean text of their cells, none below its least: long tables grow shortest so.
[[nodiscard]] std::vector<double> share_by_mean(const std::vector<double>& least, const std::vector<double>& mean,
                                                double available_pt);

/// Draws the table where the flow stands; rows never split, the head is repeated on each page. A table of less than
/// half a page moves to the next page as a whole.
void draw_table(Flow& flow, const Table& table);

/// Paints an empty square to tick.
void paint_tick_box(Canvas& canvas, const Box& cell, std::size_t row);

/// Two columns of label and value over the full width, the plain way to show a list of figures.
void draw_facts(Flow& flow, const std::string& heading, const std::vector<std::pair<std::string, std::string>>& facts,
                double size_pt = 10.0);

}  // namespace stillheap::sheet
