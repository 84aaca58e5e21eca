#include "domain/rules/caution_words.hpp"
#include "yard/insight/alerts.hpp"

namespace stillheap::insight {
namespace {

constexpr const char* practice = "common practice, no source";
constexpr const char* elements =
    "Manitoba Agriculture, Compost Elements (oxygen above 5 %, moisture 40 to 70 %, too hot above 70 degC)";
constexpr const char* job_sheet =
    "practice standard 317 job sheet, Natural Resources Conservation Service 2002 (watch from 165 degF, act at 185 "
    "degF); 70 degC chosen";
namespace words = rules::words;

std::string both(std::string_view first, std::string_view second) {
  return std::string(first) + " " + std::string(second);
}

std::vector<AlertRule> heat_rules(const AlertLimits& limits) {
  return {
      {"fire-risk",
       Severity::danger,
       {"any reading of ", celsius(limits.act_c), " or more, or of ", celsius(limits.too_hot_c),
        " or more while a place is drier than ", share(limits.fire_moisture_wet), ", or of ",
        celsius(limits.fire_words_c), " or more while no moisture was read; ", celsius(limits.act_c),
        " stands until the same place is cooler ", lasting(limits.danger_stands_s), " later or more"},
       "practice standard 317 job sheet, Natural Resources Conservation Service 2002 (act at 185 degF); Naylor 2004 "
       "(fires begin where heaps are dry); 25 to 45 % moisture: NRAES-54 1992 (not yet checked against the text); 75 "
       "degC: chosen",
       "Read again at once from a safe stand, upwind, and measure the moisture; keep people away.",
       both(words::smoke, words::hose),
       Watering::more,
       "No smoke and no burnt smell: wet it slowly and evenly from a distance."},
      {"too-hot",
       Severity::warning,
       {"a last reading of ", celsius(limits.too_hot_c), " or more"},
       job_sheet,
       "Read again today and then daily; leave the channels open; add no extra cover.",
       both(words::scald, words::smoke),
       Watering::more,
       "Sprinkle longer."},
      {"not-heating",
       Severity::warning,
       {"not hot within ", lasting(limits.heats_by_s), " of filling"},
       "chosen: a well-made heap is hot within days",
       "Squeeze a handful from a hand's depth: dry, wet it; dripping, let it drain and open the channels. Neither: the "
       "blend lacks nitrogen or the heap is too small for the cold.",
       std::string(words::arm)},
      {"cooling-fast",
       Severity::warning,
       {"a place above ", celsius(limits.fall_from_c), " that falls by ", kelvin(limits.fall_k),
        " from one day to the next"},
       "chosen",
       "Check for soaking after rain, for drying, for wind on the wall and for a probe that was moved.",
       std::string(words::arm)},
      {"hot-too-short",
       Severity::due,
       {"the heap was hot for less than ", lasting(limits.short_hot_s), ", the least hold of the hygiene rules"},
       "40 CFR 257 appendix II part B (3 days); as a sign of trouble: chosen",
       "Check moisture and air as for a heap that does not heat.",
       std::string(words::arm)},
      {"readings-missing",
       Severity::due,
       {"temperatures no older than ", lasting(limits.read_again_young_s), " in the first ", lasting(limits.young_s),
        ", then no older than ", lasting(limits.read_again_old_s)},
       "chosen: daily at no fixed hour, then weekly",
       "Read the temperature at every probe position.",
       std::string(words::scald)},
  };
}

std::vector<AlertRule> water_and_air_rules(const AlertLimits& limits) {
  return {
      {"dry",
       Severity::warning,
       {"a last moisture below ", share(limits.dry_wet), " of the wet mass"},
       elements,
       "Test the moisture again in a week.",
       std::string(words::mask),
       Watering::more,
       "Sprinkle longer, in several short runs, until water shows below."},
      {"soaked",
       Severity::warning,
       {"a last moisture above ", share(limits.soaked_wet), " of the wet mass"},
       elements,
       "Keep rain off, see that the base drains and the channels are open; test again in a week.",
       "What drains carries salts and germs: lead it onto planted ground away from wells and open water.",
       Watering::less,
       "Stop sprinkling until then."},
      {"water-uneven",
       Severity::warning,
       {"a last moisture below ", share(limits.dry_wet), " at one place and above ", share(limits.soaked_wet),
        " at another"},
       elements,
       "Look for blocked holes in the line and for rain that runs in; wet the dry place by hand with a can.",
       std::string(words::mask),
       Watering::less,
       "Stop the line until both are read again."},
      {"oxygen-low",
       Severity::warning,
       {"a last oxygen reading below ", share(limits.low_oxygen), " by volume, or carbon dioxide above ",
        share(limits.high_carbon_dioxide), " (the two add up to about that of fresh air)"},
       elements,
       "Look down the channels and under the base, from outside; clear what blocks them.",
       std::string(words::airless),
       Watering::less,
       "No sprinkling until the air is read again."},
      {"channel-blocked",
       Severity::warning,
       {"one place below ", share(limits.low_oxygen), " oxygen while another, read within ",
        lasting(limits.side_by_side_s), ", has ", share(limits.fair_oxygen),
        " or more, and no channel was cleared since"},
       "chosen",
       "Look down the channel nearest to that place with a light; open it again with a rod, from outside.",
       both(words::airless, words::scald)},
  };
}

}  // namespace

std::vector<AlertRule> alert_rules(const AlertLimits& limits) {
  std::vector<AlertRule> rules = heat_rules(limits);
  for (AlertRule& rule : water_and_air_rules(limits)) rules.push_back(std::move(rule));
  return rules;
}

}  // namespace stillheap::insight
