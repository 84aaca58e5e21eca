#include <array>

#include "core/base/error.hpp"
#include "record_command.hpp"
#include "record_options.hpp"

namespace stillheap::app {
namespace {

struct ReadingOptions : RecordOptions {
  FillChoice fill;
  std::array<std::string, 6> values;  ///< in the order of record::measures()
  std::string place, depth, height, radius, angle;
};

/// "--carbon-dioxide" for carbon_dioxide.
std::string option_name(const record::MeasureInfo& measure) {
  std::string name = "--" + std::string(measure.key);
  for (char& c : name) {
    if (c == '_') c = '-';
  }
  return name;
}

record::Place place_of(const ReadingOptions& options) {
  return {options.place, maybe(options.angle, Dimension::angle, "--angle"),
          maybe(options.radius, Dimension::length, "--radius"), maybe(options.depth, Dimension::length, "--depth"),
          maybe(options.height, Dimension::length, "--height")};
}

/// As written; of a correction that names none, where the probe of the corrected reading stood.
record::Place place_of(const record::Store& store, const ReadingOptions& options) {
  const bool named = !(options.place + options.depth + options.height + options.radius + options.angle).empty();
  if (!named && !options.corrects.empty()) {
    if (const auto corrected = record::current<record::Reading>(store, options.corrects)) return corrected->place;
  }
  return place_of(options);
}

std::vector<record::Reading> readings_of(const record::Store& store, const ReadingOptions& options,
                                         const std::string& fill_id) {
  std::vector<record::Reading> readings;
  for (const record::MeasureInfo& measure : record::measures()) {
    const std::string& written = options.values[static_cast<std::size_t>(measure.measure)];
    if (written.empty()) continue;
    record::Reading one;
    one.mark = mark_of(options);
    one.fill_id = fill_id;
    one.measure = measure.measure;
    one.value = record::parse_value(measure.measure, written, option_name(measure));
    one.at = time_of(store, options, &record::Reading::at);
    one.place = place_of(store, options);
    one.written = written;
    readings.push_back(std::move(one));
  }
  if (readings.empty()) {
    throw InputError("record reading", "names no value", "give one, for example --temperature \"55 degC\"");
  }
  if (readings.size() > 1 && !(options.id.empty() && options.corrects.empty())) {
    throw InputError("record reading", "gives several values for one id", "give one value with --id or --corrects");
  }
  return readings;
}

void record_readings(const ReadingOptions& options) {
  record::Store store = open_to_note(options, false);
  const record::Fill fill = find_fill(store, options.fill);
  check_clock(options, fill);
  const std::vector<record::Reading> readings = readings_of(store, options, fill.mark.thing);
  record::Doubts unlikely;
  const record::YardFacts facts = options.sure ? record::YardFacts{} : facts_of(options);
  for (const record::Reading& one : readings) {
    record::refuse_impossible(one);
    for (const Problem& doubt : record::doubts(store, one, facts)) unlikely.push_back(doubt);
  }
  ask_back(options, std::move(unlikely));
  std::vector<record::Stored> stored;
  stored.reserve(readings.size());
  record::Transaction together(store);
  for (const record::Reading& one : readings) stored.push_back(record::add(store, one));
  together.commit();
  const UnitSystem units = units_of(options);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const record::Reading& one = readings[i];
    print_stored(options, "reading", stored[i],
                 record::value_text(one.measure, one.value, units) + ", " + record::words(one.place, units) + ", " +
                     record::to_local_text(one.at, zone_of(options)));
  }
}

}  // namespace

void add_record_reading(CLI::App& record) {
  const auto options = std::make_shared<ReadingOptions>();
  CLI::App* command = record.add_subcommand("reading", "What a probe showed; several values at once when wanted");
  add_entry_options(*command, *options);
  add_fill_options(*command, options->fill);
  for (const record::MeasureInfo& measure : record::measures()) {
    command->add_option(option_name(measure), options->values[static_cast<std::size_t>(measure.measure)],
                        record::allowed_text(measure.measure));
  }
  command->add_option("--place", options->place, "Name of the place, \"core\"");
  command->add_option("--depth", options->depth, "Depth below the top of the heap, \"18 in\"");
  command->add_option("--height", options->height, "Height above its base");
  command->add_option("--radius", options->radius, "Distance from the middle");
  command->add_option("--angle", options->angle, "Angle in plan, from east counter-clockwise, \"90 deg\"");
  command->callback([options] { as_options([&] { record_readings(*options); }); });
}

}  // namespace stillheap::app
