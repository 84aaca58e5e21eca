#include "planning/water/words.hpp"

#include <cmath>

namespace stillheap::water {
namespace {

/// As a timer is set: whole minutes, or whole seconds.
std::string timer_text(double seconds) {
  const long long whole = std::llround(seconds);
  const std::string rest = whole % 60 == 0 ? "" : std::to_string(whole % 60) + " s";
  if (whole < 60) return rest;
  return std::to_string(whole / 60) + " min" + (rest.empty() ? "" : ' ' + rest);
}

}  // namespace

std::string run_text(const Programme& programme, const Row& row) {
  if (row.setting != Setting::runs) return programme.way.by_hand ? "none" : "off";
  if (programme.way.by_hand) return std::to_string(row.steps) + (row.steps == 1 ? " can" : " cans");
  return timer_text(run_s(programme, row));
}

std::string rhythm_text(const Row& row) {
  switch (row.setting) {
    case Setting::enough:
      return "none: it holds enough";
    case Setting::frost:
      return "none: frost";
    case Setting::runs:
      break;
  }
  return row.every_days == 1 ? "daily" : "every " + std::to_string(row.every_days) + " days";
}

std::string run_water_text(const Row& row, UnitSystem units) {
  constexpr int digits = 2;
  return quantity::format_water(row.run_kg, units, digits);
}

std::string setting_text(const Programme& programme, const Row& row, UnitSystem units) {
  const std::string rhythm = rhythm_text(row);
  if (row.setting != Setting::runs) return rhythm;
  return run_text(programme, row) + ' ' + rhythm + ", " + run_water_text(row, units) + " a run";
}

}  // namespace stillheap::water
