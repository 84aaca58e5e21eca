#include "draw.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <fstream>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "dice.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/stepper.hpp"
#include "planning/plan/blend_step.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/vessel_step.hpp"
#include "planning/site/site.hpp"
#include "site_text.hpp"

namespace stillheap::sweep {
namespace {

constexpr int most_draws = 1000;
constexpr int members = 8;

/// Reads a site file as the program does: from disk.
site::Site read(const std::string& toml, std::uint64_t seed, int number) {
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / fmt::format("sweep-{}-{}-{}.toml", ::getpid(), seed, number);
  std::ofstream(file) << toml;
  try {
    site::Site site = site::read_site(file);
    std::filesystem::remove(file);
    return site;
  } catch (...) {
    std::filesystem::remove(file);
    throw;
  }
}

/// Request of the site's one vessel, blended and soaked as the plan does.
forecast::Request request_of(const site::Site& site) {
  const plan::Recipe recipe = plan::choose_recipe(site, {1});
  const vessel::Design& design = site.vessels.front();
  const material::Blend as_delivered = plan::scaled_to(recipe, vessel::material_volume_m3(design));
  plan::VesselPlan vessel;
  vessel.design = design;
  vessel.blend_soaked = material::soaked_to(as_delivered, recipe.moisture_wet);
  return plan::request_for(site, plan::weather_of(site), vessel);
}

/// Sprinkling as no plan asks for: none, by month, a flood.
std::string change_sprinkling(Dice& dice, forecast::Request& request) {
  const double area_m2 = vessel::footprint_area_m2(request.design);
  const int kind = dice.whole(0, 9);
  if (kind < 4) return "automatic";
  request.sprinkling.automatic = false;
  const double most_mm = kind < 6 ? 0.0 : kind < 9 ? dice.spread(0.5, 20.0) : 500.0;
  std::array<double, 12> kg_day{};
  for (double& month : kg_day) month = area_m2 * most_mm * dice.between(0.5, 1.0);
  for (int day = 0; day < request.days; ++day)
    request.sprinkling.kg_by_day.push_back(
        kg_day[static_cast<std::size_t>(forecast::month_at(request, day * constant::seconds_per_day))]);
  return fmt::format("at most {:.3g} mm a day", most_mm);
}

std::string change_request(Dice& dice, Case& one) {
  std::string said = "# sprinkling " + change_sprinkling(dice, one.request) + "\n";
  if (dice.chance(0.3)) one.request.fill_temperature_c = dice.between(0.0, 40.0);
  said += fmt::format("# filled at {:.4g} degC\n", one.request.fill_temperature_c);
  if (dice.chance(0.5)) {
    const int member = dice.whole(0, members - 1);
    const auto drawn = forecast::draw_members(one.request, members, one.seed + static_cast<std::uint64_t>(one.number));
    one.request = drawn[static_cast<std::size_t>(member)].request;
    one.parameters = drawn[static_cast<std::size_t>(member)].parameters;
    said += fmt::format("# blend and parameters of member {} of {}\n", member, members);
  }
  one.hourly = one.request.weather;
  one.request.weather = weather::daily_means(one.request.weather);  // as the draft grid does
  return said;
}

}  // namespace

Case draw(std::uint64_t seed, int number) {
  Dice dice(seed * 1'000'003 + static_cast<std::uint64_t>(number));
  Case one{seed, number, {}, 0, {}, {}, {}};
  for (; one.drawn_again < most_draws; ++one.drawn_again) {
    one.toml = site_text(dice);
    try {
      one.request = request_of(read(one.toml, seed, number));
    } catch (const InputError&) {
      continue;
    }
    one.toml += fmt::format("\n# sweep: seed {}, case {}; the request was changed by:\n", seed, number);
    one.toml += change_request(dice, one);
    return one;
  }
  throw RunError("sweep", "no valid site file came out", "look at what the reader refuses");
}

}  // namespace stillheap::sweep
