#include "present/draw/colour.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillheap::sheet {
namespace {

constexpr std::size_t rows = 33;
using MapTable = std::array<Colour, rows>;

// Every eighth row of the published 256, rounded to four places.
constexpr MapTable inferno{{
    {0.0015, 0.0005, 0.0139}, {0.0140, 0.0112, 0.0719}, {0.0423, 0.0281, 0.1411}, {0.0820, 0.0433, 0.2153},
    {0.1293, 0.0473, 0.2908}, {0.1834, 0.0403, 0.3550}, {0.2383, 0.0366, 0.3964}, {0.2908, 0.0456, 0.4186},
    {0.3415, 0.0623, 0.4294}, {0.3915, 0.0809, 0.4331}, {0.4412, 0.0993, 0.4316}, {0.4910, 0.1172, 0.4256},
    {0.5409, 0.1347, 0.4151}, {0.5907, 0.1526, 0.4003}, {0.6401, 0.1714, 0.3811}, {0.6887, 0.1922, 0.3576},
    {0.7357, 0.2159, 0.3302}, {0.7751, 0.2397, 0.3035}, {0.8173, 0.2710, 0.2704}, {0.8560, 0.3070, 0.2351},
    {0.8903, 0.3480, 0.1983}, {0.9199, 0.3934, 0.1601}, {0.9443, 0.4428, 0.1204}, {0.9634, 0.4955, 0.0791},
    {0.9771, 0.5508, 0.0391}, {0.9853, 0.6084, 0.0242}, {0.9879, 0.6677, 0.0583}, {0.9849, 0.7284, 0.1208},
    {0.9761, 0.7900, 0.1960}, {0.9625, 0.8515, 0.2855}, {0.9487, 0.9105, 0.3953}, {0.9517, 0.9606, 0.5242},
    {0.9884, 0.9984, 0.6449},
}};
constexpr MapTable viridis{{
    {0.2670, 0.0049, 0.3294}, {0.2770, 0.0503, 0.3757}, {0.2823, 0.0950, 0.4173}, {0.2829, 0.1359, 0.4534},
    {0.2788, 0.1755, 0.4834}, {0.2706, 0.2141, 0.5071}, {0.2590, 0.2515, 0.5247}, {0.2450, 0.2877, 0.5373},
    {0.2297, 0.3224, 0.5457}, {0.2143, 0.3556, 0.5512}, {0.1994, 0.3876, 0.5546}, {0.1856, 0.4186, 0.5568},
    {0.1727, 0.4488, 0.5579}, {0.1607, 0.4785, 0.5581}, {0.1490, 0.5081, 0.5573}, {0.1378, 0.5375, 0.5549},
    {0.1276, 0.5669, 0.5506}, {0.1211, 0.5927, 0.5446}, {0.1201, 0.6222, 0.5349}, {0.1301, 0.6514, 0.5216},
    {0.1539, 0.6802, 0.5042}, {0.1911, 0.7084, 0.4823}, {0.2394, 0.7356, 0.4557}, {0.2965, 0.7616, 0.4242},
    {0.3607, 0.7860, 0.3878}, {0.4310, 0.8085, 0.3465}, {0.5063, 0.8288, 0.3004}, {0.5857, 0.8467, 0.2499},
    {0.6681, 0.8620, 0.1963}, {0.7519, 0.8750, 0.1432}, {0.8353, 0.8860, 0.1026}, {0.9162, 0.8961, 0.1007},
    {0.9932, 0.9062, 0.1439},
}};

double linear_light(double channel) noexcept {
  return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double coded(double light) noexcept {
  const double channel = light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1.0 / 2.4) - 0.055;
  return std::clamp(channel, 0.0, 1.0);
}

/// CIE 1976 L*a*b* to sRGB, white D65 (CIE 15; matrix of IEC 61966-2-1).
Colour from_lab(double l, double a, double b) noexcept {
  const auto linear = [](double f) { return f > 6.0 / 29.0 ? f * f * f : (f - 4.0 / 29.0) * 108.0 / 841.0; };
  const double f = (l + 16.0) / 116.0;
  const double x = 0.95047 * linear(f + a / 500.0);
  const double y = linear(f);
  const double z = 1.08883 * linear(f - b / 200.0);
  return {coded(3.2406 * x - 1.5372 * y - 0.4986 * z), coded(-0.9689 * x + 1.8758 * y + 0.0415 * z),
          coded(0.0557 * x - 0.2040 * y + 1.0570 * z)};
}

/// Ends chosen inside the gamut of sRGB.
Colour water_colour(double share) noexcept {
  const double t = std::clamp(share, 0.0, 1.0);
  return from_lab(std::lerp(95.0, 22.0, t), std::lerp(-3.0, 10.0, t), std::lerp(8.0, -38.0, t));
}

}  // namespace

Colour map_colour(FieldMap map, double share) noexcept {
  if (map == FieldMap::water) return water_colour(share);
  const MapTable& table = map == FieldMap::inferno ? inferno : viridis;
  const double place = std::clamp(share, 0.0, 1.0) * static_cast<double>(rows - 1);
  const auto below = std::min(static_cast<std::size_t>(place), rows - 2);
  const double part = place - static_cast<double>(below);
  const Colour& a = table[below];
  const Colour& b = table[below + 1];
  return {std::lerp(a.red, b.red, part), std::lerp(a.green, b.green, part), std::lerp(a.blue, b.blue, part)};
}

double lightness(Colour colour) noexcept {
  const double luminance =
      0.2126 * linear_light(colour.red) + 0.7152 * linear_light(colour.green) + 0.0722 * linear_light(colour.blue);
  constexpr double knee = 216.0 / 24389.0;
  return luminance > knee ? 116.0 * std::cbrt(luminance) - 16.0 : luminance * 24389.0 / 27.0;
}

}  // namespace stillheap::sheet
