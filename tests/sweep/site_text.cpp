#include "site_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "core/base/constants.hpp"
#include "domain/material/feedstock.hpp"
#include "domain/weather/evapotranspiration.hpp"

namespace stillheap::sweep {
namespace {

using constant::pi;
using Months = std::array<double, 12>;

// No month's mean sun may be above what reaches the air; a clear sky lets three quarters through.
constexpr std::array<int, 12> middle_day{17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344};

std::string months_text(const char* key, const char* unit, const Months& months) {
  std::string list;
  for (const double value : months) list += fmt::format("{}{:.4g}", list.empty() ? "" : ", ", value);
  return fmt::format("{} = {{ unit = \"{}\", months = [{}] }}\n", key, unit, list);
}

/// A climate by its warmest and coldest month, its damp and its rain.
struct Climate {
  const char* name;
  double coldest_low_c, coldest_high_c;  ///< mean of the year lies between
  double swing_high_c;                   ///< half the difference of summer and winter, at most
  double humidity_low, humidity_high;    ///< percent
  double rain_high_mm;
};

constexpr Climate climates[] = {{"cold", -15.0, 4.0, 25.0, 40.0, 95.0, 120.0},
                                {"temperate", 4.0, 16.0, 14.0, 50.0, 95.0, 150.0},
                                {"hot", 20.0, 32.0, 10.0, 20.0, 90.0, 200.0},
                                {"arid", 12.0, 30.0, 14.0, 3.0, 35.0, 15.0},
                                {"humid", 18.0, 28.0, 5.0, 75.0, 100.0, 900.0}};

std::string weather_text(Dice& dice, double latitude_deg) {
  const Climate climate = climates[dice.whole(0, 4)];
  const double mean_c = dice.between(climate.coldest_low_c, climate.coldest_high_c);
  const double swing_c = dice.between(0.0, climate.swing_high_c);
  const double day_c = dice.with_ends(0.0, 12.0, dice.between(2.0, 9.0));
  const double clear = dice.between(0.15, 0.7);
  Months low{}, high{}, humidity{}, sun{}, wind{}, rain{};
  for (std::size_t m = 0; m < 12; ++m) {
    const double season = (latitude_deg < 0.0 ? 1.0 : -1.0) * std::cos(2.0 * pi * (static_cast<double>(m) + 0.3) / 12);
    const double middle_c = mean_c + swing_c * season + dice.between(-1.0, 1.0);
    low[m] = middle_c - day_c;
    high[m] = middle_c + day_c;
    humidity[m] = dice.between(climate.humidity_low, climate.humidity_high);
    sun[m] = clear * dice.between(0.7, 1.0) * 1e-6 *
             weather::extraterrestrial_j_m2(latitude_deg * pi / 180.0, middle_day[m]);
    wind[m] = dice.with_ends(0.0, 12.0, dice.spread(0.2, 6.0));
    rain[m] = dice.with_ends(0.0, climate.rain_high_mm, dice.between(0.0, climate.rain_high_mm));
  }
  return fmt::format("\n[weather]  # {}\n", climate.name) + months_text("low", "degC", low) +
         months_text("high", "degC", high) + months_text("humidity", "%", humidity) +
         months_text("sun", "MJ/m2/d", sun) + months_text("wind", "m/s", wind) + months_text("rain", "mm", rain);
}

std::string three(const char* key, const char* unit, double a, double b, double c) {
  return fmt::format("{} = [\"{:.4g} {}\", \"{:.4g} {}\", \"{:.4g} {}\"]\n", key, a, unit, b, unit, c, unit);
}

/// A feedstock with every value drawn from the whole of its range.
std::string own_feedstock(Dice& dice) {
  const double ash = dice.between(1.0, 85.0);
  const double fast = dice.between(0.0, 0.5) * (100.0 - ash);
  const double medium = dice.between(0.0, 0.9) * (100.0 - ash - fast);
  const double slow = dice.between(0.0, 0.9) * (100.0 - ash - fast - medium);
  return fmt::format(
             "moisture = \"{:.4g} %\"\ncarbon = \"{:.4g} %\"\nnitrogen = \"{:.4g} %\"\nash = \"{:.4g} %\"\n"
             "bulk_density = \"{:.4g} kg/m3\"\nconductivity = \"{:.4g} dS/m\"\n",
             dice.between(0.0, 90.0), 0.5 * (100.0 - ash), dice.spread(0.1, 8.0), ash, dice.spread(25.0, 1200.0),
             dice.with_ends(0.0, 50.0, dice.between(0.0, 12.0))) +
         three("pools", "%", fast, medium, slow) +
         three("rates", "%/d", dice.with_ends(0.0, 60.0, dice.spread(0.5, 12.0)), dice.spread(0.05, 2.0),
               dice.spread(0.005, 0.3));
}

std::string blend_text(Dice& dice) {
  const auto& typical = material::typical_feedstocks();
  const int count = dice.whole(1, 6);
  std::string feedstocks;
  std::vector<double> shares;
  for (int i = 0; i < count; ++i) {
    feedstocks += fmt::format("\n[[feedstock]]\nid = \"f{}\"\n", i);
    if (dice.chance(0.12)) {
      feedstocks += own_feedstock(dice);
    } else {
      const auto& like = typical[static_cast<std::size_t>(dice.whole(0, static_cast<int>(typical.size()) - 1))];
      feedstocks += fmt::format("like = \"{}\"\n", like.id);
      if (dice.chance(0.3)) feedstocks += fmt::format("moisture = \"{:.4g} %\"\n", dice.between(2.0, 85.0));
    }
    shares.push_back(dice.spread(0.05, 1.0));
  }
  double sum = 0.0;
  for (const double share : shares) sum += share;
  std::string parts;
  for (int i = 0; i < count; ++i) {
    parts +=
        fmt::format("{}f{} = \"{:.6g} %\"", i == 0 ? "" : ", ", i, 100.0 * shares[static_cast<std::size_t>(i)] / sum);
  }
  return feedstocks +
         fmt::format(
             "\n[blend]\nshares = {{ {} }}\nshares_by = \"{}\"\nmoisture = [\"20 %\", \"85 %\"]\n"
             "soaked_moisture = \"{:.4g} %\"\n",
             parts, dice.one_of({"mass", "volume"}),
             dice.with_ends(20.0, 85.0, dice.chance(0.7) ? dice.between(50.0, 70.0) : dice.between(20.0, 85.0)));
}

/// Half the extent of the plan along x and y; channels are drawn inside of it.
struct Outline {
  bool round = true;
  double half_x_m = 0.0, half_y_m = 0.0;
};

std::string channels_text(Dice& dice, const Outline& outline) {
  const double narrow_m = 2.0 * std::min(outline.half_x_m, outline.half_y_m);
  const double widest_m = std::min(0.4, 0.5 * narrow_m);
  if (widest_m <= 0.02 || dice.chance(0.2)) return "";
  const double diameter_m = dice.spread(0.02, widest_m);
  std::string text = fmt::format("\n[vessel.channels]\ndiameter = \"{:.4g} m\"\n", diameter_m);
  const double room_m = 0.5 * narrow_m - 0.5 * diameter_m - 0.021;
  const int kind = dice.whole(0, 2);
  if (kind == 0) {  // ring
    const int most = static_cast<int>(2.0 * pi * room_m / (diameter_m + 0.021));
    const int count = std::clamp(dice.chance(0.3) ? most : dice.whole(1, 8), 1, 60);
    text += fmt::format("count = {}\nradius = \"{:.4g} m\"\nfirst_angle = \"{:.4g} deg\"\ncentre = {}\n", count,
                        std::max(0.001, room_m * dice.with_ends(0.3, 1.0, dice.between(0.3, 1.0))),
                        dice.with_ends(0.0, 90.0, dice.between(-360.0, 360.0)), dice.chance(0.5));
  } else if (kind == 1 && !outline.round) {
    const auto most = [&](double half_m) { return std::clamp(static_cast<int>(half_m / (diameter_m + 0.03)), 1, 8); };
    text +=
        fmt::format("grid = [{}, {}]\n", dice.whole(1, most(outline.half_x_m)), dice.whole(1, most(outline.half_y_m)));
  } else {  // anywhere, mostly without any symmetry
    std::string places;
    const int count = dice.whole(1, 7);
    for (int i = 0; i < count; ++i) {
      const double x_m = dice.between(-1.0, 1.0) * (outline.half_x_m - 0.5 * diameter_m - 0.021);
      const double y_m = dice.between(-1.0, 1.0) * (outline.half_y_m - 0.5 * diameter_m - 0.021);
      places += fmt::format("{}[\"{:.4g} m\", \"{:.4g} m\"]", places.empty() ? "" : ", ", x_m, y_m);
    }
    text += fmt::format("at = [{}]\n", places);
  }
  return text;
}

std::string base_text(Dice& dice, const Outline& outline) {
  if (dice.chance(0.2)) return "\n[vessel.base]\nopen = false\n";
  std::string text = fmt::format("\n[vessel.base]\ngap = \"{:.4g} m\"\n", dice.spread(0.005, 1.0));
  if (dice.chance(0.5)) {
    const int slats = dice.whole(1, 20);
    const double share = dice.between(0.1, 0.9);
    text +=
        fmt::format("slats = {}\nslat_width = \"{:.4g} m\"\nslats_run = \"{}\"\n", slats,
                    std::clamp(share * 2.0 * outline.half_y_m / slats, 0.01, 0.5), dice.one_of({"along", "across"}));
  }
  return text;
}

std::string vessel_text(Dice& dice) {
  Outline outline;
  outline.round = dice.chance(0.6);
  std::string text = "\n[[vessel]]\nname = \"v\"\n";
  if (outline.round) {
    const double diameter_m = dice.with_ends(0.3, 6.0, dice.spread(0.3, 6.0));
    outline.half_x_m = outline.half_y_m = 0.5 * diameter_m;
    text += fmt::format("shape = \"round\"\ndiameter = \"{:.4g} m\"\n", diameter_m);
  } else {
    const double length_m = dice.with_ends(0.3, 20.0, dice.spread(0.3, 20.0));
    const double width_m = dice.with_ends(0.3, 20.0, dice.spread(0.3, 20.0));
    outline.half_x_m = 0.5 * length_m;
    outline.half_y_m = 0.5 * width_m;
    text += fmt::format("shape = \"rectangular\"\nlength = \"{:.4g} m\"\nwidth = \"{:.4g} m\"\n", length_m, width_m);
  }
  const double height_m = dice.with_ends(0.3, 4.0, dice.between(0.3, 2.5));
  text += fmt::format("height = \"{:.4g} m\"\nfill_height = \"{:.4g} m\"\nwall = \"{}\"\n", height_m,
                      std::max(0.1, height_m * dice.between(0.3, 0.99)), dice.chance(0.3) ? "closed" : "open");
  return text + channels_text(dice, outline) + base_text(dice, outline);
}

std::string surfaces_text(Dice& dice) {
  const auto percent = [&](const char* key, double usual) {
    return fmt::format("{} = \"{:.4g} %\"\n", key,
                       dice.chance(0.5) ? usual : dice.with_ends(0.0, 100.0, dice.between(0.0, 100.0)));
  };
  return fmt::format(
             "\n[forecast.surfaces]\nlining = \"{:.4g} Pa s/m\"\ncover = \"{:.4g} Pa s/m\"\n"
             "closed_wall = \"{:.4g} m2 K/W\"\n",
             dice.with_ends(0.0, 1e5, dice.spread(10.0, 1e4)), dice.with_ends(0.0, 1e5, dice.spread(10.0, 1e4)),
             dice.with_ends(0.0, 10.0, dice.spread(0.005, 3.0))) +
         percent("emissivity", 95.0) + percent("sun_taken_up", 70.0) + percent("base_blocked", 0.0) +
         percent("shade", 0.0);
}

}  // namespace

std::string site_text(Dice& dice) {
  const double latitude_deg = dice.with_ends(-66.0, 66.0, dice.between(-66.0, 66.0));
  std::string text = fmt::format(
      "[site]\nname = \"sweep\"\nfirst_fill = 2026-{:02}-{:02}\n\n[place]\nlatitude = \"{:.4g} deg\"\n"
      "longitude = \"0 deg\"\nelevation = \"{:.4g} m\"\n",
      dice.whole(1, 12), dice.whole(1, 28), latitude_deg,
      dice.with_ends(-430.0, 5000.0, dice.chance(0.7) ? dice.between(0.0, 800.0) : dice.between(-430.0, 5000.0)));
  text += weather_text(dice, latitude_deg);
  text += "\n[goal]\nvessels = 1\n";
  text += blend_text(dice);
  text += vessel_text(dice);
  text += fmt::format(
      "\n[water.line]\ninside_diameter = \"13 mm\"\nhole = \"0.8 mm\"\nspacing = \"100 mm\"\n\n[water.supply]\n"
      "pressure = \"1.5 bar\"\nflow = \"12 L/min\"\nconductivity = \"{:.4g} dS/m\"\n",
      dice.with_ends(0.0, 10.0, dice.between(0.0, 4.0)));
  // Long runs cost most and show little more than short ones: few of them.
  const double length = dice.share();
  const int days = length < 0.04 ? 540 : length < 0.79 ? dice.whole(30, 60) : dice.whole(30, 540);
  text += fmt::format("\n[forecast]\ndays = {}\ngrid = \"draft\"\nmembers = 1\n", days);
  return text + surfaces_text(dice);
}

}  // namespace stillheap::sweep
