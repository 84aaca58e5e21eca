#include "record_command.hpp"

#include "commands.hpp"

namespace stillheap::app {

void add_record(CLI::App& app) {
  CLI::App* record = app.add_subcommand("record", "Note what happened: a fill, a reading, an event, a test, a photo");
  record->require_subcommand(1);
  record->footer(R"(Examples:
  stillheap record vessel yard --name "North 1" --by ab
  stillheap record fill yard --vessel "North 1" --batch 2026-1 --by ab
  stillheap record reading yard --vessel "North 1" --temperature "131 degF" --place core --depth "18 in" --by ab
  stillheap record event yard --vessel "North 1" --kind sprinkled --volume "40 L" --by ab
  stillheap record reading yard ... --corrects ID --why "misread the dial"
Nothing is ever overwritten: a correction keeps the old entry, and "record history" shows both.
)");
  add_record_people_and_vessels(*record);
  add_record_feedstock(*record);
  add_record_reading(*record);
  add_record_event(*record);
  add_record_results(*record);
  add_record_photo(*record);
  add_record_history(*record);
}

}  // namespace stillheap::app
