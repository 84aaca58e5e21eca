#include <cmath>

#include "core/base/constants.hpp"
#include "planning/supply/outcome.hpp"

namespace stillheap::supply {
namespace {

std::string volume(double m3, UnitSystem units) { return quantity::format(m3, Dimension::volume, units); }
std::string hours(double h, UnitSystem units) {
  return quantity::format(h * constant::seconds_per_hour, Dimension::duration, units);
}
std::string days(double days) { return std::to_string(std::lround(days)) + " days"; }

std::string plural(double count, const std::string& one) {
  const auto n = std::lround(count);
  return std::to_string(n) + ' ' + one + (n == 1 ? "" : "s");
}

/// "1 to 15 May (2 h), 16 to 31 May (4 h)"
template <typename Amount>
std::string by_part_text(const std::vector<double>& by_part, const Amount& amount) {
  std::string text;
  for (std::size_t p = 0; p < by_part.size(); ++p) {
    if (by_part[p] <= 0.0) continue;
    text += (text.empty() ? "" : ", ") + half_month_name(static_cast<int>(p)) + " (" + amount(by_part[p]) + ')';
  }
  return text;
}

std::string mend_text(const Outcome& outcome, const Mend& mend, UnitSystem units) {
  const Wish& wish = outcome.wish;
  switch (mend.limit) {
    case Limit::places:
      return plural(mend.amount, "place") + " instead of " + std::to_string(wish.most_places) + " (supply.places)";
    case Limit::hours:
      return hours(mend.amount, units) + " more work a year than there are hands for, in " +
             by_part_text(mend.by_part, [&](double h) { return hours(h, units); }) + " (supply.hours)";
    case Limit::seasons: {
      const Season& season = wish.seasons[mend.season];
      return volume(mend.amount, units) + " more of " + season.name + " a year, which runs out in " +
             by_part_text(mend.by_part, [&](double m3) { return volume(m3, units); }) + " (feedstock." + season.id +
             ".arises, or let it keep longer)";
    }
    case Limit::store_room:
      return "room for " + volume(mend.amount, units) + " of finished compost instead of " +
             volume(wish.store_m3, units) + " (supply.store_room)";
    case Limit::store_days:
      return "compost that may wait " + days(mend.amount) + " instead of " + days(wish.store_days) + " (supply.store)";
    case Limit::cold:
      return plural(mend.amount, "filling") + " in the cold, in " +
             by_part_text(mend.by_part, [](double n) { return std::to_string(std::lround(n)); }) +
             " (supply.fill_in_cold)";
    case Limit::wanted:
      break;
  }
  return "less wanted";
}

}  // namespace

std::vector<std::string> short_lines(const Outcome& outcome, UnitSystem units) {
  std::vector<std::string> lines;
  for (std::size_t month = 0; month < 12; ++month) {
    const double missing_m3 = outcome.plan.short_m3[2 * month] + outcome.plan.short_m3[2 * month + 1];
    if (missing_m3 <= 0.0) continue;
    const double wanted_m3 = outcome.wish.wanted_m3[2 * month] + outcome.wish.wanted_m3[2 * month + 1];
    lines.push_back(std::string(date::month_names[month]) + ": " + volume(missing_m3, units) + " of the " +
                    volume(wanted_m3, units) + " wanted cannot be ready");
  }
  return lines;
}

std::string way_text(const Outcome& outcome, const Way& way, UnitSystem units) {
  std::string text;
  for (const Mend& mend : way) text += (text.empty() ? "" : "; and ") + mend_text(outcome, mend, units);
  return text;
}

}  // namespace stillheap::supply
