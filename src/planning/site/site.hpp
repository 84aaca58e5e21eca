#pragma once
#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/note.hpp"
#include "core/quantity/quantity.hpp"
#include "domain/material/finder.hpp"
#include "domain/vessel/design.hpp"
#include "domain/vessel/loads.hpp"
#include "domain/weather/series.hpp"
#include "model/forecast/request.hpp"
#include "planning/cut/job.hpp"
#include "planning/fill/fill.hpp"
#include "planning/site/setting.hpp"
#include "planning/water/line.hpp"

namespace stillheap::site {

/// How much is wanted. Exactly one of the two is set.
struct Goal {
  std::optional<double> compost_m3;  ///< finished, a year
  std::optional<int> vessels;
  std::string ready_by;  ///< ISO date, may be empty
};

/// Compost wanted through the year, and what the yard can give for it. Lists hold one value a month.
struct SupplyGoal {
  std::string vessel;  ///< name of the kind that stands at every place
  std::array<double, 12> wanted_m3{};
  std::optional<int> places;
  std::optional<double> harvest_after_s;
  double rest_s = 0.0;
  std::optional<double> yield_m3;
  double store_s = 0.0;
  std::optional<double> store_room_m3;
  std::optional<std::array<double, 12>> half_month_s;  ///< work of all people in each half of a month
  bool fill_in_cold = false;
};

/// When a feedstock is there.
struct Season {
  std::array<double, 12> arises_m3{};
  double keeps_s = 0.0;
};

enum class WeatherSource { monthly, epw, csv };

struct WeatherChoice {
  WeatherSource source = WeatherSource::monthly;
  weather::Monthly monthly;
  std::filesystem::path file;  ///< resolved against the site file's folder
  weather::CsvColumns columns;
};

/// How the blend comes about: fixed parts by mass share, or found by the linear programme.
struct BlendWish {
  std::map<std::string, double> shares_by_mass;  ///< feedstock id -> share; empty: find it
  material::Objective objective = material::Objective::least_cost;
  material::Limits limits;
  double moisture_target_wet = 0.65;
};

struct Labour {
  double wage_per_s = 0.0;
  int people = 2;
  double daily_minutes_per_vessel = 1.0;
};

struct WaterSetup {
  water::Line line;
  water::Supply supply;
  double application_efficiency = 0.8;
  double leaching_share = 0.1;
  double before_regulator_pa = 0.0;  ///< 0: not given
  double timer_step_s = 60.0;
  bool by_hand = false;  ///< by can or hose: no line, `line` and `supply` but for its salts are not read
  double can_m3 = 0.01;  ///< by hand: what one can holds
  std::optional<double> most_reaching_kg_day;  ///< of a vessel; none: by the footprint
  bool drinking_water = true;                  ///< fed from a drinking-water supply: back-flow caution
};

/// One site file, checked, in SI units. The only thing later stages see of TOML.
struct Site {
  std::filesystem::path file;
  std::string name;
  UnitSystem units = UnitSystem::metric;
  std::string currency;    ///< label only, for example "EUR"
  std::string start_date;  ///< ISO date of the first fill
  std::string page;        ///< address of the yard's page for phones; empty: not known
  weather::Place place;
  WeatherChoice weather;
  std::vector<material::Offer> offers;    ///< feedstocks with stock and price
  std::map<std::string, Season> seasons;  ///< by feedstock id; those without one are there whenever wanted
  Goal goal;
  std::optional<SupplyGoal> supply;
  BlendWish blend;
  std::vector<vessel::Design> vessels;
  double wanted_air_path_m = 0.30;
  double soil_bearing_pa = 0.0;  ///< 0: not given
  vessel::LoadChoices loads;
  material::Bath bath;
  fill::Practice practice;
  std::optional<double> fill_temperature_c;     ///< of the soaked material; left out: outside air of the first day
  std::optional<double> settled_density_kg_m3;  ///< soaked, as it lies in the full vessel; left out: as loose
  WaterSetup water;
  std::vector<cut::Stock> stock;         ///< that vessels are cut from, in the file's order
  std::map<std::string, double> prices;  ///< price key -> per SI unit of that key (see docs/site-file.md)
  Labour labour;
  forecast::Surfaces surfaces;
  int forecast_days = 365;
  forecast::Grid grid = forecast::Grid::standard;
  int members = 64;
  std::vector<double> picture_days;               ///< rising; empty: the usual ones
  bool animated = false;                          ///< set by the command line
  Assumptions defaults;                           ///< every value the file left out
  std::map<std::string, int, std::less<>> lines;  ///< "vessel.north.channels", "blend.shares" -> line in the file
};

/// Where a section or key stands, for messages of later stages: "yard.toml:14: vessel.north.height". What the file does
/// not have is told with the line of the section it would stand in, or with the file alone.
[[nodiscard]] std::string where(const Site& site, std::string_view path);

/// Reads and checks a site file. Collects every problem and throws one InputError with all of them,
/// each as file:line: key, value, what is allowed.
[[nodiscard]] Site read_site(const std::filesystem::path& file);

/// The same with values put in place of the file's own. What is wrong with one of them is told with where it stands.
/// With `text`, what `read_site_text` gave before, the file itself is not looked at again.
[[nodiscard]] Site read_site(const std::filesystem::path& file, const std::vector<Setting>& settings,
                             const std::optional<std::string>& text = std::nullopt);

/// The bytes of a site file. Throws InputError when there is none.
[[nodiscard]] std::string read_site_text(const std::filesystem::path& file);

/// The commented starter that `stillheap init` writes.
[[nodiscard]] std::string starter_text(UnitSystem units);

/// The reference of all keys as Markdown, from the same table the reader uses.
[[nodiscard]] std::string reference_markdown();

}  // namespace stillheap::site
