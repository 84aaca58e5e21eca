#include <set>

#include "core/base/error.hpp"
#include "planning/plan/forecast_files.hpp"
#include "planning/plan/staged_folder.hpp"
#include "present/template/template_drawing.hpp"

namespace stillheap::sheet {

std::vector<std::filesystem::path> write_templates(const plan::Plan& plan, const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  std::set<std::string> taken;
  for (const plan::VesselPlan& vessel : plan.vessels) {
    if (vessel.design.channels.empty()) continue;
    std::error_code fault;
    std::filesystem::create_directories(folder, fault);
    if (fault) throw RunError(folder.string(), "the folder for the templates cannot be made", "choose another folder");
    std::string name = plan::folder_name(vessel.design.name);
    for (int i = 2; !taken.insert(name).second; ++i) {
      name = plan::folder_name(vessel.design.name) + "-" + std::to_string(i);
    }
    const TemplateDrawing drawing = template_drawing(vessel.design, plan.site.units);
    const auto file = [&](const std::string& end) {
      files.push_back(folder / (name + end));
      return files.back();
    };
    write_tiled_template(drawing, paper_for(UnitSystem::metric), plan.site.start_date, file("-tiles-A4.pdf"));
    write_tiled_template(drawing, paper_for(UnitSystem::us), plan.site.start_date, file("-tiles-Letter.pdf"));
    write_large_template(drawing, plan.site.start_date, file("-large.pdf"));
    plan::write_text(file("-mm.svg"), template_svg(drawing));
    plan::write_text(file("-mm.dxf"), template_dxf(drawing));
  }
  return files;
}

}  // namespace stillheap::sheet
