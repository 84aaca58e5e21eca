#pragma once
#include <functional>
#include <string>
#include <vector>

#include "base/note.hpp"
#include "fill/fill.hpp"
#include "forecast/result.hpp"
#include "material/finder.hpp"
#include "site/site.hpp"
#include "vessel/air_path.hpp"
#include "vessel/clash.hpp"
#include "vessel/loads.hpp"
#include "vessel/parts.hpp"
#include "water/need.hpp"

namespace stillheap::plan {

/// One priced line of the shopping list, for all vessels together.
struct PricedPiece {
  vessel::Piece piece;
  int count = 0;              ///< all vessels
  double amount = 0.0;        ///< of `amount_unit`, for the price
  std::string amount_unit;    ///< "m2", "m", "each", "kg"
  double cost = 0.0;          ///< 0 when no price is given
  bool priced = false;
};

/// One kind of vessel, all that is worked out for it.
struct VesselPlan {
  vessel::Design design;
  vessel::AirPath air_path;
  std::vector<vessel::Clash> warnings;         ///< channels over slats
  std::optional<vessel::Suggestion> suggestion;  ///< when the longest air path is over the wanted one
  vessel::Loads loads;
  std::vector<vessel::Piece> pieces;
  material::Blend blend_as_delivered;          ///< amounts for one vessel
  material::Blend blend_soaked;
  fill::FillPlan fill;
  water::LineFlow line_flow;
  water::MonthlyWater water;
  forecast::Result forecast;
};

/// A dated line of the calendar.
struct CalendarEntry {
  std::string date;           ///< ISO
  std::string latest_date;    ///< ISO, end of the band; empty when sharp
  std::string what;
  std::string vessel;
};

struct Caution {
  std::string place;          ///< step of the work it belongs to: "filling", "hot phase", ...
  std::string text;
};

struct Plan {
  site::Site site;
  int vessels_needed = 0;
  bool blend_was_found = false;     ///< by the linear programme; otherwise fixed shares
  material::Found found;
  std::vector<VesselPlan> vessels;
  std::vector<PricedPiece> shopping;
  std::vector<PricedPiece> feedstock_shopping;
  double material_cost = 0.0;
  double labour_cost = 0.0;
  double labour_hours = 0.0;
  std::vector<CalendarEntry> calendar;
  std::vector<Caution> cautions;
  Warnings warnings;
  Assumptions assumptions;          ///< site defaults, weather, model: everything
};

/// Called now and then with the work done (0..1) and what is being done.
using Progress = std::function<void(double share, const std::string& what)>;

/// The whole way from a checked site to a plan, forecasts included.
[[nodiscard]] Plan make_plan(const site::Site& site, const Progress& progress);

}  // namespace stillheap::plan
