#include <cstdio>
#include <nlohmann/json.hpp>

#include "record_command.hpp"
#include "record_options.hpp"
#include "yard/record/entity.hpp"

namespace stillheap::app {
namespace {

using nlohmann::ordered_json;

struct HistoryOptions : RecordOptions {
  std::string entry;
};

void record_withdrawal(const HistoryOptions& options) {
  record::Store store = open_to_note(options, false);
  ask_back(options, record::withdrawal_doubts(store, options.entry));
  print_stored(options, "withdrawal", record::withdraw(store, options.entry, mark_of(options)), options.why);
}

ordered_json statement_json(const record::Statement& one) {
  ordered_json json = {{"id", one.mark.id},
                       {"by", one.mark.by},
                       {"stored", record::to_utc_text(one.mark.stored_at)},
                       {"reason", one.mark.reason},
                       {"withdrawn", one.mark.withdrawn}};
  for (const auto& [name, text] : one.contents) json["content"][name] = text;
  return json;
}

void print_history(const HistoryOptions& options) {
  const record::Store store = open_store(options, false);
  const std::vector<record::Statement> told = record::statements(store, options.entry);
  if (options.json) {
    ordered_json list = ordered_json::array();
    for (const record::Statement& one : told) list.push_back(statement_json(one));
    std::printf("%s\n", list.dump(2).c_str());
    return;
  }
  for (const record::Statement& one : told) {
    std::printf("%s  %s by %s", one.mark.id.c_str(), record::to_utc_text(one.mark.stored_at).c_str(),
                one.mark.by.c_str());
    if (!one.mark.reason.empty()) {
      std::printf(", %s: %s", one.mark.withdrawn ? "withdrawn" : "corrected", one.mark.reason.c_str());
    }
    std::printf("\n");
    for (const auto& [name, text] : one.contents) {
      if (!text.empty()) std::printf("  %s = %s\n", name.c_str(), text.c_str());
    }
  }
}

}  // namespace

void add_record_history(CLI::App& record) {
  const auto withdrawal = std::make_shared<HistoryOptions>();
  CLI::App* command = record.add_subcommand("withdraw", "Take an entry back; it stays in the history");
  add_who_options(*command, *withdrawal);
  command->add_option("ID", withdrawal->entry, "Id of the entry")->required();
  command->add_option("--why", withdrawal->why, "Why")->required();
  add_sure_option(*command, *withdrawal);
  command->callback([withdrawal] { record_withdrawal(*withdrawal); });

  const auto history = std::make_shared<HistoryOptions>();
  command = record.add_subcommand("history", "Every statement about one entry, corrected ones too");
  add_site_options(*command, *history);
  command->add_option("ID", history->entry, "Id of the entry, or of any correction of it")->required();
  command->callback([history] { print_history(*history); });
}

}  // namespace stillheap::app
