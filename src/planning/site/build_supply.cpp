#include <algorithm>
#include <cmath>
#include <numeric>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

std::array<double, 12> months_of(Reader& reader, const Section& section, std::string_view name) {
  std::array<double, 12> months{};
  const std::vector<double>& given_months = numbers(reader, section, name);
  if (given_months.size() == months.size()) std::copy(given_months.begin(), given_months.end(), months.begin());
  return months;
}

void build_vessel_name(Reader& reader, const Section& section, const Site& site, SupplyGoal& supply) {
  if (site.vessels.empty()) return;  // told elsewhere
  if (!given(section, "vessel")) {
    supply.vessel = site.vessels.front().name;
    note_default(reader, section, "vessel", supply.vessel);
    return;
  }
  supply.vessel = word(reader, section, "vessel");
  std::string names;
  for (const vessel::Design& design : site.vessels) {
    if (design.name == supply.vessel) return;
    names += (names.empty() ? "\"" : ", \"") + design.name + '"';
  }
  refuse(reader, section, "vessel", "is no vessel of this file", "allowed: " + names);
}

/// The yearly volume: given, or the goal's.
double yearly_m3(Reader& reader, const Section& section, const Site& site) {
  if (given(section, "wanted_a_year")) return *maybe_amount(section, "wanted_a_year");
  if (!site.goal.compost_m3) {
    miss(reader, section, "wanted", "and there is neither \"wanted_a_year\" nor goal.compost");
    return NAN;
  }
  note_default(reader, section, "wanted_a_year", shown(reader, *site.goal.compost_m3, Dimension::volume));
  return *site.goal.compost_m3;
}

void build_wanted(Reader& reader, const Section& section, const Site& site, SupplyGoal& supply) {
  if (given(section, "wanted")) {
    supply.wanted_m3 = months_of(reader, section, "wanted");
    for (const char* other : {"wanted_a_year", "by_month"})
      if (given(section, other)) refuse(reader, section, other, "stands beside \"wanted\"", "leave one of them out");
    const double sum = std::accumulate(supply.wanted_m3.begin(), supply.wanted_m3.end(), 0.0);
    if (value(section, "wanted").good && sum <= 0.0)
      refuse(reader, section, "wanted", "wants nothing all year", "want something in one month, or leave [supply] out");
    return;
  }
  const double year_m3 = yearly_m3(reader, section, site);
  if (!given(section, "by_month")) {
    supply.wanted_m3.fill(year_m3 / 12.0);
    note_default(reader, section, "by_month", "the same in every month");
    return;
  }
  const std::array<double, 12> shares = months_of(reader, section, "by_month");
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  if (value(section, "by_month").good && std::abs(sum - 1.0) > 0.01) {
    refuse(reader, section, "by_month", "adds up to " + shown(reader, sum, Dimension::fraction),
           "let the twelve shares add up to 100 %");
  }
  for (std::size_t i = 0; i < 12; ++i) supply.wanted_m3[i] = year_m3 * shares[i] / sum;
}

void build_hours(Reader& reader, const Section& section, SupplyGoal& supply) {
  if (given(section, "hours") && given(section, "hours_by_month"))
    refuse(reader, section, "hours_by_month", "stands beside \"hours\"", "leave one of them out");
  if (given(section, "hours")) supply.half_month_s.emplace().fill(*maybe_amount(section, "hours"));
  if (given(section, "hours_by_month")) supply.half_month_s = months_of(reader, section, "hours_by_month");
}

void build_seasons(Reader& reader, const Document& document, Site& site) {
  for (const Block& block : document.blocks.find("feedstock")->second) {
    const Section& section = block.own;
    if (given(section, "arises")) {
      site.seasons[word(reader, section, "id")] = {months_of(reader, section, "arises"),
                                                   amount(reader, section, "keeps")};
    } else if (given(section, "keeps")) {
      refuse(reader, section, "keeps", "stands without \"arises\"", "give what arises in each month too");
    }
  }
}

}  // namespace

void build_supply(Reader& reader, const Document& document, Site& site) {
  build_seasons(reader, document, site);
  const Section& section = only_block(document, "supply").own;
  if (!section.present) return;
  SupplyGoal& supply = site.supply.emplace();
  build_vessel_name(reader, section, site, supply);
  build_wanted(reader, section, site, supply);
  if (given(section, "places")) supply.places = whole(reader, section, "places");
  supply.harvest_after_s = maybe_amount(section, "harvest_after");
  supply.rest_s = amount(reader, section, "rest");
  supply.yield_m3 = maybe_amount(section, "yield");
  supply.store_s = amount(reader, section, "store");
  supply.store_room_m3 = maybe_amount(section, "store_room");
  build_hours(reader, section, supply);
  supply.fill_in_cold = flag(reader, section, "fill_in_cold");
}

}  // namespace stillheap::site
