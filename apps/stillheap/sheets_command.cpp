#include <fmt/format.h>

#include <memory>

#include "commands.hpp"
#include "planning/plan/records.hpp"
#include "planning/plan/sheet_plan.hpp"
#include "planning/plan/staged_folder.hpp"
#include "planning/plan/warnings.hpp"
#include "planning/site/site.hpp"
#include "present/sheet/pack.hpp"
#include "present/template/template_drawing.hpp"
#include "site_path.hpp"

namespace stillheap::app {
namespace {

struct SheetsOptions {
  std::string site;
  std::filesystem::path out;
};

void write_sheets(const SheetsOptions& options) {
  const plan::Plan plan = plan::plan_for_sheets(site::read_site(site_file(options.site)));
  plan::StagedFolder folder(options.out);
  const std::size_t templates = sheet::write_templates(plan, folder.path() / "template").size();
  const int pages = sheet::write_building_sheets(plan, folder.path() / "building.pdf");
  plan::write_supply(plan, folder.path());
  folder.commit();
  fmt::print(
      "Written to {}: building.pdf, {} pages of drawings and work order; template/ with {} drilling templates (PDF, "
      "SVG, DXF).\n",
      options.out.string(), pages, templates);
  if (plan.supply) {
    fmt::print("Yard plan: {} places, {} fillings a year{}; supply.csv, supply.ics.\n", plan.supply->plan.places,
               plan.supply->plan.fills_a_year,
               plan.supply->met ? "" : ", short of what is wanted (see its page in building.pdf)");
  }
  fmt::print("{}", plan::warning_lines(plan.warnings));
}

}  // namespace

void add_sheets(CLI::App& app) {
  const auto options = std::make_shared<SheetsOptions>();
  CLI::App* command =
      app.add_subcommand("sheets",
                         "Write the workshop's sheets without a forecast: drawings, work order and drilling "
                         "templates at true scale, in a second or two");
  command->add_option("SITE", options->site, "Site file, or a folder with site.toml")->required();
  command->add_option("-o,--output", options->out, "Folder to write into; it is made if it does not exist")
      ->required()
      ->type_name("DIR");
  command->callback([options] { write_sheets(*options); });
}

}  // namespace stillheap::app
