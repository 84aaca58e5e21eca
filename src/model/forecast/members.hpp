#pragma once
#include <concepts>
#include <tuple>
#include <type_traits>

#include "model/forecast/request.hpp"
#include "model/forecast/runner.hpp"

/// The members of every struct that a checkpoint keeps or a request is recognised by, as a tuple of references.
/// A struct that gains or loses a member fails to compile here until its line is brought up to date: each line takes
/// the struct apart by name, and the language wants all names.
namespace stillheap::forecast {

template <class T, class Struct>
concept Is = std::same_as<std::remove_const_t<T>, Struct>;

// ---- of a run

constexpr auto members_of(Is<Balance> auto& s) noexcept {
  auto& [in, out, made, stored, held] = s;
  return std::tie(in, out, made, stored, held);
}

constexpr auto members_of(Is<Balances> auto& s) noexcept {
  auto& [solids, oxygen, water, energy, salt, dry_air, evaporated, drained, sprinkled, rain, made, leached, used] = s;
  return std::tie(solids, oxygen, water, energy, salt, dry_air, evaporated, drained, sprinkled, rain, made, leached,
                  used);
}

constexpr auto members_of(Is<Totals> auto& s) noexcept {
  auto& [solids, oxygen, water, salt, energy, energy_size] = s;
  return std::tie(solids, oxygen, water, salt, energy, energy_size);
}

constexpr auto members_of(Is<State> auto& s) noexcept {
  auto& [time, temperature, oxygen, duct_vapour, pool, water, salt, pressure, duct_flow, mouth_flow, duct_density,
         strain, layer_height] = s;
  return std::tie(time, temperature, oxygen, duct_vapour, pool, water, salt, pressure, duct_flow, mouth_flow,
                  duct_density, strain, layer_height);
}

constexpr auto members_of(Is<StepperMemory> auto& s) noexcept {
  auto& [state, first, balances, trend, next, last, sprinkle, loss, steps] = s;
  return std::tie(state, first, balances, trend, next, last, sprinkle, loss, steps);
}

constexpr auto members_of(Is<HotClock> auto& s) noexcept {
  auto& [total, in_a_row, longest] = s;
  return std::tie(total, in_a_row, longest);
}

constexpr auto members_of(Is<Months> auto& s) noexcept {
  auto& [span, evaporated, drained, salt] = s;
  return std::tie(span, evaporated, drained, salt);
}

constexpr auto members_of(Is<HistoryRow> auto& s) noexcept {
  auto& [day, outside, mean, core, hottest, coldest, lowest_oxygen, mean_oxygen, moisture, dry, height, uptake,
         evaporated, drained, sprinkled, rain, made] = s;
  return std::tie(day, outside, mean, core, hottest, coldest, lowest_oxygen, mean_oxygen, moisture, dry, height, uptake,
                  evaporated, drained, sprinkled, rain, made);
}

constexpr auto members_of(Is<Snapshot> auto& s) noexcept {
  auto& [day, temperature, oxygen, moisture, level] = s;
  return std::tie(day, temperature, oxygen, moisture, level);
}

constexpr auto members_of(Is<RunHistory> auto& s) noexcept {
  auto& [history, snapshots, frames, peak, peak_day, peak_cell, lowest_oxygen, lowest_oxygen_day, lowest_oxygen_cell,
         most_below_5, days_below_5, driest, wettest, above_55, share_3_days, heated, heat_ended, heat_end_day,
         degradable_left, peak_uptake, solids_lost, height_lost, finished_kg, finished_m3, salt_ratio, moisture_end,
         first_salt, evaporated, drained, salt_out, balances, steps, stopped] = s;
  return std::tie(history, snapshots, frames, peak, peak_day, peak_cell, lowest_oxygen, lowest_oxygen_day,
                  lowest_oxygen_cell, most_below_5, days_below_5, driest, wettest, above_55, share_3_days, heated,
                  heat_ended, heat_end_day, degradable_left, peak_uptake, solids_lost, height_lost, finished_kg,
                  finished_m3, salt_ratio, moisture_end, first_salt, evaporated, drained, salt_out, balances, steps,
                  stopped);
}

constexpr auto members_of(Is<RunState> auto& s) noexcept {
  auto& [stepper, track, clock, months, at_row, row, next_row, next_snapshot, next_frame] = s;
  return std::tie(stepper, track, clock, months, at_row, row, next_row, next_snapshot, next_frame);
}

// ---- of a request

constexpr auto members_of(Is<Point> auto& s) noexcept {
  auto& [x, y] = s;
  return std::tie(x, y);
}

constexpr auto members_of(Is<vessel::Channel> auto& s) noexcept {
  auto& [centre, diameter, base_covered] = s;
  return std::tie(centre, diameter, base_covered);
}

constexpr auto members_of(Is<vessel::Slat> auto& s) noexcept {
  auto& [from, to, width] = s;
  return std::tie(from, to, width);
}

constexpr auto members_of(Is<vessel::WireMesh> auto& s) noexcept {
  auto& [wire, spacing, stress] = s;
  return std::tie(wire, spacing, stress);
}

constexpr auto members_of(Is<vessel::Design> auto& s) noexcept {
  auto& [name, count, footprint, diameter, length, width, height, fill, wall, base_open, gap, slats, bearers, channels,
         mesh, panel, overlap, fold] = s;
  return std::tie(name, count, footprint, diameter, length, width, height, fill, wall, base_open, gap, slats, bearers,
                  channels, mesh, panel, overlap, fold);
}

constexpr auto members_of(Is<material::Habit> auto& s) noexcept {
  auto& [size, envelope, holding, best, most] = s;
  return std::tie(size, envelope, holding, best, most);
}

constexpr auto members_of(Is<material::Feedstock> auto& s) noexcept {
  auto& [id, name, moisture, carbon, nitrogen, ash, density, conductivity, pool, rate, kind, habit, source] = s;
  return std::tie(id, name, moisture, carbon, nitrogen, ash, density, conductivity, pool, rate, kind, habit, source);
}

constexpr auto members_of(Is<material::Part> auto& s) noexcept {
  auto& [feedstock, mass] = s;
  return std::tie(feedstock, mass);
}

constexpr auto members_of(Is<material::Blend> auto& s) noexcept {
  auto& [parts, wet, dry, volume, moisture, carbon, nitrogen, ash, ratio, degradable_ratio, conductivity, density, air,
         pool, rate, habit, kind_dry, kind_uptake] = s;
  return std::tie(parts, wet, dry, volume, moisture, carbon, nitrogen, ash, ratio, degradable_ratio, conductivity,
                  density, air, pool, rate, habit, kind_dry, kind_uptake);
}

constexpr auto members_of(Is<weather::Hour> auto& s) noexcept {
  auto& [air, humidity, wind, sun, longwave, rain, pressure] = s;
  return std::tie(air, humidity, wind, sun, longwave, rain, pressure);
}

constexpr auto members_of(Is<weather::Place> auto& s) noexcept {
  auto& [latitude, longitude, elevation] = s;
  return std::tie(latitude, longitude, elevation);
}

constexpr auto members_of(Is<Assumption> auto& s) noexcept {
  auto& [topic, value, source] = s;
  return std::tie(topic, value, source);
}

constexpr auto members_of(Is<weather::Series> auto& s) noexcept {
  auto& [hours, first, place, source, assumptions] = s;
  return std::tie(hours, first, place, source, assumptions);
}

constexpr auto members_of(Is<Surfaces> auto& s) noexcept {
  auto& [lining, cover, closed_wall, emissivity, absorptance, blocked, shade] = s;
  return std::tie(lining, cover, closed_wall, emissivity, absorptance, blocked, shade);
}

constexpr auto members_of(Is<Sprinkling> auto& s) noexcept {
  auto& [kg_by_day, conductivity, automatic, most, most_kept] = s;
  return std::tie(kg_by_day, conductivity, automatic, most, most_kept);
}

constexpr auto members_of(Is<OwnReadings> auto& s) noexcept {
  auto& [draws, misfit] = s;
  return std::tie(draws, misfit);
}

constexpr auto members_of(Is<Request> auto& s) noexcept {
  auto& [design, blend, weather, surfaces, sprinkling, fill_temperature, start_day, days, grid, members, seed,
         picture_days, animated, own] = s;
  return std::tie(design, blend, weather, surfaces, sprinkling, fill_temperature, start_day, days, grid, members, seed,
                  picture_days, animated, own);
}

}  // namespace stillheap::forecast
