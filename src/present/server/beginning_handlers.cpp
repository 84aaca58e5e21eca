#include <array>

#include "domain/material/feedstock.hpp"
#include "present/server/beginning.hpp"
#include "present/server/forecast_json.hpp"
#include "present/server/handlers.hpp"

namespace stillheap::server {
namespace {

/// Climates to begin with where none is known by heart. All chosen: round numbers for a first look, to be replaced.
struct Climate {
  const char* key;
  weather::Extremes extremes;
};
constexpr std::array climates{
    Climate{"cool_damp", {-2.0, 4.0, 13.0, 24.0, 0.9}},      Climate{"sea_mild", {2.0, 7.0, 13.0, 21.0, 0.8}},
    Climate{"cold_winter", {-12.0, -2.0, 16.0, 28.0, 0.85}}, Climate{"dry_summer", {3.0, 12.0, 18.0, 32.0, 0.5}},
    Climate{"desert", {5.0, 18.0, 24.0, 39.0, 0.15}},        Climate{"warm_wet", {18.0, 27.0, 24.0, 32.0, 1.6}}};

Json climates_json() {
  Json list = Json::array();
  for (const Climate& one : climates) {
    list.push_back(Json{{"key", one.key},
                        {"coldest_low_c", one.extremes.coldest_low_c},
                        {"coldest_high_c", one.extremes.coldest_high_c},
                        {"warmest_low_c", one.extremes.warmest_low_c},
                        {"warmest_high_c", one.extremes.warmest_high_c},
                        {"rain_m_year", one.extremes.rain_m_year}});
  }
  return list;
}

Json feedstocks_json() {
  Json list = Json::array();
  for (const material::Feedstock& one : material::typical_feedstocks()) {
    list.push_back(Json{{"id", one.id},
                        {"name", one.name},
                        {"kind", material::kind_names.at(static_cast<std::size_t>(one.kind))},
                        {"moisture_wet", one.moisture_wet},
                        {"carbon_to_nitrogen", number(one.carbon_dry / one.nitrogen_dry)},
                        {"bulk_density_kg_m3", one.bulk_density_kg_m3}});
  }
  return list;
}

/// What the starter proposes where nothing was said.
Json starter_json(const std::filesystem::path& file) {
  const site::Site site = site::read_site(file, {}, site::starter_text(UnitSystem::metric));
  const vessel::Design& design = site.vessels.front();
  return {{"vessels", site.goal.vessels.value_or(1)},
          {"diameter_m", design.diameter_m},
          {"fill_height_m", design.fill_height_m}};
}

void refuse_when_begun(House& house) {
  if (house.yard() != nullptr) throw NotThere{"the yard has its site file: load the page anew"};
}

std::string_view word(Mix mix) { return mix == Mix::given ? "given" : mix == Mix::found ? "found" : "even"; }

Json proposal_json(const BegunSite& begun) {
  return {{"file", begun.site.file.filename().string()},
          {"text", begun.text},
          {"mix", word(begun.mix)},
          {"shares_by_volume", begun.shares_by_volume},
          {"no_mix", problems_json(begun.no_mix).at("problems")},
          {"layout", layout_json(begun.plan)}};
}

}  // namespace

Response get_beginning(House& house, const Request&) {
  refuse_when_begun(house);
  return answer({{"file", house.site_file().filename().string()},
                 {"folder", house.site_file().parent_path().filename().string()},
                 {"starter", starter_json(house.site_file())},
                 {"climates", climates_json()},
                 {"feedstocks", feedstocks_json()}});
}

Response propose_beginning(House& house, const Request& ask) {
  refuse_when_begun(house);
  return answer(proposal_json(begin_site(read_beginning(body_json(ask)), house.site_file())));
}

Response begin_yard(House& house, const Request& ask) {
  const BegunSite begun = begin_site(read_beginning(body_json(ask)), house.site_file());
  if (!house.begin(begun.text)) {
    return problem(409, house.site_file().filename().string(), "is there already: nothing was written",
                   "load the page anew");
  }
  return answer({{"file", begun.site.file.filename().string()}}, 201);
}

}  // namespace stillheap::server
