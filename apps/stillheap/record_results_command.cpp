#include "record_command.hpp"
#include "record_options.hpp"

namespace stillheap::app {
namespace {

struct LabOptions : RecordOptions {
  FillChoice fill;
  std::string lot;
  record::LabTest test;
};

void record_lab(const LabOptions& options) {
  record::Store store = open_to_note(options, false);
  record::LabTest test = options.test;
  if (options.lot.empty()) {
    test.fill_id = find_fill(store, options.fill).mark.thing;
  } else {
    test.lot_id = id_of_name(store, options.lot, &record::Lot::name, "--lot");
  }
  test.sampled_at = time_of(store, options, &record::LabTest::sampled_at);
  store_entry(options, store, test, "laboratory test", test.key + ", " + test.unit);
}

struct SpreadingOptions : RecordOptions {
  FillChoice fill;
  std::string where, volume, area, note;
};

void record_spreading(const SpreadingOptions& options) {
  record::Store store = open_to_note(options, false);
  record::Spreading spreading;
  const record::Fill fill = find_fill(store, options.fill);
  spreading.fill_id = fill.mark.thing;
  spreading.at = time_of(store, options, &record::Spreading::at);
  spreading.where = options.where;
  spreading.volume_m3 = maybe(options.volume, Dimension::volume, "--volume");
  spreading.area_m2 = maybe(options.area, Dimension::area, "--area");
  spreading.note = options.note;
  store_entry(options, store, spreading, "spreading", fill.batch + ", " + spreading.where);
}

}  // namespace

void add_record_results(CLI::App& record) {
  const auto lab = std::make_shared<LabOptions>();
  CLI::App* command = record.add_subcommand("lab", "One value of a laboratory; --at is when the sample was taken");
  add_entry_options(*command, *lab);
  add_fill_options(*command, lab->fill);
  command->add_option("--lot", lab->lot, "The lot that was tested, instead of a fill");
  command->add_option("--key", lab->test.key, "What was measured, \"arsenic\"")->required();
  command->add_option("--value", lab->test.value, "The number")->required();
  command->add_option("--unit", lab->test.unit, "Its unit and basis, \"mg/kg dry\"")->required();
  command->add_option("--laboratory", lab->test.laboratory, "Who measured");
  command->add_option("--method", lab->test.method, "By which method");
  command->add_option("--note", lab->test.note, "Anything else");
  command->callback([lab] { record_lab(*lab); });

  const auto spreading = std::make_shared<SpreadingOptions>();
  command = record.add_subcommand("spreading", "Finished compost was brought out");
  add_entry_options(*command, *spreading);
  add_fill_options(*command, spreading->fill);
  command->add_option("--where", spreading->where, "Bed or field")->required();
  command->add_option("--volume", spreading->volume, "Volume, \"0.4 m3\"");
  command->add_option("--area", spreading->area, "Area, \"80 m2\"");
  command->add_option("--note", spreading->note, "Anything else");
  command->callback([spreading] { record_spreading(*spreading); });
}

}  // namespace stillheap::app
