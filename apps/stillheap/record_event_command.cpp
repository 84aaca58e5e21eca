#include "core/base/error.hpp"
#include "record_command.hpp"
#include "record_options.hpp"

namespace stillheap::app {
namespace {

struct EventOptions : RecordOptions {
  FillChoice fill;
  std::string kind, volume, mass, duration, note;
};

std::string kind_names() {
  std::string names;
  for (const record::EventInfo& kind : record::event_kinds()) {
    names += (names.empty() ? "" : ", ") + std::string(kind.key);
  }
  return names;
}

void record_event(const EventOptions& options) {
  record::Store store = open_to_note(options, false);
  record::Event event;
  const auto kind = record::event_kind_of(options.kind);
  if (!kind) throw InputError("--kind", "= \"" + options.kind + "\" is not known", "use one of " + kind_names());
  event.kind = *kind;
  const record::Fill fill = find_fill(store, options.fill);
  check_clock(options, fill);
  event.fill_id = fill.mark.thing;
  event.at = time_of(store, options, &record::Event::at);
  event.volume_m3 = maybe(options.volume, Dimension::volume, "--volume");
  event.mass_kg = maybe(options.mass, Dimension::mass, "--mass");
  event.duration_s = maybe(options.duration, Dimension::duration, "--duration");
  event.note = options.note;
  const std::string what = fill.batch + ", " + std::string(record::info(*kind).words) + ", " +
                           record::to_local_text(event.at, zone_of(options));
  store_entry(options, store, event, "event", what);
}

}  // namespace

void add_record_event(CLI::App& record) {
  const auto options = std::make_shared<EventOptions>();
  CLI::App* command = record.add_subcommand("event", "What was done to a fill");
  add_entry_options(*command, *options);
  add_fill_options(*command, options->fill);
  command->add_option("--kind", options->kind, kind_names())->required();
  command->add_option("--volume", options->volume, "Volume of water or compost, \"40 L\"");
  command->add_option("--mass", options->mass, "Mass, \"2 kg\" of worms");
  command->add_option("--duration", options->duration, "How long, \"3 min\" of water");
  command->add_option("--note", options->note, "Anything else");
  command->callback([options] { record_event(*options); });
}

}  // namespace stillheap::app
