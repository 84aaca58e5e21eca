#include <array>

#include "planning/site/key.hpp"

namespace stillheap::site {
namespace {

using D = Dimension;
using F = Form;
using N = Need;

constexpr std::string_view practice = "common practice, no source";

// Two or three lines a key, by hand: the formatter would give every field its own line.
// clang-format off
constexpr std::array rows{
    Key{.section = "site", .name = "name", .form = F::text, .need = N::required,
        .help = "What the yard is called."},
    Key{.section = "site", .name = "units", .form = F::word, .choices = "metric|us", .need = N::has_default,
        .standard = "metric", .source = "chosen",
        .help = "Units of everything that is printed. What is written here may mix both."},
    Key{.section = "site", .name = "currency", .form = F::text, .need = N::has_default, .standard = "units of money",
        .source = "chosen", .help = "Label of all prices; nothing is converted."},
    Key{.section = "site", .name = "first_fill", .form = F::date, .need = N::required,
        .help = "Day on which the first vessel is filled."},
    Key{.section = "site", .name = "page", .form = F::text,
        .help = "Address at which phones open the yard's page, as serve --lan prints it; log sheets then carry its code."},

    Key{.section = "place", .name = "latitude", .form = F::amount, .dimension = D::angle, .low = from("-90 deg"),
        .high = to("90 deg"), .need = N::required, .help = "North is positive."},
    Key{.section = "place", .name = "longitude", .form = F::amount, .dimension = D::angle, .low = from("-180 deg"),
        .high = to("180 deg"), .need = N::required, .help = "East is positive."},
    Key{.section = "place", .name = "elevation", .form = F::amount, .dimension = D::length, .low = from("-430 m"),
        .high = to("5000 m"), .need = N::required, .help = "Above sea level."},
    Key{.section = "place", .name = "soil_bearing", .form = F::amount, .dimension = D::pressure,
        .low = above("0 kPa"), .high = to("1 MPa"),
        .help = "What the ground under the vessels may carry, from the local code or a soil engineer."}, 

    Key{.section = "weather", .name = "low", .form = F::months, .dimension = D::temperature, .low = from("-60 degC"),
        .high = to("60 degC"), .help = "Mean daily lowest temperature of each month, January first."},
    Key{.section = "weather", .name = "high", .form = F::months, .dimension = D::temperature,
        .low = from("-60 degC"), .high = to("60 degC"), .help = "Mean daily highest temperature of each month."},
    Key{.section = "weather", .name = "humidity", .form = F::months, .dimension = D::fraction, .low = above("0 %"),
        .high = to("100 %"), .help = "Mean relative humidity of each month."},
    Key{.section = "weather", .name = "sun", .form = F::months, .dimension = D::daily_energy,
        .low = from("0 MJ/m2/d"), .high = to("45 MJ/m2/d"), .help = "Mean sun on a level surface of each month."},
    Key{.section = "weather", .name = "wind", .form = F::months, .dimension = D::speed, .low = from("0 m/s"),
        .high = to("30 m/s"), .help = "Mean wind of each month, 2 m above the ground."},
    Key{.section = "weather", .name = "rain", .form = F::months, .dimension = D::length, .low = from("0 mm"),
        .high = to("3 m"), .help = "Rain of each whole month."},
    Key{.section = "weather", .name = "epw", .form = F::file,
        .help = "EnergyPlus weather file to use instead of monthly normals."},

    Key{.section = "weather.csv", .name = "file", .form = F::file, .need = N::required,
        .help = "CSV file to use instead of monthly normals."},
    Key{.section = "weather.csv", .name = "time", .form = F::text, .need = N::required,
        .help = "Column of ISO 8601 times, local standard time."},
    Key{.section = "weather.csv", .name = "air", .form = F::text,
        .help = "Column of air temperature, with its unit: \"Tair [degC]\"."},
    Key{.section = "weather.csv", .name = "low", .form = F::text,
        .help = "Column of the daily lowest temperature."},
    Key{.section = "weather.csv", .name = "high", .form = F::text,
        .help = "Column of the daily highest temperature."},
    Key{.section = "weather.csv", .name = "humidity", .form = F::text, .help = "Column of relative humidity."},
    Key{.section = "weather.csv", .name = "wind", .form = F::text, .help = "Column of wind speed."},
    Key{.section = "weather.csv", .name = "sun", .form = F::text, .help = "Column of sun on a level surface."},
    Key{.section = "weather.csv", .name = "rain", .form = F::text, .help = "Column of rain."},
    Key{.section = "weather.csv", .name = "wind_height", .form = F::amount, .dimension = D::length,
        .low = from("0.5 m"), .high = to("100 m"), .need = N::has_default, .standard = "2 m",
        .source = "FAO-56 (Allen et al. 1998): standard height of wind", .help = "Height of the wind gauge."}, 

    Key{.section = "goal", .name = "compost", .form = F::amount, .dimension = D::volume, .low = above("0 m3"),
        .high = to("100000 m3"), .help = "Finished compost wanted a year. Give this or `vessels`."},
    Key{.section = "goal", .name = "vessels", .form = F::whole, .low = from("1"), .high = to("1000"),
        .help = "How many vessels in all. Give this or `compost`."},
    Key{.section = "goal", .name = "ready_by", .form = F::date, .help = "Day by which the compost is wanted."},
    Key{.section = "goal", .name = "longest_air_path", .form = F::amount, .dimension = D::length,
        .low = from("50 mm"), .high = to("1 m"), .need = N::has_default, .standard = "0.30 m", .source = practice,
        .help = "No material should lie farther than this from a channel or another face with air."}, 

    Key{.section = "prices", .name = "mesh", .form = F::amount, .dimension = D::money_per_area,
        .low = from("0 per m2"), .help = "Wire mesh of the cage."},
    Key{.section = "prices", .name = "lining", .form = F::amount, .dimension = D::money_per_area,
        .low = from("0 per m2"), .help = "Breathable cloth of the lining and of the cover on top."},
    Key{.section = "prices", .name = "base_cloth", .form = F::amount, .dimension = D::money_per_area,
        .low = from("0 per m2"), .help = "Cloth or fine mesh over the base."},
    Key{.section = "prices", .name = "form", .form = F::amount, .dimension = D::money_per_length,
        .low = from("0 per m"), .help = "Pipes that form the channels."},
    Key{.section = "prices", .name = "slat", .form = F::amount, .dimension = D::money_per_length,
        .low = from("0 per m"), .help = "Slats and bearers of the base."},
    Key{.section = "prices", .name = "board", .form = F::amount, .dimension = D::money_per_length,
        .low = from("0 per m"), .help = "Boards and posts of a closed straight wall."},
    Key{.section = "prices", .name = "tie", .form = F::amount, .dimension = D::money_per_piece,
        .low = from("0 each"), .help = "Ties that close the cage and hold the cloth."},
    Key{.section = "prices", .name = "line", .form = F::amount, .dimension = D::money_per_length,
        .low = from("0 per m"), .help = "Water line."},
    Key{.section = "prices", .name = "spray", .form = F::amount, .dimension = D::money_per_piece,
        .low = from("0 each"), .help = "Small sprays."},
    Key{.section = "prices", .name = "fitting", .form = F::amount, .dimension = D::money_per_piece,
        .low = from("0 each"), .help = "Fittings of the water line."},
    Key{.section = "prices", .name = "water", .form = F::amount, .dimension = D::money_per_volume,
        .low = from("0 per m3"), .help = "Water."}, 

    Key{.section = "labour", .name = "wage", .form = F::amount, .dimension = D::money_per_time,
        .low = from("0 per h"), .need = N::has_default, .standard = "0 per h", .source = "chosen: own work",
        .help = "What an hour of one person costs."},
    Key{.section = "labour", .name = "daily", .form = F::amount, .dimension = D::duration, .low = from("0 min"),
        .high = to("2 h"), .need = N::has_default, .standard = "1 min", .source = practice,
        .help = "Work at each vessel every day: look, water, note."}, 

    Key{.section = "forecast", .name = "days", .form = F::whole, .low = low_of(limits::forecast_days),
        .high = high_of(limits::forecast_days),
        .need = N::has_default, .standard = "365", .source = "chosen", .help = "How far to look ahead."},
    Key{.section = "forecast", .name = "grid", .form = F::word, .choices = "draft|standard|fine",
        .need = N::has_default, .standard = "standard", .source = "chosen",
        .help = "Draft uses daily mean weather; the others follow day and night."},
    Key{.section = "forecast", .name = "members", .form = F::whole, .low = low_of(limits::members),
        .high = high_of(limits::members),
        .need = N::has_default, .standard = "64", .source = "chosen",
        .help = "Runs that make the band; from 32 on they also tell what to measure first."},
    Key{.section = "forecast", .name = "picture_days", .form = F::number_list, .low = low_of(limits::picture_day),
        .high = high_of(limits::picture_day),
        .help = "Days since filling of the pictures and 3-D fields; left out: twenty days, close together at first."},

    Key{.section = "forecast.surfaces", .name = "lining", .form = F::amount, .dimension = D::flow_resistance,
        .low = from("0 Pa s/m"), .high = to("100000 Pa s/m"), .need = N::has_default, .standard = "400 Pa s/m",
        .source = "chosen", .help = "Resistance of the lining cloth to air."},
    Key{.section = "forecast.surfaces", .name = "cover", .form = F::amount, .dimension = D::flow_resistance,
        .low = from("0 Pa s/m"), .high = to("100000 Pa s/m"), .need = N::has_default, .standard = "400 Pa s/m",
        .source = "chosen", .help = "Resistance of the cloth over the top and the channels' mouths to air."},
    Key{.section = "forecast.surfaces", .name = "closed_wall", .form = F::amount, .dimension = D::thermal_resistance,
        .low = from("0 m2 K/W"), .high = to("10 m2 K/W"), .need = N::has_default, .standard = "0.05 m2 K/W",
        .source = "chosen", .help = "Thermal resistance of a closed wall."},
    Key{.section = "forecast.surfaces", .name = "emissivity", .form = F::amount, .dimension = D::fraction,
        .low = from("0 %"), .high = to("100 %"), .need = N::has_default, .standard = "95 %", .source = "chosen",
        .help = "Of the outside, for heat radiation."},
    Key{.section = "forecast.surfaces", .name = "sun_taken_up", .form = F::amount, .dimension = D::fraction,
        .low = from("0 %"), .high = to("100 %"), .need = N::has_default, .standard = "70 %", .source = "chosen",
        .help = "Share of the sun on the outside that warms it."},
    Key{.section = "forecast.surfaces", .name = "base_blocked", .form = F::amount, .dimension = D::fraction,
        .low = from("0 %"), .high = to("100 %"), .need = N::has_default, .standard = "0 %", .source = "chosen",
        .help = "Share of the base that no air passes."},
    Key{.section = "forecast.surfaces", .name = "shade", .form = F::amount, .dimension = D::fraction,
        .low = from("0 %"), .high = to("100 %"), .need = N::has_default, .standard = "0 %", .source = "chosen",
        .help = "Share of the sun that trees or roofs keep off."},
};
// clang-format on

}  // namespace

std::span<const Key> yard_keys() noexcept { return rows; }

}  // namespace stillheap::site
