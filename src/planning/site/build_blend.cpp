#include <algorithm>
#include <cmath>
#include <numeric>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

const material::Offer* find_offer(const Site& site, const std::string& id) {
  const auto found = std::find_if(site.offers.begin(), site.offers.end(),
                                  [&](const material::Offer& offer) { return offer.feedstock.id == id; });
  return found == site.offers.end() ? nullptr : &*found;
}

std::vector<std::string> ids_of(const Site& site) {
  std::vector<std::string> ids;
  for (const material::Offer& offer : site.offers) ids.push_back(offer.feedstock.id);
  return ids;
}

void refuse_unknown_share(Reader& reader, const Section& section, const Value& shares, std::size_t i,
                          const Site& site) {
  const std::vector<std::string> ids = ids_of(site);
  const std::string close = nearest(shares.words[i], ids);
  std::string all;
  for (const std::string& id : ids) all += (all.empty() ? "" : ", ") + id;
  add(reader.report, shares.lines[i], section.path + ".shares." + shares.words[i],
      "= " + shown(reader, shares.numbers[i], Dimension::fraction) + " is the share of an unknown feedstock",
      (close.empty() ? "" : "did you mean \"" + close + "\"? ") + ("allowed: " + all));
}

/// Shares by mass; volumes count with their bulk density. Brought to exactly 1.
void build_shares(Reader& reader, const Section& section, Site& site) {
  const Value& shares = value(section, "shares");
  const bool by_volume = word(reader, section, "shares_by") == "volume";
  if (!shares.good) return;
  const double sum = std::accumulate(shares.numbers.begin(), shares.numbers.end(), 0.0);
  if (!(std::abs(sum - 1.0) <= 0.01)) {
    refuse(reader, section, "shares", "adds up to " + shown(reader, sum, Dimension::fraction),
           "let the shares add up to 100 %, within 1 %");
  }
  double total = 0.0;
  for (std::size_t i = 0; i < shares.words.size(); ++i) {
    const material::Offer* offer = find_offer(site, shares.words[i]);
    if (offer == nullptr) {
      refuse_unknown_share(reader, section, shares, i, site);
      continue;
    }
    const double part = shares.numbers[i] * (by_volume ? offer->feedstock.bulk_density_kg_m3 : 1.0);
    site.blend.shares_by_mass[shares.words[i]] = part;
    total += part;
  }
  for (auto& [id, share] : site.blend.shares_by_mass) share /= total;
}

void build_limits(Reader& reader, const Section& section, BlendWish& blend) {
  const auto range = [&](std::string_view name, material::Range& into) {
    const std::vector<double>& ends = numbers(reader, section, name);
    if (ends.size() == 2) into = {ends[0], ends[1]};
  };
  range("carbon_to_nitrogen", blend.limits.carbon_to_nitrogen);
  range("moisture", blend.limits.moisture_wet);
  range("free_air_space", blend.limits.free_air_space);
  blend.limits.conductivity_max_s_m = amount(reader, section, "conductivity_at_most");
}

}  // namespace

void build_blend(Reader& reader, const Document& document, Site& site) {
  const Section& section = only_block(document, "blend").own;
  site.blend.moisture_target_wet = amount(reader, section, "soaked_moisture");
  const std::size_t noted = reader.defaults.size();
  build_limits(reader, section, site.blend);
  if (given(section, "shares")) reader.defaults.resize(noted);  // a fixed recipe is not searched under them
  const material::Range moisture = site.blend.limits.moisture_wet;
  const double target = site.blend.moisture_target_wet;
  if (value(section, "moisture").good && (target < moisture.low || target > moisture.high)) {
    refuse(reader, section, "soaked_moisture", "is outside of blend.moisture",
           "give a moisture from " + shown(reader, moisture.low, Dimension::fraction) + " to " +
               shown(reader, moisture.high, Dimension::fraction));
  }
  if (given(section, "shares")) {
    build_shares(reader, section, site);
    if (given(section, "aim")) {
      refuse(reader, section, "aim", "has nothing to search beside fixed shares", "take out \"aim\" or \"shares\"");
    }
    return;
  }
  const bool use_up = word(reader, section, "aim") == "use up stock";
  site.blend.objective = use_up ? material::Objective::use_up_stock : material::Objective::least_cost;
  const bool any_stock = std::any_of(site.offers.begin(), site.offers.end(),
                                     [](const material::Offer& offer) { return offer.stock_kg.has_value(); });
  if (use_up && !any_stock) {
    refuse(reader, section, "aim", "finds no feedstock with a stock", "give at least one [[feedstock]] a stock");
  }
}

}  // namespace stillheap::site
