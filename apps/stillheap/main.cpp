#include <cstdio>
#include <exception>
#include <string>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "core/base/printable.hpp"
#include "restore_command.hpp"

namespace {

constexpr int input_code = 2;
constexpr int fault_code = 1;

constexpr const char* examples = R"(Examples:
  stillheap init yard              write yard/site.toml with comments to start from
  stillheap init yard --us         the same in US customary units
  stillheap check yard             read yard/site.toml and tell what it means or what is wrong
  stillheap plan yard -o out       plan it, forecast it, write the pack to print and all records
  stillheap forecast yard -o out --grid draft --days 120
                                   the forecast alone, quick and short
  stillheap sweep study.toml -o out
                                   one site many times with values varied: sizes, channels, blends
  stillheap record reading yard --vessel "North 1" --temperature "131 degF" --place core --by ab
                                   note a reading; see: stillheap record --help
  stillheap today yard             what is due, by the records and the plan
  stillheap reference              every key of a site file, as Markdown

  stillheap forecast yard -o out --resume
                                   go on with a run that was stopped

Each command has its own --help. Exit codes: 0 done, 2 the input is wrong (nothing was written), 1 fault; 130 (Ctrl-C)
and 143 (SIGTERM) stopped on request: what was done is written, and --resume goes on.
)";

/// A mistyped command reads as a missing one: name those there are.
std::string explain(const CLI::App* app, const CLI::Error& error) {
  std::string text = std::string(error.what()) + '\n';
  std::string names;
  for (const CLI::App* command : app->get_subcommands([](const CLI::App*) { return true; })) {
    names += (names.empty() ? "" : ", ") + command->get_name();
  }
  if (!names.empty()) text += "commands: " + names + '\n';
  return text + "see: stillheap --help\n";
}

int run(int argc, char** argv) {
  CLI::App app{"Plans and forecasts static, passively aerated compost from one site file."};
  app.name("stillheap");
  app.set_version_flag("--version", STILLHEAP_VERSION);
  app.require_subcommand(1);
  app.footer(examples);
  app.failure_message(explain);
  stillheap::app::add_init(app);
  stillheap::app::add_check(app);
  stillheap::app::add_plan(app);
  stillheap::app::add_sheets(app);
  stillheap::app::add_forecast(app);
  stillheap::app::add_sweep(app);
  stillheap::app::add_record(app);
  stillheap::app::add_import(app);
  stillheap::app::add_export(app);
  stillheap::app::add_restore(app);
  stillheap::app::add_status(app);
  stillheap::app::add_today(app);
  stillheap::app::add_calibrate(app);
  stillheap::app::add_serve(app);
  stillheap::app::add_reference(app);
  try {
    app.parse(argc, argv);
  } catch (const CLI::RuntimeError& error) {
    return error.get_exit_code();  // stopped by a signal; all has been said
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : input_code;  // a wrong command line is wrong input too
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const stillheap::InputError& error) {
    std::fprintf(stderr, "%s\n", stillheap::printable(error.what()).c_str());
    return input_code;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "fault: %s\n", stillheap::printable(error.what()).c_str());
    return fault_code;
  }
}
