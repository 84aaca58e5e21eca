#pragma once
#include <array>
#include <functional>
#include <string>
#include <vector>

#include "core/base/note.hpp"
#include "domain/material/finder.hpp"
#include "domain/rules/hygiene.hpp"
#include "domain/vessel/air_path.hpp"
#include "domain/vessel/clash.hpp"
#include "domain/vessel/loads.hpp"
#include "domain/vessel/parts.hpp"
#include "model/forecast/request.hpp"
#include "model/forecast/result.hpp"
#include "planning/cut/job.hpp"
#include "planning/fill/fill.hpp"
#include "planning/site/site.hpp"
#include "planning/supply/outcome.hpp"
#include "planning/water/line.hpp"
#include "planning/water/programme.hpp"

namespace stillheap::plan {

/// One priced line of the shopping list, for all vessels together.
struct PricedPiece {
  vessel::Piece piece;
  int count = 0;            ///< all vessels
  double amount = 0.0;      ///< of `amount_unit`, for the price
  std::string amount_unit;  ///< "m2", "m", "each", "kg"
  double cost = 0.0;        ///< 0 when no price is given
  bool priced = false;
  bool stock = false;  ///< a whole panel, roll, board or pipe; its pieces are in the cut list
};

/// A size of stock that is weighed against those used.
struct OtherSize {
  cut::Stock stock;
  cut::JobCuts cuts;        ///< the same pieces from it alone
  double diameter_m = 0.0;  ///< mesh: of the ring one panel of it makes; 0: not a round cage, or no mesh
  double height_m = 0.0;    ///< mesh: the brim it allows, its width
  double volume_m3 = 0.0;   ///< mesh: of material then, as much below the brim as drawn
};

/// One material cut for all vessels.
struct MaterialCuts {
  cut::Job job;
  cut::JobCuts cuts;
  std::vector<OtherSize> others;
};

/// The hygiene rules on the forecast's temperatures. Forecast, not proof: measure.
struct HygieneOutlook {
  std::vector<rules::Verdict> core;     ///< judged on the core temperature
  std::vector<rules::Verdict> coldest;  ///< judged on the coldest place: the rules speak of all material
  double core_lethality = 0.0;          ///< summed dt/D, an engineering convention
  [[nodiscard]] bool met_everywhere() const noexcept;
};

/// When the compost is taken out, days since filling. The early end is only reached when the heap has cooled.
struct Harvest {
  double early_day = 0.0;
  double late_day = 0.0;
  bool cooled_in_forecast = false;  ///< false: self-heating does not end within the forecast; days of common practice
};

/// When worms can go in, by rules::worms on the forecast's middle line and the site's weather. The one home of that
/// day: calendar, answer, year plan, files and page read it. Early and late: for the ends of the band of `cool_day`.
struct WormWindow {
  std::optional<double> early_day, day, late_day;  ///< all or none
  std::string why_none;                            ///< why there is no such day within the forecast
};

/// What is left in the vessel on the forecast's last day.
enum class EndState { finished, working, hardly_decayed, never_heated };
[[nodiscard]] EndState end_state(const forecast::Summary& summary) noexcept;
/// "Finished compost", "Compost, still heating", "Hardly decayed material", "Material that never heated"
[[nodiscard]] std::string_view words_of(EndState state) noexcept;

/// One kind of vessel, all that is worked out for it.
struct VesselPlan {
  vessel::Design design;
  vessel::AirPath air_path;
  std::vector<vessel::Clash> warnings;           ///< channels over slats
  std::optional<vessel::Suggestion> suggestion;  ///< when the longest air path is over the wanted one
  vessel::Loads loads;                           ///< just soaked
  vessel::Loads loads_waterlogged;               ///< were every pore full: the most it can weigh
  std::vector<vessel::Piece> pieces;
  material::Blend blend_as_delivered;  ///< amounts for one vessel
  material::Blend blend_soaked;
  fill::FillPlan fill;
  water::LineFlow line_flow;
  water::Programme programme;                    ///< what is put on; the forecast runs exactly this
  std::vector<forecast::Banded> drained_kg_day;  ///< by the forecast, mean of each row of the programme
  double drain_conductivity_s_m = 0.0;           ///< of what drains, mean of the run
  forecast::OwnReadings own;                     ///< what the forecast starts from beside the site file
  forecast::Result forecast;
  HygieneOutlook hygiene;
  Harvest harvest;
  WormWindow worms;
};

/// A dated line of the calendar.
struct CalendarEntry {
  std::string date;         ///< ISO
  std::string latest_date;  ///< ISO, end of the band; empty when sharp
  std::string what;
  std::string vessel;
};

struct Caution {
  std::string place;  ///< step of the work it belongs to: "filling", "hot phase", ...
  std::string text;
  std::string source;
};

/// Work over the first year, all vessels.
struct LabourLine {
  std::string what;
  double hours = 0.0;
  double cost = 0.0;
};

struct Plan {
  site::Site site;
  std::optional<std::string>
      stopped;                   ///< where the user stopped it; then only `vessels` holds what was forecast so far
  int vessels_needed = 0;        ///< for the middle line of the forecast
  int vessels_needed_low = 0;    ///< if the losses are the least of the band
  int vessels_needed_high = 0;   ///< if they are the most
  forecast::Banded finished_m3;  ///< a year, all vessels, one fill each
  weather::Series weather;
  bool blend_was_found = false;  ///< by the linear programme; otherwise fixed shares
  material::Found found;
  std::vector<VesselPlan> vessels;
  std::vector<MaterialCuts> cutting;  ///< of the materials the site file names stock for, suited or not
  std::vector<PricedPiece> shopping;  ///< what is bought: stock where it is named, cut sizes where not
  std::vector<PricedPiece> feedstock_shopping;
  double material_cost = 0.0;
  std::vector<LabourLine> labour;
  double labour_cost = 0.0;
  double labour_hours = 0.0;
  std::vector<CalendarEntry> calendar;
  std::optional<supply::Outcome> supply;  ///< the yard plan, where the site file wants one
  std::vector<Caution> cautions;
  Warnings warnings;
  Assumptions assumptions;  ///< site defaults, weather, model: everything
};

/// Called now and then with the work done (0..1) and what is being done; false asks to stop.
using Progress = std::function<bool(double share, const std::string& what)>;

/// What turns a request into a forecast; tests put a small one in its place.
using ForecastFunction = std::function<forecast::Result(const forecast::Request& request, const Progress& progress)>;

/// The forecast engine. `most_threads` for one forecast; 0: as many as there are processors.
[[nodiscard]] ForecastFunction forecast_engine(unsigned most_threads = 0);

/// The whole way from a checked site to a plan, forecasts included. When progress asks to stop, the plan says so and
/// is not finished. Throws InputError when no blend meets the limits.
[[nodiscard]] Plan make_plan(const site::Site& site, const Progress& progress,
                             const ForecastFunction& forecast = forecast_engine());

}  // namespace stillheap::plan
