#include "planning/plan/forecast_files.hpp"

#include <nlohmann/json.hpp>

#include "model/forecast/output.hpp"
#include "planning/plan/plan_json.hpp"
#include "planning/plan/staged_folder.hpp"

namespace stillheap::plan {

std::string folder_name(const std::string& name) {
  std::string clean;
  for (const char c : name) {
    const bool keep = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    if (keep) {
      clean += c;
    } else if (!clean.empty() && clean.back() != '-') {
      clean += '-';
    }
  }
  while (!clean.empty() && clean.back() == '-') clean.pop_back();
  return clean.empty() ? "vessel" : clean;
}

void write_forecast_files(const Plan& plan, const std::filesystem::path& folder) {
  Json all = {{"schema", "stillheap forecast"},
              {"schema_version", plan_schema_version},
              {"stopped_by_user", plan.stopped ? Json(*plan.stopped) : Json(nullptr)},
              {"forecasts", Json::array()}};
  for (const VesselPlan& vessel : plan.vessels) {
    const std::string name = folder_name(vessel.design.name);
    const std::filesystem::path own = folder / "forecast" / name;
    std::filesystem::create_directories(own);
    forecast::write_history_csv(vessel.forecast, own / "history.csv");
    forecast::write_fields(vessel.forecast, own / "fields");
    all["forecasts"].push_back({{"vessel", vessel.design.name},
                                {"folder", "forecast/" + name},
                                {"water_programme", programme_json(vessel)},
                                {"forecast", forecast::to_json(vessel.forecast)}});
  }
  write_text(folder / "forecast.json", to_text(all));
}

}  // namespace stillheap::plan
