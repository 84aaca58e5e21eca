#include "present/server/server_context.hpp"

#include "planning/plan/forecast_step.hpp"
#include "yard/state/water_due.hpp"
#include "yard/state/yard_facts.hpp"

namespace stillheap::server {

ServerContext::ServerContext(site::Site the_site, std::shared_ptr<Door> the_door, std::filesystem::path copies_folder)
    : site(std::move(the_site)),
      weather(std::make_shared<const weather::Series>(plan::weather_of(site))),
      setting(&site),
      facts(yard::facts_of(site)),
      own(std::make_shared<yard::OwnLookup>(record::store_path(site.file), site, record::here(),
                                            [this](const auto& use) {
                                              const auto store = stores.take();
                                              use(*store);
                                            })),
      rhythm{.water = yard::water_lookup(
                 std::make_shared<plan::Programmes>(site), record::here(), yard::Patience::none,
                 [own = own](const record::Fill& fill, const vessel::Design& design) { return (*own)(fill, design); })},
      door(std::move(the_door)),
      stores(record::store_path(site.file)),
      writes(record::store_path(site.file)),
      store_watch(record::store_path(site.file)),
      changes(record::store_path(site.file)),
      copies(record::store_path(site.file), std::move(copies_folder)) {}

}  // namespace stillheap::server
