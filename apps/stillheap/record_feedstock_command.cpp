#include "record_command.hpp"
#include "record_options.hpp"

namespace stillheap::app {
namespace {

struct LotOptions : RecordOptions {
  record::Lot lot;
  std::string mass;
};

void record_lot(const LotOptions& options) {
  record::Store store = open_to_note(options, true);
  record::Lot lot = options.lot;
  lot.received_at = time_of(store, options, &record::Lot::received_at);
  lot.mass_wet_kg = maybe(options.mass, Dimension::mass, "--mass");
  store_entry(options, store, lot, "lot", lot.name);
}

struct UseOptions : RecordOptions {
  FillChoice fill;
  std::string lot, mass;
};

void record_use(const UseOptions& options) {
  record::Store store = open_to_note(options, false);
  record::LotUse use;
  const record::Fill fill = find_fill(store, options.fill);
  use.fill_id = fill.mark.thing;
  use.lot_id = id_of_name(store, options.lot, &record::Lot::name, "--lot");
  use.mass_wet_kg = quantity::parse(options.mass, Dimension::mass, "--mass");
  const std::string what = options.mass + " of " + options.lot + " into " + fill.batch;
  store_entry(options, store, use, "use", what);
}

}  // namespace

void add_record_feedstock(CLI::App& record) {
  const auto lot = std::make_shared<LotOptions>();
  CLI::App* command = record.add_subcommand("lot", "A delivery of feedstock");
  add_entry_options(*command, *lot);
  command->add_option("--name", lot->lot.name, "Name of the lot")->required();
  command->add_option("--feedstock", lot->lot.feedstock, "Its id in the site file");
  command->add_option("--supplier", lot->lot.supplier, "Where it came from");
  command->add_option("--mass", lot->mass, "Mass as delivered, \"800 kg\"");
  command->add_option("--note", lot->lot.note, "Anything else");
  command->callback([lot] { record_lot(*lot); });

  const auto use = std::make_shared<UseOptions>();
  command = record.add_subcommand("use", "How much of a lot went into a fill");
  add_entry_options(*command, *use);
  add_fill_options(*command, use->fill);
  command->add_option("--lot", use->lot, "The lot, by name or id")->required();
  command->add_option("--mass", use->mass, "Mass as delivered, \"300 kg\"")->required();
  command->callback([use] { record_use(*use); });
}

}  // namespace stillheap::app
