#include <algorithm>

#include "domain/material/estimate.hpp"
#include "domain/material/typical_row.hpp"

namespace stillheap::material {
namespace {

constexpr double seconds_per_day = 86400.0;
constexpr double siemens_per_metre = 0.1;  // of 1 dS/m
constexpr std::string_view carbon_source =
    "derived: volatile solids / 1.8 (Adams et al. 1951, by Richard, Cornell, read)";

Feedstock to_feedstock(const table::Row& row) {
  Feedstock f;
  f.id = row.id;
  f.name = row.name;
  f.moisture_wet = row.moisture_percent_wet.value / 100.0;
  f.nitrogen_dry = row.nitrogen_percent_dry.value / 100.0;
  f.ash_dry = row.ash_percent_dry.value / 100.0;
  const bool carbon_given = !row.carbon_percent_dry.source.empty();
  f.carbon_dry = carbon_given ? row.carbon_percent_dry.value / 100.0 : carbon_from_ash(f.ash_dry);
  f.bulk_density_kg_m3 = row.density_kg_m3.value;
  f.conductivity_s_m = row.conductivity_ds_m.value * siemens_per_metre;
  for (std::size_t i = 0; i < pool_count; ++i) {
    f.pool_dry[i] = row.decay.share_of_volatile[i] * (1.0 - f.ash_dry);
    f.pool_rate_20c_per_s[i] = row.decay.rate_20c_per_day[i] / seconds_per_day;
  }
  f.kind = row.nature.kind;
  f.habit = row.nature.habit;
  f.source = {{"moisture_wet", std::string(row.moisture_percent_wet.source)},
              {"nitrogen_dry", std::string(row.nitrogen_percent_dry.source)},
              {"ash_dry", std::string(row.ash_percent_dry.source)},
              {"carbon_dry", std::string(carbon_given ? row.carbon_percent_dry.source : carbon_source)},
              {"bulk_density_kg_m3", std::string(row.density_kg_m3.source)},
              {"conductivity_s_m", std::string(row.conductivity_ds_m.source)},
              {"pool_dry", std::string(row.decay.share_source)},
              {"pool_rate_20c_per_s", std::string(row.decay.rate_source)},
              {"particle_size_m", std::string(row.nature.air_source)},
              {"holding_dry", std::string(row.nature.water_source)},
              {"best_c", std::string(row.nature.heat_source)}};
  return f;
}

std::vector<Feedstock> build() {
  std::vector<Feedstock> all;
  for (const auto& rows : {table::wood_rows(), table::crop_rows(), table::manure_rows(), table::kitchen_rows()}) {
    std::transform(rows.begin(), rows.end(), std::back_inserter(all), to_feedstock);
  }
  return all;
}

/// Letters to insert, drop or change to get from one word to the other (Levenshtein 1966).
std::size_t edits(std::string_view from, std::string_view to) {
  std::vector<std::size_t> row(to.size() + 1);
  for (std::size_t j = 0; j <= to.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= from.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= to.size(); ++j) {
      const std::size_t changed = diagonal + (from[i - 1] == to[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row.back();
}

/// A word inside the other (straw in wheat-straw) counts as nearer than any spelling mistake.
std::size_t remoteness(std::string_view asked, std::string_view id) {
  const bool inside = !asked.empty() && (id.find(asked) != id.npos || asked.find(id) != asked.npos);
  return inside ? 0 : edits(asked, id);
}

}  // namespace

const std::vector<Feedstock>& typical_feedstocks() {
  static const std::vector<Feedstock> all = build();
  return all;
}

std::optional<Feedstock> find_typical(std::string_view id) {
  const auto& all = typical_feedstocks();
  const auto found = std::find_if(all.begin(), all.end(), [id](const Feedstock& f) { return f.id == id; });
  return found == all.end() ? std::nullopt : std::optional(*found);
}

std::vector<std::string> nearest_ids(std::string_view id, std::size_t most) {
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const Feedstock& f : typical_feedstocks()) ranked.emplace_back(remoteness(id, f.id), f.id);
  std::sort(ranked.begin(), ranked.end());
  ranked.resize(std::min(most, ranked.size()));
  std::vector<std::string> ids;
  ids.reserve(ranked.size());
  for (const auto& [far, name] : ranked) ids.push_back(name);
  return ids;
}

}  // namespace stillheap::material
