#include "server/handlers.hpp"
#include "server/json.hpp"

namespace stillheap::server {

Answer tell_store(House& house, const Ask&) {
  const record::WholeCheck found = house.store_watch.now();
  const bool damaged = found.state == record::Soundness::damaged;
  return answer({{"state", record::key_of(found.state)},
                 {"words", record::words(found, record::here())},
                 {"damage", found.damage},
                 {"restore", damaged ? record::steps_to_restore(record::store_path(house.site.file))
                                     : std::vector<std::string>{}}});
}

}  // namespace stillheap::server
