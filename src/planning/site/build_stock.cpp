#include <cmath>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

constexpr double usual_saw_m = 0.003;  // chosen: a hand saw or a circular saw of the shed

bool is_sawn(const std::string& use) { return use == "form" || use == "slat" || use == "board"; }
bool needs_width(const std::string& use) {
  return use == "mesh" || use == "cloth" || use == "lining" || use == "base_cloth";
}

cut::Stock stock_from(Reader& reader, const Section& section) {
  cut::Stock stock;
  stock.use = word(reader, section, "for");
  stock.length_m = amount(reader, section, "length");
  if (needs_width(stock.use) && !given(section, "width")) miss(reader, section, "width", "for " + stock.use);
  stock.width_m = maybe_amount(section, "width").value_or(0.0);
  stock.price = maybe_amount(section, "price");
  if (given(section, "at_hand")) {
    stock.at_hand = whole(reader, section, "at_hand");
    if (stock.price) refuse(reader, section, "at_hand", "stands beside \"price\"", "leave one of them out");
  }
  stock.saw_m = is_sawn(stock.use) ? usual_saw_m : 0.0;
  if (given(section, "saw_cut")) {
    stock.saw_m = *maybe_amount(section, "saw_cut");
  } else {
    note_default(reader, section, "saw_cut", shown(reader, stock.saw_m, Dimension::length));
  }
  stock.by_length = flag(reader, section, "by_length");
  stock.compare = flag(reader, section, "compare");
  return stock;
}

}  // namespace

void build_stock(Reader& reader, const Document& document, Site& site) {
  for (const Block& block : document.blocks.find("stock")->second) {
    site.stock.push_back(stock_from(reader, block.own));
  }
}

}  // namespace stillheap::site
