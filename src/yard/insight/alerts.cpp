#include "yard/insight/alerts.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>

namespace stillheap::insight {
namespace {

/// A last fresh reading and the place it was read at.
struct Seen {
  const Track* track = nullptr;
  Sample sample;
};

std::vector<Seen> fresh(const HeapView& heap, Sensed sensed, double fresh_s) {
  std::vector<Seen> seen;
  for (const Track& track : heap.tracks) {
    if (track.sensed != sensed) continue;
    if (const auto sample = last_fresh(track, heap.now_s, fresh_s)) seen.push_back({&track, *sample});
  }
  return seen;
}

Piece value_piece(Sensed sensed, double value) { return sensed == Sensed::temperature ? celsius(value) : share(value); }

const char* noun(Sensed sensed) {
  switch (sensed) {
    case Sensed::temperature:
      return "";
    case Sensed::moisture:
      return " moisture";
    case Sensed::oxygen:
      return " oxygen";
    case Sensed::carbon_dioxide:
      return " carbon dioxide";
  }
  return "";
}

Phrase reading_words(const Seen& seen) {
  Phrase phrase = name_of(seen.track->spot);
  append(phrase, {": ", value_piece(seen.track->sensed, seen.sample.value), noun(seen.track->sensed), ", ",
                  moment(seen.sample.time_s)});
  return phrase;
}

Phrase reading_words(const std::vector<Seen>& all) {
  Phrase phrase;
  for (const Seen& seen : all) {
    if (!phrase.empty()) phrase.emplace_back("; ");
    append(phrase, reading_words(seen));
  }
  return phrase;
}

/// Puts statements together from rules.
class AlertList {
 public:
  explicit AlertList(const AlertLimits& limits) : rules_(alert_rules(limits)) {}

  void add(std::string_view id, Phrase text, Phrase reading, double time_s) {
    const auto rule = std::find_if(rules_.begin(), rules_.end(), [&](const AlertRule& one) { return one.id == id; });
    statements_.push_back({std::string(id), rule->weight, std::move(text), std::move(reading), rule->rule, rule->source,
                           rule->next, rule->caution, time_s, rule->watering, rule->water});
  }
  void add(std::string_view id, Phrase text, const std::vector<Seen>& seen) {
    double time_s = 0.0;
    for (const Seen& one : seen) time_s = std::max(time_s, one.sample.time_s);
    add(id, std::move(text), reading_words(seen), time_s);
  }
  [[nodiscard]] std::vector<Statement> sorted() {
    std::stable_sort(statements_.begin(), statements_.end(),
                     [](const Statement& a, const Statement& b) { return a.weight > b.weight; });
    return std::move(statements_);
  }

 private:
  std::vector<AlertRule> rules_;
  std::vector<Statement> statements_;
};

template <class Test>
std::vector<Seen> those(const std::vector<Seen>& all, Test test) {
  std::vector<Seen> found;
  std::copy_if(all.begin(), all.end(), std::back_inserter(found),
               [&](const Seen& one) { return test(one.sample.value); });
  return found;
}

/// The last reading at which a heap may burn and which no cooler one, long enough after it, has cleared. Heaps do not
/// cool within hours: a cooler reading at once is a probe that was pulled, or another depth; a slip is taken back.
std::optional<Sample> standing_danger(const Track& track, double now_s, const AlertLimits& limits) {
  std::optional<Sample> danger;
  for (const Sample& sample : track.samples) {
    if (sample.time_s > now_s) break;
    if (sample.value >= limits.act_c)
      danger = sample;
    else if (danger && sample.time_s - danger->time_s >= limits.danger_stands_s)
      danger.reset();
  }
  if (danger && now_s - danger->time_s > limits.danger_ends_s) return std::nullopt;
  return danger;
}

/// The last fresh temperatures, and those of danger that still stand before them.
std::vector<Seen> heat_to_judge(const HeapView& heap, const AlertLimits& limits) {
  std::vector<Seen> heat;
  for (const Track& track : heap.tracks) {
    if (track.sensed != Sensed::temperature) continue;
    const auto danger = standing_danger(track, heap.now_s, limits);
    const auto last = last_fresh(track, heap.now_s, limits.fresh_heat_s);
    if (danger) heat.push_back({&track, *danger});
    if (last && (!danger || last->time_s > danger->time_s)) heat.push_back({&track, *last});
  }
  return heat;
}

void look_for_heat(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  const std::vector<Seen> heat = heat_to_judge(heap, limits);
  const auto hot = those(heat, [&](double value) { return value >= limits.too_hot_c; });
  if (hot.empty()) return;
  const std::vector<Seen> water = fresh(heap, Sensed::moisture, limits.fresh_other_s);
  const auto dry = those(water, [&](double value) { return value < limits.fire_moisture_wet; });
  const bool unread = water.empty();
  const bool near_char = !those(hot, [&](double value) { return value >= limits.fire_words_c; }).empty();
  const bool act = !those(hot, [&](double value) { return value >= limits.act_c; }).empty();
  if (act || !dry.empty() || (unread && near_char)) {
    std::vector<Seen> both = hot;
    both.insert(both.end(), dry.begin(), dry.end());
    board.add("fire-risk",
              {act           ? "The heap is hot enough to char."
               : dry.empty() ? "The heap is very hot, and how wet it is has not been read: unread counts as dry."
                             : "The heap is very hot and dry in places."},
              both);
    return;
  }
  board.add(
      "too-hot",
      {unread ? "The heap is too hot for the microbes that work in it, and how wet it is has not been read: measure "
                "the moisture today, unread counts as dry."
              : "The heap is too hot for the microbes that work in it."},
      hot);
}

void look_for_no_heat(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  const bool ever_hot =
      std::any_of(heap.steps.begin(), heap.steps.end(), [](const PhaseStep& step) { return step.phase == Phase::hot; });
  if (ever_hot || heap.now_s < limits.heats_by_s || heap.phase != Phase::starting) return;
  board.add("not-heating", {"The heap does not heat: ", lasting(heap.now_s), " after filling it has not been hot."},
            fresh(heap, Sensed::temperature, limits.fresh_heat_s));
}

void look_for_fall(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  for (const Track& track : heap.tracks) {
    if (track.sensed != Sensed::temperature) continue;
    const std::vector<DayValue> days = daily_medians(track, heap.now_s);
    if (days.size() < 2 || heap.now_s - days.back().time_s > limits.fresh_heat_s) continue;
    const DayValue& before = days[days.size() - 2];
    const DayValue& last = days.back();
    const bool next_day = last.day - before.day == 1;
    if (!next_day || before.median < limits.fall_from_c || before.median - last.median < limits.fall_k) continue;
    Phrase reading = name_of(track.spot);
    append(reading, {": ", celsius(before.median), ", ", moment(before.time_s), ", then ", celsius(last.median), ", ",
                     moment(last.time_s), " (medians of the days)"});
    board.add("cooling-fast", {"The heap cools faster than a heap does by itself."}, std::move(reading), last.time_s);
  }
}

void look_for_short_heat(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  double hot_s = 0.0;
  for (std::size_t i = 0; i < heap.steps.size(); ++i) {
    if (heap.steps[i].phase != Phase::hot) continue;
    const bool seen_to_end = i + 1 < heap.steps.size() && heap.steps[i + 1].phase == Phase::cooling;
    if (!seen_to_end) return;
    hot_s += heap.steps[i + 1].since_s - heap.steps[i].since_s;
  }
  if (hot_s <= 0.0 || hot_s >= limits.short_hot_s || heap.phase != Phase::cooling) return;
  const PhaseStep& end = heap.steps.back();
  board.add("hot-too-short", {"The hot phase was short: ", lasting(hot_s), "."},
            {"fell to ", celsius(end.reading_c), ", ", moment(end.since_s)}, end.since_s);
}

void look_for_water(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  const std::vector<Seen> water = fresh(heap, Sensed::moisture, limits.fresh_other_s);
  const auto dry = those(water, [&](double value) { return value < limits.dry_wet; });
  const auto soaked = those(water, [&](double value) { return value > limits.soaked_wet; });
  if (!dry.empty() && !soaked.empty()) {
    std::vector<Seen> both = dry;
    both.insert(both.end(), soaked.begin(), soaked.end());
    board.add("water-uneven", {"The heap is too dry in one place and soaked in another."}, both);
    return;
  }
  if (!dry.empty()) board.add("dry", {"The heap is too dry to work."}, dry);
  if (!soaked.empty()) board.add("soaked", {"The heap is soaked: water fills the room that air needs."}, soaked);
}

void look_for_air(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  const std::vector<Seen> oxygen = fresh(heap, Sensed::oxygen, limits.fresh_other_s);
  const auto low = those(oxygen, [&](double value) { return value < limits.low_oxygen; });
  std::vector<Seen> poor = low;
  for (const Seen& one : those(fresh(heap, Sensed::carbon_dioxide, limits.fresh_other_s),
                               [&](double value) { return value > limits.high_carbon_dioxide; })) {
    poor.push_back(one);
  }
  if (!poor.empty()) board.add("oxygen-low", {"The heap is short of air."}, poor);
  if (!heap.has_channels) return;
  for (const Seen& one : low) {
    if (heap.channel_cleared_s && *heap.channel_cleared_s >= one.sample.time_s) continue;
    const auto fair = std::find_if(oxygen.begin(), oxygen.end(), [&](const Seen& other) {
      return other.sample.value >= limits.fair_oxygen &&
             std::abs(other.sample.time_s - one.sample.time_s) <= limits.side_by_side_s;
    });
    if (fair == oxygen.end()) continue;
    board.add("channel-blocked", {"A channel may be blocked: one place is short of air and another is not."},
              std::vector<Seen>{one, *fair});
  }
}

/// One fresh position is enough to watch the heap by.
void look_for_gaps(const HeapView& heap, const AlertLimits& limits, AlertList& board) {
  const double again_s = heap.now_s < limits.young_s ? limits.read_again_young_s : limits.read_again_old_s;
  const std::vector<Seen> all = fresh(heap, Sensed::temperature, heap.now_s);
  if (all.empty()) {
    if (heap.now_s <= again_s) return;
    board.add("readings-missing", {"No temperature has been read since filling."}, Phrase{"none"}, heap.now_s);
    return;
  }
  const Seen& last = *std::max_element(all.begin(), all.end(),
                                       [](const Seen& a, const Seen& b) { return a.sample.time_s < b.sample.time_s; });
  if (heap.now_s - last.sample.time_s <= again_s) return;
  board.add("readings-missing", {"No temperature has been read lately."}, reading_words(last), heap.now_s);
}

}  // namespace

std::vector<Statement> alerts_of(const HeapView& heap, const AlertLimits& limits) {
  AlertList board(limits);
  look_for_heat(heap, limits, board);
  look_for_no_heat(heap, limits, board);
  look_for_fall(heap, limits, board);
  look_for_short_heat(heap, limits, board);
  look_for_water(heap, limits, board);
  look_for_air(heap, limits, board);
  look_for_gaps(heap, limits, board);
  return board.sorted();
}

}  // namespace stillheap::insight
