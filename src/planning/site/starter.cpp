#include "planning/site/site.hpp"

namespace stillheap::site {
namespace {

/// The starter with both ways of writing each amount: {{metric|us}}; the second may begin on a line of its own.
constexpr std::string_view starter = R"(# A site file for stillheap. Change what differs at your yard, then run:
#   stillheap check site.toml
# Amounts carry their unit in quotes; metric and US customary units may be mixed: "1.2 m", "12 ft 6 in",
# "5 gal", "60 %", "80 degF". docs/site-file.md lists every key, what it may hold and its default.
# Numbers here are a starting point, not advice for your place: put in your own.

[site]
name = "My yard"
units = "{{metric|us}}"          # what reports are printed in: "metric" or "us"
currency = "{{EUR|USD}}"          # label of all prices
first_fill = 2026-04-01

[place]
latitude = "{{46.5 deg|43.1 deg}}"     # north is positive
longitude = "{{8.1 deg|-89.4 deg}}"     # east is positive
elevation = "{{450 m|860 ft}}"
# soil_bearing = "{{75 kPa|1500 lb/ft2}}"   # what the ground may carry: ask the local code or a soil engineer

# Monthly normals, January first (from your weather service). Instead of them: epw = "file.epw", or [weather.csv].
[weather]
{{low = { unit = "degC", months = [-3, -2, 1, 4, 9, 12, 14, 14, 10, 6, 1, -2]|
low = { unit = "degF", months = [11, 15, 25, 36, 47, 57, 61, 59, 50, 39, 28, 17]}} }
{{high = { unit = "degC", months = [4, 6, 11, 15, 20, 23, 26, 25, 20, 15, 8, 4]|
high = { unit = "degF", months = [27, 32, 44, 58, 69, 79, 82, 80, 73, 60, 45, 32]}} }
humidity = { unit = "%", months = [80, 76, 70, 67, 70, 69, 69, 73, 77, 80, 82, 82] }
sun = { unit = "MJ/m2/d", months = [4.4, 7.4, 11.9, 15.9, 18.8, 20.9, 21.2, 18.1, 13.3, 8.5, 5.0, 3.6] }
{{wind = { unit = "m/s", months = [1.8, 2.0, 2.2, 2.2, 2.0, 1.9, 1.8, 1.7, 1.7, 1.7, 1.8, 1.8]|
wind = { unit = "mph", months = [6.5, 6.5, 7, 7.5, 6.5, 5.5, 5, 5, 5.5, 6, 6.5, 6.5]}} }
{{rain = { unit = "mm", months = [65, 60, 65, 80, 105, 110, 105, 110, 85, 75, 75, 70]|
rain = { unit = "in", months = [1.2, 1.4, 2.2, 3.4, 3.6, 4.5, 4.2, 4.3, 3.1, 2.4, 2.4, 1.7]}} }

# One block for each raw material. "like" takes typical values, each with its source in the report;
# your own laboratory values win: moisture, carbon, nitrogen, ash, bulk_density, conductivity.
[[feedstock]]
id = "chips"
name = "Wood chips"
like = "wood-chips"
stock = "{{20 m3|25 yd3}}"
price = "{{8 per m3|10 per yd3}}"

[[feedstock]]
id = "leaves"
name = "Autumn leaves"
like = "leaves"
price = "0 per t"

[[feedstock]]
id = "manure"
name = "Horse manure with bedding"
like = "horse-manure"
price = "{{4 per m3|5 per yd3}}"
# moisture = "68 %"          # an own value: what your laboratory found
# values_from = "laboratory report of March"

# How much is wanted: "compost" a year (with "ready_by"), or how many "vessels".
[goal]
vessels = 2
longest_air_path = "{{0.30 m|12 in}}"

# A fixed recipe. Without "shares" the blend is searched under limits: see docs/site-file.md.
[blend]
shares = { chips = "20 %", leaves = "25 %", manure = "55 %" }
shares_by = "volume"        # parts by loose volume (pails), or by "mass"
soaked_moisture = "65 %"

[[vessel]]
name = "ring"
{{diameter = "1.20 m"|panel_length = "12 ft 6 in"   # joined into a ring}}
height = "{{1.50 m|5 ft}}"
fill_height = "{{1.40 m|4 ft 8 in}}"

# Pipes stand in the heap while it is filled and are pulled after a day: they leave the air channels.
[vessel.channels]
diameter = "{{100 mm|4 in}}"
count = 5                   # evenly on a ring ...
radius = "{{0.31 m|12 in}}"        # ... of this radius
centre = true               # and one in the middle

[vessel.base]
gap = "{{100 mm|4 in}}"            # free height below the slats

[vessel.mesh]               # for the check of its strength; ask the maker of the mesh
wire = "{{3 mm|1/8 in}}"
spacing = "{{50 mm|2 in}}"

[vessel.lining]
flap = "{{150 mm|6 in}}"
fold = "{{150 mm|6 in}}"

[water]
drinking_water = true       # hangs on a drinking-water supply: it needs a back-flow preventer

[water.line]
inside_diameter = "{{13 mm|0.6 in}}"
hole = "{{0.8 mm|1/32 in}}"
spacing = "{{100 mm|4 in}}"
sprays = 3
spray_flow = "{{0.5 L/min|8 gph}}"

[water.supply]
pressure = "{{1.5 bar|22 psi}}"
flow = "{{18 L/min|5 gpm}}"

# Stock that the vessels are cut from; the plan lays the cuts out. docs/site-file.md lists what it may hold.
[[stock]]
for = "mesh"
length = "{{25 m|50 ft}}"
width = "{{1.50 m|5 ft}}"

[[stock]]
for = "cloth"
length = "{{25 m|50 ft}}"
width = "{{1.90 m|6 ft}}"

[[stock]]
for = "form"
length = "{{5 m|10 ft}}"

[prices]                    # what is left out is listed without a price
mesh = "{{5 per m2|0.45 per ft2}}"
lining = "{{1.50 per m2|0.14 per ft2}}"
form = "{{4 per m|1.20 per ft}}"
line = "{{0.60 per m|0.18 per ft}}"
water = "{{2 per m3|0.01 per gal}}"

[labour]
wage = "18 per h"

[forecast]
days = 365                  # at most 540
grid = "standard"           # "draft" is quicker, "fine" slower
)";

}  // namespace

std::string starter_text(UnitSystem units) {
  std::string text;
  std::string_view rest = starter;
  for (std::size_t open = rest.find("{{"); open != std::string_view::npos; open = rest.find("{{")) {
    const std::size_t bar = rest.find('|', open);
    const std::size_t close = rest.find("}}", bar);
    text += rest.substr(0, open);
    const std::size_t second = rest.find_first_not_of('\n', bar + 1);
    text += units == UnitSystem::metric ? rest.substr(open + 2, bar - open - 2) : rest.substr(second, close - second);
    rest.remove_prefix(close + 2);
  }
  return text.append(rest);
}

}  // namespace stillheap::site
