#pragma once
#include <optional>
#include <vector>

#include "core/base/half_month.hpp"
#include "core/base/note.hpp"

/// The water programme: what is put on one vessel, half-month by half-month. Forecast, card, lists and advice read it
/// from here; nothing else decides on an amount of water.
namespace stillheap::water {

/// A run comes at least this often, or not at all in that half-month. Chosen: the top of a heap dries within a week.
inline constexpr int longest_gap_days = 7;

/// Share of the water wanted that is left open at the end of a half-month, so that a run or a shower finds room.
/// Chosen; at 64 % moisture it means 62 %.
inline constexpr double open_share = 0.1;

/// How water is put on, and the smallest amount that can be told apart.
struct Way {
  bool by_hand = false;             ///< by can or hose; otherwise by a line on a timer
  double step_kg = 0.0;             ///< let out in one step: the timer's shortest, or one can
  double step_s = 0.0;              ///< the timer's shortest step; 0 by hand
  double efficiency = 1.0;          ///< share of what is let out that reaches the material, above 0 to 1
  double leaching_share = 0.0;      ///< share of what reaches the material that is meant to drain, 0 to below 1
  double most_reaching_kg = 1e300;  ///< on a day's mean, of what reaches the material
};

/// One day of a heap, from a forecast. kg for the whole vessel.
struct DayOfHeap {
  double lost_kg = 0.0;    ///< evaporated, less the water that decay made
  double rain_kg = 0.0;    ///< on the material
  double wanted_kg = 0.0;  ///< water that the material should hold at the end of the day
  bool frost = false;      ///< the line is drained; by hand, water would freeze
};

enum class Setting { runs, enough, frost };

/// One half-month from the fill on, the first and the last cut to the forecast.
struct Row {
  date::Day first, last;  ///< both included
  Setting setting = Setting::enough;
  int every_days = 0;             ///< 1 to 7; 0 without runs
  int steps = 0;                  ///< of the timer, or cans, a run
  int runs = 0;                   ///< in this half-month
  double run_kg = 0.0;            ///< let out of the heads or the can in a run
  double run_reaching_kg = 0.0;   ///< of it reaching the material
  double lost_kg = 0.0;           ///< by the material in this half-month, less the water that decay made
  double rain_kg = 0.0;           ///< on the material
  double rain_credited_kg = 0.0;  ///< of it kept by the material
};

struct Programme {
  Way way;
  std::vector<Row> rows;            ///< in order of time; 24 or 25 for a year
  std::vector<double> reaching_kg;  ///< on each day since the fill, as the forecast is given it
};

/// Fits whole runs to what a heap loses, half-month by half-month.
///
/// The books are those of soil water, day by day (FAO-56, Allen et al. 1998, eq. 85: depletion = depletion before
/// - rain - water put on + evaporation, never below 0; what is beyond drains). At the end of each half-month the
/// material should hold what is wanted again but for `open_share`; net need over (1 - leaching share), as in FAO-29
/// rev. 1 (Ayers & Westcot 1985) eq. 9 with the share set by the user, and over the efficiency, is what is let out. It
/// is put on in equal runs of whole steps, as often as fits within a tenth (chosen), at least once in seven days; less
/// than half a step is left to the next half-month, as is what frost keeps off. `days` begin with the day of filling;
/// nothing runs before `first_run_day`. Throws InputError naming every value of `way` that cannot be.
[[nodiscard]] Programme make_programme(date::Day filled, const std::vector<DayOfHeap>& days, const Way& way,
                                       int first_run_day);

/// Let out, and reaching the material, from the fill to the end of the forecast. Sums of the rows.
[[nodiscard]] double let_out_kg(const Programme& programme) noexcept;
[[nodiscard]] double reaching_kg(const Programme& programme) noexcept;

/// Length of all runs of a row, seconds; 0 by hand.
[[nodiscard]] double run_s(const Programme& programme, const Row& row) noexcept;

/// The row that holds a day; after the last row the same day of an earlier year, before the first none.
[[nodiscard]] const Row* row_on(const Programme& programme, date::Day day) noexcept;

/// Whether a run is due on a day. `last` is the day of the last run, none when there was none.
[[nodiscard]] bool is_due(const Row& row, date::Day day, std::optional<date::Day> last) noexcept;

/// Rules of the programme, for the reports.
[[nodiscard]] Assumptions programme_choices();

}  // namespace stillheap::water
