#include "planning/site/beginning.hpp"

#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/material/feedstock.hpp"
#include "planning/site/edit_text.hpp"
#include "planning/site/site.hpp"
#include "planning/site/value_text.hpp"

namespace stillheap::site {
namespace {

std::string volume_text(double m3, UnitSystem units) {
  const std::string unit = units == UnitSystem::us ? "yd3" : "m3";
  return in_quotes(formatted("%.2f", counted_in(unit, m3, Dimension::volume)) + ' ' + unit);
}

std::string height_text(double m, UnitSystem units) {
  const std::string unit = units == UnitSystem::us ? "ft" : "m";
  return in_quotes(formatted("%.0f", counted_in(unit, m, Dimension::length)) + ' ' + unit);
}

std::string months_text(const char* unit, const char* format, const std::array<double, 12>& months_si,
                        Dimension dimension) {
  std::string text;
  for (const double one : months_si)
    text += (text.empty() ? "" : ", ") + formatted(format, counted_in(unit, one, dimension));
  return std::string("{ unit = ") + in_quotes(unit) + ", months = [" + text + "] }";
}

std::vector<Edit> weather_edits(const Beginning& beginning) {
  const weather::Monthly monthly =
      weather::rough_monthly(beginning.climate, beginning.latitude_deg * constant::pi / 180.0);
  const bool us = beginning.units == UnitSystem::us;
  const auto put = [](const char* key, std::string value) { return Edit{"weather", "", key, std::move(value)}; };
  const std::string rough =
      "  # all six rough, from the coldest and warmest month alone: put in your weather service's";
  const char* const degrees = us ? "degF" : "degC";
  return {put("low", months_text(degrees, "%.1f", monthly.low_c, Dimension::temperature) + rough),
          put("high", months_text(degrees, "%.1f", monthly.high_c, Dimension::temperature)),
          put("humidity", months_text("%", "%.0f", monthly.humidity, Dimension::fraction)),
          put("sun", months_text("MJ/m2/d", "%.1f", monthly.sun_j_m2_day, Dimension::daily_energy)),
          put("wind", months_text(us ? "mph" : "m/s", "%.1f", monthly.wind_m_s, Dimension::speed)),
          put("rain", months_text(us ? "in" : "mm", us ? "%.1f" : "%.0f", monthly.rain_m_month, Dimension::length))};
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
