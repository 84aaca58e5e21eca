#include <algorithm>

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "present/server/addresses.hpp"
#include "present/server/entry_json.hpp"
#include "present/server/guard.hpp"
#include "present/server/handlers.hpp"
#include "present/server/scratch.hpp"
#include "present/sheet/batch_record_page.hpp"
#include "present/sheet/labels_page.hpp"
#include "yard/record/calendar.hpp"
#include "yard/record/read.hpp"
#include "yard/state/state.hpp"

namespace stillheap::server {
namespace {

/// What may stand in a header and in a file's name: letters, digits, dots, dashes of the batch's own name.
std::string file_name(const std::string& batch) {
  std::string name;
  for (const char one : batch) {
    const bool plain = (one >= '0' && one <= '9') || (one >= 'a' && one <= 'z') || (one >= 'A' && one <= 'Z');
    name += plain || one == '.' || one == '-' ? one : '-';
  }
  return "batch-" + name + ".pdf";
}

UnitSystem units_of(const ServerContext& context, const Request& ask) {
  const auto asked = ask.query.find("units");
  if (asked == ask.query.end()) return context.site.units;
  return asked->second == "us" ? UnitSystem::us : UnitSystem::metric;
}

/// Where phones find this page: as this very page was opened, or by the first address of the network.
std::string phone_origin(const ServerContext& context, const Request& ask) {
  const auto host = ask.header.find("host");
  const std::string here = host == ask.header.end() ? "" : host->second;
  if (!here.empty() && !host_is_ours(here, false, ""))
    return (context.door->safety.tls ? "https://" : "http://") + here;
  const auto all = phone_addresses(context.door->safety, context.door->port);
  if (all.empty()) {
    throw InputError("labels", "need an address that phones can open", "start the server with --lan");
  }
  return all.front();
}

}  // namespace

Response send_batch_record(ServerContext& context, const Request& ask) {
  const auto store = context.stores.take();
  const auto fill = record::current<record::Fill>(*store, ask.named.at("fill"));
  if (!fill) throw NotThere{"no fill with this id stands in the records"};
  const auto vessel = record::current<record::Vessel>(*store, fill->vessel_id);
  const Scratch scratch("batch.pdf");
  sheet::write_batch_record(
      *store, fill->mark.thing, scratch.file(),
      {units_of(context, ask), record::here(), vessel ? yard::design_of(*vessel, &context.site) : nullptr});
  Response made;
  made.type = "application/pdf";
  made.body = read_whole_file(scratch.file());
  made.headers.emplace_back("Content-Disposition", "attachment; filename=\"" + file_name(fill->batch) + "\"");
  return made;
}

Response send_labels(ServerContext& context, const Request& ask) {
  const std::string origin = phone_origin(context, ask);
  std::vector<sheet::VesselLabel> labels;
  {
    const auto store = context.stores.take();
    for (const record::Vessel& one : record::all<record::Vessel>(*store)) {
      labels.push_back({one.name, origin + "/#/note/" + one.mark.thing});
    }
  }
  std::sort(labels.begin(), labels.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
  const Scratch scratch("labels.pdf");
  (void)sheet::write_labels(labels, scratch.file(), units_of(context, ask));
  Response made;
  made.type = "application/pdf";
  made.body = read_whole_file(scratch.file());
  made.headers.emplace_back("Content-Disposition", "attachment; filename=\"labels.pdf\"");
  return made;
}

Response send_calendar(ServerContext& context, const Request&) {
  const auto store = context.stores.take();
  Response made;
  made.type = "text/calendar; charset=utf-8";
  made.body = record::calendar_of(*store, record::now(), record::here(), context.rhythm);
  made.headers.emplace_back("Content-Disposition", "attachment; filename=\"yard.ics\"");
  return made;
}

Response get_lots(ServerContext& context, const Request&) {
  const auto store = context.stores.take();
  Json lots = Json::array();
  for (const record::Lot& one : record::all<record::Lot>(*store)) lots.push_back(to_json(one));
  return answer({{"lots", lots}});
}

}  // namespace stillheap::server
