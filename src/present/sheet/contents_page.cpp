#include <algorithm>
#include <cmath>

#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

/// A sheet by its title, and every page it begins on: one a kind of vessel.
struct Entry {
  std::string head, pages;
  int first_page = 1;
};

std::vector<Entry> entries_of(const std::vector<SheetStart>& sheets) {
  std::vector<Entry> entries;
  for (const SheetStart& sheet : sheets) {
    const auto known =
        std::find_if(entries.begin(), entries.end(), [&](const Entry& entry) { return entry.head == sheet.head; });
    if (known == entries.end()) {
      entries.push_back({sheet.head, std::to_string(sheet.page), sheet.page});
    } else {
      known->pages += ", " + std::to_string(sheet.page);
    }
  }
  return entries;
}

/// Makes what is drawn in the box lead to a page of the same file.
class Link {
 public:
  Link(Canvas& canvas, int page) : cairo_(canvas.cairo()) {
    const std::string where = "page=" + std::to_string(page) + " pos=[0 0]";
    cairo_tag_begin(cairo_, CAIRO_TAG_LINK, where.c_str());
  }
  ~Link() { cairo_tag_end(cairo_, CAIRO_TAG_LINK); }
  Link(const Link&) = delete;
  Link& operator=(const Link&) = delete;

 private:
  cairo_t* cairo_;
};

/// Entries down one column after the other.
void draw_entries(Flow& flow, const std::vector<Entry>& entries) {
  constexpr Style words{10.0};
  constexpr double row_pt = 15.0, gap_pt = 26.0;
  constexpr std::size_t columns = 2;
  const std::size_t rows = (entries.size() + columns - 1) / columns;
  const Box area = flow.take(row_pt * static_cast<double>(rows) + 4.0);
  const double wide = (area.width - gap_pt * (columns - 1)) / columns;
  const Tag list(flow.canvas(), "TOC");
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Tag item(flow.canvas(), "TOCI");
    const double x = area.x + static_cast<double>(i / rows) * (wide + gap_pt);
    const double y = area.y + static_cast<double>(i % rows) * row_pt;
    const Link link(flow.canvas(), entries[i].first_page);
    const Box pages = draw_label(flow.canvas(), {x + wide, y}, entries[i].pages, words, Across::right, Down::top);
    draw_line_of_text(flow.canvas(), {x, y}, entries[i].head, words, wide - pages.width - 10.0);
    line(flow.canvas(), {x, y + row_pt - 1.5}, {x + wide, y + row_pt - 1.5}, {hair, 0.5});
  }
}

}  // namespace

void contents_page(Flow& flow, const std::string& elsewhere) {
  flow.start_sheet("Contents", "in the order of the work");
  draw_entries(flow, entries_of(flow.imprint().contents));
  flow.paragraph(elsewhere +
                 " Cautions stand where you act; they replace neither local codes nor licensed practice. Where they "
                 "differ, the stricter holds.");
}

}  // namespace stillheap::sheet
