#include "present/server/handlers.hpp"
#include "present/server/json.hpp"

namespace stillheap::server {

Response get_store(ServerContext& context, const Request&) {
  const record::WholeCheck found = context.store_watch.now();
  const bool damaged = found.state == record::Soundness::damaged;
  return answer({{"state", record::key_of(found.state)},
                 {"words", record::words(found, record::here())},
                 {"damage", found.damage},
                 {"restore", damaged ? record::steps_to_restore(record::store_path(context.site.file))
                                     : std::vector<std::string>{}}});
}

}  // namespace stillheap::server
