#include "planning/site/build.hpp"

namespace stillheap::site {

void build_work(Reader& reader, const Document& document, Site& site) {
  const Section& bath = only_block(document, "bath").own;
  site.bath.volume_m3 = amount(reader, bath, "volume");
  site.bath.load_share = amount(reader, bath, "load");
  site.bath.soak_s = amount(reader, bath, "soak");
  site.bath.drain_s = amount(reader, bath, "drain");

  const Section& fill = only_block(document, "fill").own;
  site.practice.pail_m3 = amount(reader, fill, "pail");
  site.practice.pails_a_lift = whole(reader, fill, "pails_a_lift");
  site.practice.people = whole(reader, fill, "people");
  site.practice.pails_per_person_hour = amount(reader, fill, "pails_per_person_hour");
  site.fill_temperature_c = maybe_amount(fill, "temperature");
  site.settled_density_kg_m3 = maybe_amount(fill, "settled_density");
  site.practice.inoculum_share = amount(reader, fill, "inoculum");
  site.practice.forms_out_after_s = amount(reader, fill, "forms_out_after");

  site.practice.baths = whole(reader, bath, "count");

  const Section& labour = only_block(document, "labour").own;
  site.labour.people = site.practice.people;
  site.labour.wage_per_s = amount(reader, labour, "wage");
  site.labour.daily_minutes_per_vessel = amount(reader, labour, "daily") / 60.0;

  const Section& prices = only_block(document, "prices").own;
  for (const auto& [name, price] : prices.values) {
    if (price.good && price.given) site.prices[name] = price.numbers.front();
  }
}

}  // namespace stillheap::site
