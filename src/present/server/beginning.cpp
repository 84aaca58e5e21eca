#include "present/server/beginning.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/date.hpp"
#include "domain/limits/limits.hpp"
#include "domain/vessel/design.hpp"
#include "planning/site/edit_text.hpp"
#include "present/server/change.hpp"
#include "present/server/site_edits.hpp"

namespace stillheap::server {
namespace {

using Problems = std::vector<Problem>;
using site::Beginning;

constexpr double most_number = 1e7;         // chosen: beyond any key's range, and still written in full
constexpr std::size_t longest_name = 100;   // bytes, chosen: as wide as a sheet's head
constexpr std::size_t most_materials = 12;  // chosen: more than anybody mixes

/// Where a number stands in what is sent, and under which key in the site file.
struct NumberRow {
  const char* sent;
  const char* key;
  double& into;
};

double number_in(const Json& json, const std::string& key) {
  if (!json.is_object() || !json.contains(key) || !json[key].is_number()) return std::nan("");
  const double value = json[key].get<double>();
  return std::abs(value) <= most_number ? value : std::nan("");
}

bool is_there(const Json& json, const char* key) { return json.contains(key) && !json[key].is_null(); }

void read_numbers(const Json& json, std::initializer_list<NumberRow> rows, Problems& problems) {
  for (const NumberRow& row : rows) {
    row.into = number_in(json, row.sent);
    if (std::isnan(row.into)) problems.push_back({row.key, "is missing", "give a number"});
  }
}

void read_maybe(const Json& json, const char* sent, const char* key, std::optional<double>& into, Problems& problems) {
  if (!is_there(json, sent)) return;
  const double value = number_in(json, sent);
  if (std::isnan(value)) problems.push_back({key, "is no number", "give a number, or leave it out"});
  into = value;
}

std::string text_in(const Json& json, const char* key) {
  return is_there(json, key) && json[key].is_string() ? json[key].get<std::string>() : std::string{};
}

void read_names(const Json& json, Beginning& yard, Problems& problems) {
  yard.units = text_in(json, "units") == "us" ? UnitSystem::us : UnitSystem::metric;
  yard.name = text_in(json, "name");
  const bool plain = std::none_of(yard.name.begin(), yard.name.end(),
                                  [](char one) { return static_cast<unsigned char>(one) < 0x20 || one == 0x7f; });
  if (yard.name.find_first_not_of(' ') == std::string::npos) {
    problems.push_back({"site.name", "is missing", "give the yard a name"});
  } else if (yard.name.size() > longest_name || !plain) {
    problems.push_back({"site.name", "does not fit on a line", "give at most 100 letters and no line break"});
  }
  yard.first_fill = text_in(json, "first_fill");
  const auto day = date::parse_iso(yard.first_fill);
  if (!day || !limits::holds(limits::year, date::year_of(*day))) {
    problems.push_back({"site.first_fill", "is no day of the calendar", "give a day as 2026-04-01"});
  }
}

void read_climate(const Json& json, weather::Extremes& climate, Problems& problems) {
  const std::size_t before = problems.size();
  const Json sent = json.contains("climate") ? json["climate"] : Json::object();
  read_numbers(sent,
               {{"coldest_low_c", "weather.low", climate.coldest_low_c},
                {"warmest_low_c", "weather.low", climate.warmest_low_c},
                {"coldest_high_c", "weather.high", climate.coldest_high_c},
                {"warmest_high_c", "weather.high", climate.warmest_high_c},
                {"rain_m_year", "weather.rain", climate.rain_m_year}},
               problems);
  if (problems.size() > before) return;
  if (climate.coldest_low_c > climate.warmest_low_c || climate.coldest_high_c > climate.warmest_high_c) {
    problems.push_back({"weather", "has a coldest month warmer than the warmest", "swap the two"});
  }
}

void read_materials(const Json& json, Beginning& yard, Problems& problems) {
  const Json sent = json.contains("materials") ? json["materials"] : Json();
  if (!sent.is_array() || sent.empty() || sent.size() > most_materials) {
    problems.push_back({"feedstock", "is missing", "pick 1 to 12 materials"});
    return;
  }
  std::set<std::string> seen;
  for (const Json& one : sent) {
    Beginning::Material material;
    if (one.is_object()) material.like = text_in(one, "like");
    if (!material::find_typical(material.like)) {
      problems.push_back({"feedstock.like", "is not in the list of typical feedstocks", "pick one of the list"});
      continue;
    }
    if (!seen.insert(material.like).second) problems.push_back({"feedstock", "is there twice", "pick each once"});
    read_maybe(one, "stock_m3", "feedstock.stock", material.stock_m3, problems);
    std::optional<double> share;
    read_maybe(one, "share_by_volume", "blend.shares", share, problems);
    material.share_by_volume = share.value_or(0.0);
    if (material.share_by_volume < 0.0) problems.push_back({"blend.shares", "has one below 0", "give 0 or more"});
    yard.materials.push_back(std::move(material));
  }
}

void read_goal(const Json& json, Beginning& yard, Problems& problems) {
  read_maybe(json, "compost_m3", "goal.compost", yard.compost_m3, problems);
  if (!is_there(json, "vessels")) {
    if (!yard.compost_m3)
      problems.push_back({"goal", "is missing", "tell how much compost or how many vessels you want"});
    return;
  }
  const double count = number_in(json, "vessels");
  if (yard.compost_m3) problems.push_back({"goal", "names compost and vessels", "give one of the two"});
  if (std::isnan(count) || count != std::floor(count)) {
    problems.push_back({"goal.vessels", "is no whole number", "give a whole number"});
    return;
  }
  yard.vessels = static_cast<int>(count);
}

void read_size(const Json& json, const char* sent, const char* key, const limits::Limit& limit, UnitSystem units,
               std::optional<double>& into, Problems& problems) {
  if (!is_there(json, sent)) return;
  const double value = number_in(json, sent);
  if (!limits::holds(limit, value)) {
    problems.push_back({key, "is too small or too large", "give " + limits::allowed(limit, units)});
  }
  into = value;
}

/// "yard/site.toml:14: place.latitude" is told as "place.latitude": nobody has that file yet.
[[noreturn]] void refuse_by_key(const InputError& error, const std::filesystem::path& file) {
  Problems problems = error.problems();
  for (Problem& one : problems) {
    if (!one.where.starts_with(file.string())) continue;
    const std::size_t key = one.where.rfind(": ");
    one.where = key == std::string::npos ? "site" : one.where.substr(key + 2);
  }
  throw InputError(problems);
}

Change sizes_of(const BeginningWish& wish, const vessel::Design& design) {
  Change change;
  change.design = design.name;
  change.diameter_m = wish.diameter_m.value_or(design.diameter_m);
  change.fill_height_m = wish.fill_height_m.value_or(design.fill_height_m);
  change.height_m = *change.fill_height_m + (design.height_m - design.fill_height_m);
  std::vector<vessel::Channel> channels = design.channels;
  const double wider = *change.diameter_m / design.diameter_m;
  for (vessel::Channel& one : channels) one.centre = {wider * one.centre.x_m, wider * one.centre.y_m};
  change.channels = std::move(channels);
  return change;
}

/// The wish with shares: as they were said, or found, or even.
BeginningWish with_mix(const BeginningWish& wish, const std::filesystem::path& file, BegunSite& begun) {
  BeginningWish made = wish;
  auto& all = made.yard.materials;
  const bool given = std::any_of(all.begin(), all.end(), [](const auto& one) { return one.share_by_volume > 0.0; });
  if (given) return made;
  const site::Site searched = site::read_site(file, {}, site::beginning_text(wish.yard, file));
  try {
    const Case what = make_case(searched, sizes_of(wish, searched.vessels.front()));
    for (const material::Part& part : what.as_delivered.parts) {
      const auto same = [&](const auto& one) { return one.like == part.feedstock.id; };
      const auto found = std::find_if(all.begin(), all.end(), same);
      if (found != all.end()) found->share_by_volume = part.mass_wet_kg / part.feedstock.bulk_density_kg_m3;
    }
    begun.mix = Mix::found;
  } catch (const InputError& none) {
    begun.no_mix = none.problems();
    begun.mix = Mix::even;
    for (Beginning::Material& one : all) one.share_by_volume = 1.0;
  }
  return made;
}

}  // namespace

BeginningWish read_beginning(const Json& json) {
  if (!json.is_object()) throw InputError("beginning", "is no object", "send a JSON object");
  BeginningWish wish;
  Problems problems;
  Beginning& yard = wish.yard;
  read_names(json, yard, problems);
  read_numbers(json,
               {{"latitude_deg", "place.latitude", yard.latitude_deg},
                {"longitude_deg", "place.longitude", yard.longitude_deg},
                {"elevation_m", "place.elevation", yard.elevation_m}},
               problems);
  read_climate(json, yard.climate, problems);
  read_materials(json, yard, problems);
  read_goal(json, yard, problems);
  read_size(json, "diameter_m", "vessel.diameter", limits::diameter, yard.units, wish.diameter_m, problems);
  read_size(json, "fill_height_m", "vessel.fill_height", limits::fill_height, yard.units, wish.fill_height_m, problems);
  if (!problems.empty()) throw InputError(problems);
  return wish;
}

BegunSite begin_site(const BeginningWish& wish, const std::filesystem::path& file) {
  BegunSite begun;
  try {
    const BeginningWish mixed = with_mix(wish, file, begun);
    double sum = 0.0;
    for (const auto& one : mixed.yard.materials) sum += one.share_by_volume;
    for (const auto& one : mixed.yard.materials) begun.shares_by_volume[one.like] = one.share_by_volume / sum;
    const std::string plain = site::beginning_text(mixed.yard, file);
    const site::Site first = site::read_site(file, {}, plain);
    Change change = sizes_of(mixed, first.vessels.front());
    if (const auto better = plan_case(make_case(first, change)).suggestion) change.channels = better->channels;
    begun.text = site::edited(plain, edits_of(first, change), file);
    begun.site = site::read_site(file, {}, begun.text);
    Change as_written;
    as_written.design = change.design;
    begun.plan = plan_case(make_case(begun.site, as_written));
  } catch (const InputError& error) {
    refuse_by_key(error, file);
  }
  return begun;
}

}  // namespace stillheap::server
