#include "present/server/handlers.hpp"
#include "present/server/json.hpp"

namespace stillheap::server {

Response get_store(ServerContext& context, const Request&) {
  const record::WholeCheck found = context.store_watch.now();
  const bool damaged = found.state == record::Soundness::damaged;
  const DailyCopies::Found copies = context.copies.now();
  const auto last = copies.last;
  Json copy = {{"folder", copies.folder.string()},
               {"last_s", last ? Json(last->at.time_since_epoch().count()) : Json(nullptr)},
               {"age_s", last ? Json((record::now() - last->at).count()) : Json(nullptr)},
               {"fault", copies.fault},
               {"damage", copies.damage}};
  return answer({{"copies", copy},
                 {"state", record::key_of(found.state)},
                 {"words", record::words(found, record::here())},
                 {"damage", found.damage},
                 {"restore", damaged ? record::steps_to_restore(record::store_path(context.site.file))
                                     : std::vector<std::string>{}}});
}

}  // namespace stillheap::server
