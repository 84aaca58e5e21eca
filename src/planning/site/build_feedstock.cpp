#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

using material::Feedstock;

/// A property of a feedstock that is one number.
struct Property {
  std::string_view key;
  const char* field;  ///< its name in Feedstock::source
  double Feedstock::*member;
};
constexpr std::array<Property, 6> properties{{{"moisture", "moisture_wet", &Feedstock::moisture_wet},
                                              {"carbon", "carbon_dry", &Feedstock::carbon_dry},
                                              {"nitrogen", "nitrogen_dry", &Feedstock::nitrogen_dry},
                                              {"ash", "ash_dry", &Feedstock::ash_dry},
                                              {"bulk_density", "bulk_density_kg_m3", &Feedstock::bulk_density_kg_m3},
                                              {"conductivity", "conductivity_s_m", &Feedstock::conductivity_s_m}}};

/// A property that is one number a pool.
struct PoolProperty {
  std::string_view key;
  const char* field;
  std::array<double, material::pool_count> Feedstock::*member;
};
constexpr std::array<PoolProperty, 2> pool_properties{
    {{"pools", "pool_dry", &Feedstock::pool_dry}, {"rates", "pool_rate_20c_per_s", &Feedstock::pool_rate_20c_per_s}}};

std::optional<Feedstock> typical_of(Reader& reader, const Section& section) {
  if (!value(section, "like").good) return std::nullopt;
  const std::string like = word(reader, section, "like");
  std::optional<Feedstock> typical = material::find_typical(like);
  if (typical) return typical;
  std::string close;
  for (const std::string& id : material::nearest_ids(like)) close += (close.empty() ? "" : ", ") + id;
  std::string all;
  for (const Feedstock& one : material::typical_feedstocks()) all += (all.empty() ? "" : ", ") + one.id;
  refuse(reader, section, "like", "is not a typical feedstock", "nearest: " + close + "; allowed: " + all);
  return std::nullopt;
}

std::string pools_text(const Reader& reader, const std::array<double, material::pool_count>& pools,
                       Dimension dimension) {
  std::string text;
  for (const double pool : pools) text += (text.empty() ? "" : ", ") + shown(reader, pool, dimension);
  return text;
}

/// A value taken from the typical material is a default like any other.
void note_typical(Reader& reader, const Section& section, std::string_view key, const std::string& text,
                  const Feedstock& typical, const char* field) {
  const auto source = typical.source.find(field);
  reader.defaults.push_back(
      {section.path + '.' + std::string(key), text,
       "typical " + typical.id + ": " + (source == typical.source.end() ? "no source" : source->second)});
}

/// Own value if given, else the typical one, else a problem.
void take_values(Reader& reader, const Section& section, const std::optional<Feedstock>& typical,
                 Feedstock& feedstock) {
  const bool like_refused = given(section, "like") && !typical;
  const auto want = [&](std::string_view key) {
    if (!like_refused) miss(reader, section, key, "and there is no \"like\" to take it from");
  };
  const auto own = [&](const char* field) { feedstock.source[field] = word(reader, section, "values_from"); };
  for (const Property& property : properties) {
    if (given(section, property.key)) {
      feedstock.*property.member = amount(reader, section, property.key);
      own(property.field);
    } else if (typical) {
      note_typical(reader, section, property.key,
                   shown(reader, typical.value().*property.member, value(section, property.key).key->dimension),
                   *typical, property.field);
    } else {
      want(property.key);
    }
  }
  for (const PoolProperty& property : pool_properties) {
    if (given(section, property.key)) {
      const std::vector<double>& three = numbers(reader, section, property.key);
      if (three.size() == material::pool_count)
        std::copy(three.begin(), three.end(), (feedstock.*property.member).begin());
      own(property.field);
    } else if (typical) {
      note_typical(reader, section, property.key,
                   pools_text(reader, typical.value().*property.member, value(section, property.key).key->dimension),
                   *typical, property.field);
    } else {
      want(property.key);
    }
  }
}

/// Checks of one feedstock against itself. NaN of a refused value keeps them silent.
void check_values(Reader& reader, const Section& section, const Feedstock& feedstock) {
  const double volatile_dry = 1.0 - feedstock.ash_dry;
  if (feedstock.carbon_dry > volatile_dry) {
    const std::string_view key = given(section, "carbon") ? "carbon" : "ash";
    refuse(reader, section, key, "makes more carbon than there is organic matter",
           "carbon (" + shown(reader, feedstock.carbon_dry, Dimension::fraction) +
               ") must be at most 100 % less ash, " + shown(reader, volatile_dry, Dimension::fraction));
  }
  const double pools = std::accumulate(feedstock.pool_dry.begin(), feedstock.pool_dry.end(), 0.0);
  if (!(pools > volatile_dry * (1.0 + 1e-9))) return;
  if (given(section, "pools")) {
    refuse(reader, section, "pools", "adds up to more than there is organic matter",
           "let the three add up to at most 100 % less ash, " + shown(reader, volatile_dry, Dimension::fraction));
  }
}

/// Typical pools are shares of the dry mass at the typical ash: own ash moves them along.
void fit_pools(Reader& reader, const Section& section, const std::optional<Feedstock>& typical, Feedstock& feedstock) {
  if (!typical || given(section, "pools") || !given(section, "ash") || !(typical->ash_dry < 1.0)) return;
  const double ratio = (1.0 - feedstock.ash_dry) / (1.0 - typical->ash_dry);
  for (double& pool : feedstock.pool_dry) pool *= ratio;
  for (Assumption& noted : reader.defaults) {
    if (noted.topic == section.path + ".pools")
      noted.value = pools_text(reader, feedstock.pool_dry, Dimension::fraction);
  }
}

/// Mass, also when given by volume.
std::optional<double> mass(const Section& section, std::string_view name, double density_kg_m3) {
  std::optional<double> kg = maybe_amount(section, name);
  if (kg && value(section, name).by_volume) *kg *= density_kg_m3;
  return kg;
}

material::Offer build_offer(Reader& reader, const Section& section) {
  material::Offer offer;
  Feedstock& feedstock = offer.feedstock;
  const std::optional<Feedstock> typical = typical_of(reader, section);
  if (typical) feedstock = *typical;
  feedstock.id = word(reader, section, "id");
  feedstock.name = given(section, "name") ? word(reader, section, "name") : typical ? typical->name : feedstock.id;
  take_values(reader, section, typical, feedstock);
  fit_pools(reader, section, typical, feedstock);
  check_values(reader, section, feedstock);
  offer.stock_kg = mass(section, "stock", feedstock.bulk_density_kg_m3);
  offer.at_least_kg = given(section, "at_least") ? *mass(section, "at_least", feedstock.bulk_density_kg_m3)
                                                 : amount(reader, section, "at_least");
  offer.price_per_kg = amount(reader, section, "price");
  offer.price_given = given(section, "price");
  if (value(section, "price").by_volume) offer.price_per_kg /= feedstock.bulk_density_kg_m3;
  if (offer.stock_kg && offer.at_least_kg > *offer.stock_kg) {
    refuse(reader, section, "at_least", "is more than the stock",
           "give at most " + shown(reader, *offer.stock_kg, Dimension::mass));
  }
  return offer;
}

}  // namespace

void build_feedstocks(Reader& reader, const Document& document, Site& site) {
  for (const Block& block : document.blocks.find("feedstock")->second) {
    material::Offer offer = build_offer(reader, block.own);
    const bool twice = std::any_of(site.offers.begin(), site.offers.end(), [&](const material::Offer& other) {
      return other.feedstock.id == offer.feedstock.id && !other.feedstock.id.empty();
    });
    if (twice) refuse(reader, block.own, "id", "is there twice", "give each feedstock its own id");
    site.offers.push_back(std::move(offer));
  }
}

}  // namespace stillheap::site
