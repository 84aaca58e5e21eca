#include "yard/state/yard_facts.hpp"

#include <cmath>
#include <set>

#include "domain/rules/worms.hpp"
#include "yard/insight/alerts.hpp"
#include "yard/insight/maturity.hpp"
#include "yard/insight/phase.hpp"

namespace stillheap::yard {
namespace {

record::YardFacts::Design facts_of(const vessel::Design& design) {
  record::YardFacts::Design facts{
      design.name, design.fill_height_m, 0.5 * design.diameter_m, vessel::material_volume_m3(design), {}};
  if (design.footprint == vessel::Footprint::rectangular) {
    facts.box = {0.5 * vessel::across_m(design), 0.5 * vessel::deep_m(design)};
    facts.reach_m = std::hypot(facts.box->half_length_m, facts.box->half_width_m);
  }
  return facts;
}

}  // namespace

std::vector<record::YardFacts::LabKey> lab_keys() {
  std::vector<record::YardFacts::LabKey> keys{
      {"conductivity", "dS/m"}, {"self_heating_rise", "K"}, {"germination_index", "%"}};
  std::set<std::pair<std::string, std::string>> named;
  for (const auto& one : keys) named.emplace(one.key, one.unit);
  for (const insight::QualityLimit& one : insight::quality_limits()) {
    if (named.emplace(one.key, one.unit).second) keys.push_back({std::string(one.key), std::string(one.unit)});
  }
  return keys;
}

HeatLimits heat_limits() {
  const insight::AlertLimits alerts;
  return {alerts.act_c, alerts.too_hot_c, insight::PhaseLimits{}.hot_from_c, rules::worms::most_c};
}

record::YardFacts facts_of(const site::Site& site) {
  record::YardFacts facts;
  facts.units = site.units;
  for (const vessel::Design& design : site.vessels) facts.designs.push_back(facts_of(design));
  for (const material::Offer& offer : site.offers) facts.feedstocks.push_back(offer.feedstock.id);
  facts.lab_keys = lab_keys();
  return facts;
}

}  // namespace stillheap::yard
