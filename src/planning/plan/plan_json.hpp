#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "planning/plan/plan.hpp"

/// The plan as JSON: SI numbers with their unit in the key, keys always in the same order, null where a number
/// is unknown or not finite. `schema_version` goes up when a key changes its meaning or goes away.
/// 4: `water.programme` by half-month takes the place of `water.months`.
/// 3: `shopping` lists whole stock where the site file names it; its pieces are in `cutting`.
namespace stillheap::plan {

inline constexpr int plan_schema_version = 4;

using Json = nlohmann::ordered_json;

/// The whole plan but for the forecast's fields and history, which have files of their own.
[[nodiscard]] Json to_json(const Plan& plan);

/// The answer on one page, for `--json` and scripts.
[[nodiscard]] Json summary_json(const Plan& plan);

/// The water programme of one vessel with what drains: the same in plan.json, forecast.json and on the page.
[[nodiscard]] Json programme_json(const VesselPlan& vessel);

/// Indented text with a line end. Bytes that are not UTF-8 are replaced.
[[nodiscard]] std::string to_text(const Json& json);

}  // namespace stillheap::plan
