#include "planning/site/beginning.hpp"

#include <cmath>
#include <functional>
#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/material/feedstock.hpp"
#include "planning/site/edit_text.hpp"
#include "planning/site/site.hpp"
#include "planning/site/value_text.hpp"

namespace stillheap::site {
namespace {

// Exact: 0.3048 m a foot, 0.0254 m an inch, 27 cubic feet a cubic yard.
constexpr double foot_m = 0.3048;
constexpr double yard_m3 = 27.0 * foot_m * foot_m * foot_m;

std::string volume_text(double m3, UnitSystem units) {
  return in_quotes(units == UnitSystem::us ? formatted("%.2f", m3 / yard_m3) + " yd3" : formatted("%.2f", m3) + " m3");
}

std::string height_text(double m, UnitSystem units) {
  return in_quotes(units == UnitSystem::us ? formatted("%.0f", m / foot_m) + " ft" : formatted("%.0f", m) + " m");
}

std::string months_text(const char* unit, const char* format, const std::array<double, 12>& months,
                        const std::function<double(double)>& shown) {
  std::string text;
  for (const double one : months) text += (text.empty() ? "" : ", ") + formatted(format, shown(one));
  return std::string("{ unit = ") + in_quotes(unit) + ", months = [" + text + "] }";
}

std::vector<Edit> weather_edits(const Beginning& beginning) {
  const weather::Monthly monthly =
      weather::rough_monthly(beginning.climate, beginning.latitude_deg * constant::pi / 180.0);
  const bool us = beginning.units == UnitSystem::us;
  const auto warmth = [us](double c) { return us ? 1.8 * c + 32.0 : c; };
  const auto put = [](const char* key, std::string value) { return Edit{"weather", "", key, std::move(value)}; };
  const std::string rough =
      "  # all six rough, from the coldest and warmest month alone: put in your weather service's";
  const char* degrees = us ? "degF" : "degC";
  return {put("low", months_text(degrees, "%.1f", monthly.low_c, warmth) + rough),
          put("high", months_text(degrees, "%.1f", monthly.high_c, warmth)),
          put("humidity", months_text("%", "%.0f", monthly.humidity, [](double share) { return 100.0 * share; })),
          put("sun", months_text("MJ/m2/d", "%.1f", monthly.sun_j_m2_day, [](double j) { return 1e-6 * j; })),
          put("wind", us ? months_text("mph", "%.1f", monthly.wind_m_s, [](double m_s) { return m_s / 0.44704; })
                         : months_text("m/s", "%.1f", monthly.wind_m_s, [](double m_s) { return m_s; })),
          put("rain", us ? months_text("in", "%.1f", monthly.rain_m_month, [](double m) { return m / 0.0254; })
                         : months_text("mm", "%.0f", monthly.rain_m_month, [](double m) { return 1e3 * m; }))};
}

std::vector<Edit> goal_edits(const Beginning& beginning) {
  std::vector<Edit> edits;
  if (beginning.vessels) edits.push_back({"goal", "", "vessels", std::to_string(*beginning.vessels)});
  if (!beginning.compost_m3) return edits;
  if (!beginning.vessels) edits.push_back({"goal", "", "vessels", std::nullopt});
  edits.push_back({"goal", "", "compost", volume_text(*beginning.compost_m3, beginning.units)});
  return edits;
}

std::vector<Edit> blend_edits(const Beginning& beginning) {
  const auto& all = beginning.materials;
  const double sum =
      std::accumulate(all.begin(), all.end(), 0.0, [](double to, const auto& one) { return to + one.share_by_volume; });
  if (!(sum > 0.0)) return {{"blend", "", "shares", std::nullopt}, {"blend", "", "shares_by", std::nullopt}};
  std::string table;
  for (const Beginning::Material& one : all) {
    if (one.share_by_volume <= 0.0) continue;
    table += (table.empty() ? "" : ", ") + one.like + " = " + percent_text(one.share_by_volume / sum);
  }
  return {{"blend", "", "shares", "{ " + table + " }"}, {"blend", "", "shares_by", in_quotes("volume")}};
}

std::vector<std::string> feedstock_blocks(const Beginning& beginning) {
  std::vector<std::string> blocks;
  for (const Beginning::Material& one : beginning.materials) {
    const auto typical = material::find_typical(one.like);
    if (!typical)
      throw InputError("materials", "= " + in_quotes(one.like) + " is not a typical feedstock", "pick another");
    std::string text =
        "id = " + in_quotes(one.like) + "\nname = " + in_quotes(typical->name) + "\nlike = " + in_quotes(one.like);
    if (one.stock_m3) text += "\nstock = " + volume_text(*one.stock_m3, beginning.units);
    blocks.push_back(std::move(text));
  }
  return blocks;
}

}  // namespace

std::string beginning_text(const Beginning& beginning, const std::filesystem::path& file) {
  const UnitSystem units = beginning.units;
  std::vector<Edit> edits{
      {"site", "", "name", in_quotes(beginning.name)},
      {"site", "", "first_fill", beginning.first_fill},
      {"place", "", "latitude", in_quotes(formatted("%.4f", beginning.latitude_deg) + " deg")},
      {"place", "", "longitude", in_quotes(formatted("%.4f", beginning.longitude_deg) + " deg")},
      {"place", "", "elevation", height_text(beginning.elevation_m, units)},
  };
  for (const auto& more : {weather_edits(beginning), goal_edits(beginning), blend_edits(beginning)}) {
    edits.insert(edits.end(), more.begin(), more.end());
  }
  return edited(with_blocks(starter_text(units), "feedstock", feedstock_blocks(beginning), file), edits, file);
}

}  // namespace stillheap::site
