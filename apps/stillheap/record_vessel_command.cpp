#include "record_command.hpp"
#include "record_options.hpp"

namespace stillheap::app {
namespace {

void add_person(CLI::App& record) {
  struct Options : RecordOptions {
    record::Person person;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = record.add_subcommand("person", "The name behind initials");
  add_entry_options(*command, *options);
  command->add_option("--initials", options->person.initials, "Initials")->required();
  command->add_option("--name", options->person.name, "Name in full")->required();
  command->callback([options] {
    record::Store store = open_to_note(*options, true);
    store_entry(*options, store, options->person, "person", options->person.name);
  });
}

void add_vessel(CLI::App& record) {
  struct Options : RecordOptions {
    record::Vessel vessel;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = record.add_subcommand("vessel", "A vessel that stands in the yard");
  add_entry_options(*command, *options);
  command->add_option("--name", options->vessel.name, "Name on its label")->required();
  command->add_option("--design", options->vessel.design, "Name of its design in the site file");
  command->add_option("--note", options->vessel.note, "Anything else");
  command->callback([options] {
    record::Store store = open_to_note(*options, true);
    store_entry(*options, store, options->vessel, "vessel", options->vessel.name);
  });
}

struct FillOptions : RecordOptions {
  record::Fill fill;
  std::string vessel, volume, moisture;
  double carbon_to_nitrogen = 0.0;
};

/// What a correction does not name stays as it was.
void keep_unnamed(record::Fill& fill, const record::Fill& corrected) {
  if (!fill.volume_m3) fill.volume_m3 = corrected.volume_m3;
  if (!fill.moisture_wet) fill.moisture_wet = corrected.moisture_wet;
  if (!fill.carbon_to_nitrogen) fill.carbon_to_nitrogen = corrected.carbon_to_nitrogen;
  if (fill.note.empty()) fill.note = corrected.note;
}

void record_fill(const FillOptions& options) {
  record::Store store = open_to_note(options, true);
  record::Fill fill = options.fill;
  fill.vessel_id = id_of_name(store, options.vessel, &record::Vessel::name, "--vessel");
  fill.filled_at = time_of(store, options, &record::Fill::filled_at);
  fill.volume_m3 = maybe(options.volume, Dimension::volume, "--volume");
  fill.moisture_wet = maybe(options.moisture, Dimension::fraction, "--moisture");
  if (options.carbon_to_nitrogen > 0.0) fill.carbon_to_nitrogen = options.carbon_to_nitrogen;
  if (const auto corrected =
          options.corrects.empty() ? std::nullopt : record::current<record::Fill>(store, options.corrects))
    keep_unnamed(fill, *corrected);
  const std::string what =
      "batch " + fill.batch + ", filled " + record::to_local_text(fill.filled_at, zone_of(options));
  store_entry(options, store, fill, "fill", what);
}

void add_fill(CLI::App& record) {
  const auto options = std::make_shared<FillOptions>();
  CLI::App* command = record.add_subcommand("fill", "A vessel was filled");
  add_entry_options(*command, *options);
  command->add_option("--vessel", options->vessel, "The vessel, by name or id")->required();
  command->add_option("--batch", options->fill.batch, "Name of the batch")->required();
  command->add_option("--volume", options->volume, "Volume filled, \"1.1 m3\"");
  command->add_option("--moisture", options->moisture, "Moisture after soaking, wet basis, \"65 %\"");
  command->add_option("--carbon-to-nitrogen", options->carbon_to_nitrogen, "C:N of the blend, from total carbon")
      ->check(CLI::PositiveNumber);
  command->add_option("--note", options->fill.note, "Anything else");
  command->callback([options] { record_fill(*options); });
}

}  // namespace

void add_record_people_and_vessels(CLI::App& record) {
  add_person(record);
  add_vessel(record);
  add_fill(record);
}

}  // namespace stillheap::app
