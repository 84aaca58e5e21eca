#include "model/calibrate/kept.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

#include "core/base/error.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/prior.hpp"
#include "model/forecast/sealed.hpp"

namespace stillheap::forecast {

constexpr auto members_of(Is<Banded> auto& s) noexcept {
  auto& [middle, low, high] = s;
  return std::tie(middle, low, high);
}

}  // namespace stillheap::forecast

namespace stillheap::rules {

constexpr auto members_of(forecast::Is<HeatDay> auto& s) noexcept {
  auto& [day, core, hottest] = s;
  return std::tie(day, core, hottest);
}

}  // namespace stillheap::rules

namespace stillheap::calibrate {

using forecast::Is;

constexpr auto members_of(Is<Basis> auto& s) noexcept {
  auto& [request, model, readings] = s;
  return std::tie(request, model, readings);
}

constexpr auto members_of(Is<Outlook> auto& s) noexcept {
  auto& [misfit, cool_day, heated, cool_share, never_warm, core] = s;
  return std::tie(misfit, cool_day, heated, cool_share, never_warm, core);
}

constexpr auto members_of(Is<LearnedValue> auto& s) noexcept {
  auto& [name, what, mean, deviation] = s;
  return std::tie(name, what, mean, deviation);
}

constexpr auto members_of(Is<Learned> auto& s) noexcept {
  auto& [readings, observations, left_out, follows, before, after, values, courses, effective, own] = s;
  return std::tie(readings, observations, left_out, follows, before, after, values, courses, effective, own);
}

constexpr auto members_of(Is<Kept> auto& s) noexcept {
  auto& [basis, at, learned] = s;
  return std::tie(basis, at, learned);
}

namespace {

constexpr int version = 2;  // 1 told the end of heating from the core alone

forecast::Seal seal() { return forecast::seal_for<Kept>("stillheap learned", version, "let the forecast learn again"); }

void add_number(Fingerprint& print, double value) { print.add(std::bit_cast<std::array<std::uint8_t, 8>>(value)); }

std::uint64_t print_of_model() {
  Fingerprint print;
  for (const physics::ParameterRow& row : physics::parameter_rows()) {
    print.add(std::string_view(row.name));
    add_number(print, physics::Parameters{}.*row.member);
    add_number(print, row.deviation);
  }
  for (const forecast::PriorDraw& draw : forecast::prior_draws()) {
    for (const forecast::Shift& shift : draw) {
      for (const double value : shift) add_number(print, value);
    }
  }
  return print.value();
}

/// What a file says is not trusted: a draw has a number for each input, and one that may be.
bool can_be_drawn(const forecast::OwnReadings& own) {
  constexpr double farthest = 20.0;  // deviations; chosen, far beyond any that is learned
  const auto is_whole = [](const std::vector<double>& draw) {
    return draw.size() == forecast::input_count() &&
           std::all_of(draw.begin(), draw.end(), [](double one) { return std::abs(one) <= farthest; });
  };
  return std::isfinite(own.misfit_k) && std::all_of(own.draws.begin(), own.draws.end(), is_whole);
}

}  // namespace

std::uint64_t print_of(std::span<const Observation> readings, std::size_t count) {
  Fingerprint print;
  const std::size_t all = std::min(count, readings.size());
  for (std::size_t i = 0; i < all; ++i) {
    const double day = std::floor(readings[i].day);  // another reading of that day may only move its hour
    if (day >= std::floor(readings[all - 1].day)) break;
    add_number(print, day);
    add_number(print, static_cast<double>(readings[i].what));
    add_number(print, readings[i].value);
  }
  return print.value();
}

Basis basis_of(forecast::Request request, std::span<const Observation> readings) {
  // What only says how the answer is shown, or how finely it is worked out, does not change what was learned.
  request.own = {};
  request.members = 0;
  request.picture_days.clear();
  request.animated = false;
  request.grid = forecast::Grid::draft;
  return {forecast::print_of(request), print_of_model(), print_of(readings, readings.size())};
}

void write_kept(const Kept& kept, const std::filesystem::path& file) {
  Kept lean = kept;
  lean.learned.courses.clear();
  forecast::write_sealed(seal(), forecast::Cbor::to_cbor(forecast::packed(lean)), file);
}

KeptFile read_kept(const std::filesystem::path& file) {
  constexpr std::uintmax_t most_bytes = 4U << 20U;  // chosen: some 30 kB are written
  std::error_code unknown;
  if (!std::filesystem::is_regular_file(file, unknown) || std::filesystem::file_size(file, unknown) > most_bytes)
    return {};
  try {
    Kept kept = forecast::unsealed<Kept>(seal(), file);
    return {can_be_drawn(kept.learned.own) ? std::optional(std::move(kept)) : std::nullopt, false};
  } catch (const forecast::OtherVersion&) {
    return {std::nullopt, true};
  } catch (const InputError&) {
    return {};
  }
}

}  // namespace stillheap::calibrate
