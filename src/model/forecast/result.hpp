#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/base/geometry.hpp"
#include "core/base/note.hpp"
#include "domain/rules/self_heating.hpp"

namespace stillheap::forecast {

/// A number with its band: the middle line and the 10th and 90th percentile of what is likely (band.hpp); low, middle
/// and high are always in order.
struct Banded {
  double middle = 0.0;
  double low = 0.0;
  double high = 0.0;
};

/// What a maker decides by.
enum class Event {
  reaches_55_c,
  quarter_above_55_c_for_3_days,  ///< a quarter of the mass, three days in a row
  passes_70_c,
  never_below_5_percent_oxygen,  ///< anywhere
  heating_ends_between_days      ///< between `from_day` and `to_day`; worms can follow
};

/// How likely an event is, 0..1.
struct Odds {
  Event event{};
  double share = 0.0;
  double from_day = 0.0, to_day = 0.0;
};

struct Place3 {
  Point plan;
  double height_m = 0.0;  ///< above the base
};

/// Relative errors of the balances: what went in, minus what came out, minus what is stored, over throughput.
struct Conservation {
  double solids = 0.0, oxygen = 0.0, water = 0.0, energy = 0.0, salt = 0.0, dry_air = 0.0;
};

/// The answer in one page. Temperatures in degC, shares 0..1, days since filling; `nothing` for a day means
/// it did not happen within the forecast.
struct Summary {
  Banded peak_temperature_c;
  Banded peak_day;
  Place3 peak_place;
  Banded days_above_55_mass_mean;  ///< days above 55 degC, averaged over the mass
  Banded share_3_days_above_55;    ///< share of mass with at least 3 days in a row above 55 degC
  /// End of self-heating: the first day from which hottest place and core stay within 3 K of a twin without heat in the
  /// same weather for 14 days (rules::self_heating); none: not within this forecast, or it never heated.
  std::optional<double> cool_day;
  std::optional<double> cool_day_low, cool_day_high;
  double cool_share_of_members = 0.0;  ///< how many members stop heating within the forecast
  bool heated = true;                  ///< it was warmer than its twin at all
  std::vector<rules::Rest>
      rests;  ///< times without self-heating, of two weeks or longer; the first begins on `cool_day`
  std::optional<double> warm_again_day;  ///< self-heating begins anew after `cool_day`
  Banded degradable_left;                ///< share of the solids that can decay, still there at the end
  Banded lowest_oxygen;                  ///< volume share of the gas, 0..0.21
  Place3 lowest_oxygen_place;
  Banded lowest_oxygen_day;
  Banded most_mass_below_5_oxygen;  ///< largest share of mass at any time below 5 % oxygen by volume
  Banded days_any_below_5_oxygen;
  Banded driest_moisture_wet, wettest_moisture_wet;  ///< of any cell
  Banded mean_moisture_end_wet;
  Banded solids_lost;       ///< share of the dry matter
  Banded height_lost;       ///< share of the height
  Banded finished_mass_kg;  ///< wet, at the end
  Banded finished_volume_m3;
  Banded salt_concentration_ratio;  ///< salt per dry matter at the end over at the start
  Banded salt_leached_share;
  Banded water_sprinkled_kg, water_rain_kg;  ///< that reached the material
  Banded water_put_on_kg, water_evaporated_kg, water_drained_kg, water_made_kg;
  Banded peak_uptake_g_kg_h;  ///< g O2 per kg volatile solids and hour, heap mean, at its highest
  Conservation conservation;
  std::vector<Odds> odds;  ///< empty without a band
};

/// One row of the history: heap-wide numbers, at most one row an hour.
struct HistoryRow {
  double day = 0.0;
  double outside_c = 0.0;
  double mean_c = 0.0, core_c = 0.0, hottest_c = 0.0, coldest_c = 0.0;
  double lowest_oxygen = 0.0, mean_oxygen = 0.0;
  double mean_moisture_wet = 0.0;
  double dry_mass_kg = 0.0;
  double height_m = 0.0;
  double uptake_kg_s = 0.0;  ///< oxygen
  double evaporated_kg_day = 0.0, drained_kg_day = 0.0, sprinkled_kg_day = 0.0;
  double rain_kg_day = 0.0, water_made_kg_day = 0.0;  ///< on the material; by decay
};

/// Fields at one time on the nodes of the mesh, in mesh order.
struct Snapshot {
  double day = 0.0;
  std::vector<float> temperature_c, oxygen, moisture_wet;
  std::vector<double> level_m;  ///< height of each level of nodes above the base
};

/// The plan's triangles and the levels; every snapshot hangs on it. Unfolded to the full vessel.
struct FieldMesh {
  std::vector<Point> points;  ///< of one level
  std::vector<std::array<int, 3>> triangles;
  int levels = 0;
};

/// Something about a heap that is not known for sure, and what knowing it would do. One value an answer, in the order
/// of `Sensitivity::answers`.
struct Unknown {
  std::string what;
  std::string how;                ///< how to measure it; empty: nobody can beforehand
  std::vector<Banded> share;      ///< of the answer's variance, first order; the band is how well the share is known
  std::vector<double> narrowing;  ///< share of the band's width that goes once it is measured that way
  double mean_narrowing = 0.0;    ///< over the answers
};

/// Which inputs drive an answer, from the ensemble.
struct Sensitivity {
  struct Answer {
    std::string name;
    int runs = 0;              ///< that had this answer
    double unexplained = 1.0;  ///< of the variance: inputs acting together, and what so few runs do not show
  };
  std::vector<Answer> answers;
  std::vector<Unknown> unknowns;  ///< what can be measured first, the most useful at the top
  std::string why_none;           ///< why there are no answers
};

/// Means by calendar month; months that the forecast does not reach are 0.
struct MonthlyMeans {
  std::array<double, 12> evaporated_kg_s{};  ///< net of metabolic water
  std::array<double, 12> drained_kg_s{};
  std::array<double, 12> salt_out_kg_s{};
};

struct Result {
  Summary summary;
  Sensitivity sensitivity;
  std::vector<HistoryRow> history;  ///< the middle line
  /// Row for row the ends of its band: each number's 10th and 90th percentile. Day and outside air as in `history`.
  std::vector<HistoryRow> history_low, history_high;
  FieldMesh mesh;
  std::vector<Snapshot> snapshots;           ///< of the middle line, on the days asked for
  std::vector<Snapshot> frames;              ///< of the middle line, many, when an animation was asked for
  std::array<double, 12> evaporated_kg_s{};  ///< mean by calendar month, net of metabolic water
  std::array<double, 12> drained_kg_s{};
  std::array<double, 12> salt_out_kg_s{};
  double wanted_water_kg_kg = 0.0;       ///< that sprinkling keeps up, per dry mass
  MonthlyMeans months_low, months_high;  ///< ends of the bands of these three
  Assumptions assumptions;
  std::string solved;  ///< "one tenth of the vessel, unfolded" or "the whole plan"
  int cells_full = 0;  ///< of the full vessel
  int cells_solved = 0;
  int steps = 0;
  int members = 0;
  std::optional<std::string> stopped;  ///< why it stopped early: a physical reason, or the user
  bool stopped_by_user = false;
};

}  // namespace stillheap::forecast
