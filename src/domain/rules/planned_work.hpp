#pragma once
#include <array>
#include <optional>
#include <string_view>

/// The work a plan dates, by the words its calendar's entries begin with. The calendar writes them and the list of
/// today knows an entry by them, so that what the record shows as done is not asked for again.
namespace stillheap::rules {

/// What ticks an entry off.
enum class DoneBy { filling, forms_out, sprinkled, reading, worms_in, harvested };

struct PlannedWork {
  std::string_view opening;
  DoneBy done_by{};
};

inline constexpr PlannedWork order_work{"Order feedstocks", DoneBy::filling};
inline constexpr PlannedWork build_work{"Level the ground", DoneBy::filling};
inline constexpr PlannedWork soak_work{"Soak the feedstock", DoneBy::filling};
inline constexpr PlannedWork fill_work{"Fill:", DoneBy::filling};
inline constexpr PlannedWork forms_work{"Pull the forms", DoneBy::forms_out};
inline constexpr PlannedWork sprinkle_work{"Start the water programme", DoneBy::sprinkled};
inline constexpr PlannedWork check_work{"First checks", DoneBy::reading};
inline constexpr PlannedWork worm_work{"Add worms", DoneBy::worms_in};
inline constexpr PlannedWork harvest_work{"Harvest window", DoneBy::harvested};

inline constexpr std::array planned_works{order_work,    build_work, soak_work, fill_work,   forms_work,
                                          sprinkle_work, check_work, worm_work, harvest_work};

/// The row whose opening the entry begins with; nothing for entries that nothing in the record ticks off.
[[nodiscard]] constexpr std::optional<PlannedWork> planned_work(std::string_view entry) {
  for (const PlannedWork& work : planned_works) {
    if (entry.starts_with(work.opening)) return work;
  }
  return std::nullopt;
}

}  // namespace stillheap::rules
