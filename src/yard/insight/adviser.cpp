#include "yard/insight/adviser.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace stillheap::insight {
namespace {

/// Alerts that speak of water or air, the one that decides first.
constexpr std::array<std::string_view, 6> order{"fire-risk", "soaked", "water-uneven", "dry", "too-hot", "oxygen-low"};
/// What a fire silences: advice that lets air in, and that on water in other words than the fire's own.
constexpr std::array<std::string_view, 8> not_in_a_fire{
    "oxygen-low", "channel-blocked", "not-heating", "hot-too-short", "cooling-fast", "dry", "water-uneven", "soaked"};

const Statement* find(const std::vector<Statement>& alerts, std::string_view id) {
  const auto found = std::find_if(alerts.begin(), alerts.end(), [&](const Statement& one) { return one.id == id; });
  return found == alerts.end() ? nullptr : &*found;
}

/// The alert that decides on water; nothing when none speaks of it.
const Statement* decides(const std::vector<Statement>& alerts) {
  for (const std::string_view id : order) {
    if (const Statement* found = find(alerts, id)) return found;
  }
  return nullptr;
}

void say_water_once(std::vector<Statement>& alerts, Watering wanted, bool frozen) {
  for (Statement& alert : alerts) {
    if (alert.water.empty() || alert.watering != wanted) continue;
    const bool waits = frozen && wanted == Watering::more && alert.weight != Severity::danger;
    alert.next +=
        (alert.next.empty() ? "" : " ") + (waits ? "There is frost: wait with water until it thaws." : alert.water);
  }
}

void put_off(Readiness& ready, const char* what, const Statement& reason) {
  if (ready.answer == Answer::no) return;
  ready.answer = Answer::no;
  ready.statement.weight = Severity::note;
  ready.statement.text = {std::string("Wait with ") + what + ": "};
  append(ready.statement.text, reason.text);
  ready.statement.next.clear();
}

}  // namespace

void settle(Advice& advice, bool frozen) {
  std::vector<Statement>& alerts = advice.alerts;
  advice.hands_off = find(alerts, "fire-risk") != nullptr;
  if (advice.hands_off) {
    alerts.erase(std::remove_if(alerts.begin(), alerts.end(),
                                [](const Statement& one) {
                                  return std::find(not_in_a_fire.begin(), not_in_a_fire.end(), one.id) !=
                                         not_in_a_fire.end();
                                }),
                 alerts.end());
  }
  if (const Statement* first = decides(alerts)) {
    advice.no_sprinkling = plain(first->text);
    put_off(advice.worms, "worms", *first);
    if (first->id == "fire-risk" || find(alerts, "too-hot") != nullptr) put_off(advice.harvest, "the harvest", *first);
    say_water_once(alerts, first->watering, frozen);
  }
  if (advice.harvest.answer == Answer::yes) put_off(advice.worms, "worms", advice.harvest.statement);
  if (frozen && !advice.no_sprinkling) advice.no_sprinkling = "it is frozen";
}

}  // namespace stillheap::insight
