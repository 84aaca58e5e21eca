#include "model/forecast/sensitivity.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include "model/forecast/ensemble.hpp"
#include "model/forecast/first_order.hpp"

namespace stillheap::forecast {
namespace {

using P = physics::Parameters;

/// An input of a group and the share of its deviation that is left once it is measured.
struct Part {
  std::size_t input = 0;
  double left = 1.0;
};

struct Group {
  std::string what, how;
  std::vector<Part> parts;
};

std::size_t input_of(double P::*member) {
  const auto rows = physics::parameter_rows();
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const auto& one) { return one.member == member; });
  return input_parameters + static_cast<std::size_t>(row - rows.begin());
}

// What measuring leaves of each spread is chosen: by what the tests are said to repeat to, rounded to the worse. The
// tests themselves are common practice; standards are named where the test is one.
std::vector<Group> measured_groups() {
  return {
      {"moisture at filling",
       "weigh a mixed sample of the soaked blend, dry it at 105 degC until it loses no more, weigh it again; squeezing "
       "a handful is only the rough check",
       {{input_moisture, 0.33}}},
      {"bulk density, and with it the free air space",
       "fill a pail of known volume the way the vessel is filled, weigh it, and take the mean of three",
       {{input_density, 0.4}}},
      {"how lively the material is",
       "keep a vacuum flask full of the damp blend for ten days and note how hot it gets, or have a "
       "laboratory measure its oxygen uptake",
       {{input_pools, 0.5}, {input_pools + 1, 0.5}, {input_pools + 2, 0.5}, {input_of(&P::rate_factor), 0.5}}},
      {"how fine the pieces are",
       "sieve a dried sample and weigh what each sieve holds",
       {{input_of(&P::particle_size_m), 0.5}}},
      {"how much water the blend holds and how fast it passes it on",
       "soak a weighed pail with holes in its bottom overnight, let it drain for a day, weigh it again, and time the "
       "draining",
       {{input_of(&P::holding_capacity), 0.33},
        {input_of(&P::saturated_conductivity_m_s), 0.5},
        {input_of(&P::capillary_m2_s), 0.7}}},
      {"how the heap settles",
       "mark its height at filling and each day for two weeks, and forecast anew with it",
       {{input_of(&P::height_per_solids), 0.5},
        {input_of(&P::compression_index), 0.5},
        {input_of(&P::compression_time_s), 0.5}}},
      {"the cloths of lining and cover",
       "ask for their air permeability (ISO 9237) and water-vapour resistance (ISO 11092)",
       {{input_of(&P::cloth_flow_factor), 0.25}, {input_of(&P::cloth_vapour_s_m), 0.25}}},
      {"salt in the blend",
       "have a laboratory dry and weigh the salts of the 1:5 extract",
       {{input_of(&P::salt_per_conductivity), 0.5}}},
  };
}

/// All groups; the last takes every input that no other has.
std::vector<Group> all_groups() {
  std::vector<Group> groups = measured_groups();
  std::vector<bool> taken(input_parameters + physics::parameter_rows().size(), false);
  for (const Group& group : groups)
    for (const Part& part : group.parts) taken[part.input] = true;
  Group rest{"how living things, surfaces and channels respond: the model's own constants", "", {}};
  for (std::size_t i = 0; i < taken.size(); ++i)
    if (!taken[i]) rest.parts.push_back({i, 1.0});
  groups.push_back(std::move(rest));
  return groups;
}

struct Question {
  const char* name;
  std::function<double(const RunHistory&)> answer;
  bool needs_warmth = false;  ///< a heap that never warmed has no answer
};

std::vector<Question> questions() {
  return {{"peak temperature", [](const RunHistory& t) { return t.peak_c; }},
          {"end of self-heating", [](const RunHistory& t) { return t.heat_end_day; }, true},
          {"lowest oxygen", [](const RunHistory& t) { return t.lowest_oxygen; }},
          {"driest moisture", [](const RunHistory& t) { return t.driest; }},
          {"solids lost", [](const RunHistory& t) { return t.solids_lost; }}};
}

double sum_over(const Group& group, const std::vector<double>& share) {
  return std::accumulate(group.parts.begin(), group.parts.end(), 0.0,
                         [&](double sum, const Part& part) { return sum + share[part.input]; });
}

Banded share_of(const Group& group, const FirstOrder& found) {
  const double middle = sum_over(group, found.share);
  std::vector<double> seen;
  for (const auto& share : found.resampled) seen.push_back(sum_over(group, share));
  if (seen.empty()) return {middle, middle, middle};
  return {middle, std::min(middle, percentile(seen, 0.1)), std::max(middle, percentile(seen, 0.9))};
}

double narrowing_of(const Group& group, const FirstOrder& found) {
  double gone = 0.0;
  for (const Part& part : group.parts) gone += found.share[part.input] * (1.0 - part.left * part.left);
  return 1.0 - std::sqrt(std::max(0.0, 1.0 - gone));
}

void add_answer(const Question& question, const std::vector<std::optional<RunHistory>>& tracks,
                const std::vector<std::vector<double>>& deviations, const std::vector<Group>& groups,
                Sensitivity& result) {
  std::vector<std::vector<double>> inputs;
  std::vector<double> answers;
  for (std::size_t m = 0; m < tracks.size(); ++m) {
    if (!tracks[m] || tracks[m]->stopped || tracks[m]->history.size() < 2) continue;
    if (question.needs_warmth && !tracks[m]->heat_ended) continue;
    inputs.push_back(deviations[m]);
    answers.push_back(question.answer(*tracks[m]));
  }
  if (answers.size() < static_cast<std::size_t>(fewest_sensitivity_runs)) return;
  const auto found = first_order(inputs, answers);
  if (!found) return;
  result.answers.push_back({question.name, static_cast<int>(answers.size()), found->unexplained});
  for (std::size_t g = 0; g < groups.size(); ++g) {
    result.unknowns[g].share.push_back(share_of(groups[g], *found));
    result.unknowns[g].narrowing.push_back(narrowing_of(groups[g], *found));
  }
}

}  // namespace

Sensitivity sensitivity(const std::vector<std::optional<RunHistory>>& tracks, const material::Blend& blend,
                        std::uint64_t seed) {
  Sensitivity result;
  const std::vector<Group> groups = all_groups();
  const auto deviations = member_deviations(blend, static_cast<int>(tracks.size()), seed);
  for (const Group& group : groups) result.unknowns.push_back({group.what, group.how, {}, {}, 0.0});
  for (const Question& question : questions()) add_answer(question, tracks, deviations, groups, result);
  if (result.answers.empty()) {
    result.unknowns.clear();
    result.why_none = "what to measure first needs at least " + std::to_string(fewest_sensitivity_runs) +
                      " finished runs that differ, and this forecast has " + std::to_string(tracks.size()) +
                      "; 64 tell more";
    return result;
  }
  for (Unknown& one : result.unknowns) {
    one.mean_narrowing =
        std::accumulate(one.narrowing.begin(), one.narrowing.end(), 0.0) / static_cast<double>(result.answers.size());
  }
  std::stable_sort(result.unknowns.begin(), result.unknowns.end(), [](const Unknown& a, const Unknown& b) {
    return a.how.empty() == b.how.empty() ? a.mean_narrowing > b.mean_narrowing : b.how.empty();
  });
  return result;
}

std::vector<UnknownInputs> unknown_inputs() {
  std::vector<UnknownInputs> all;
  for (const Group& group : all_groups()) {
    all.push_back({group.what, {}});
    for (const Part& part : group.parts) all.back().inputs.push_back(part.input);
  }
  return all;
}

}  // namespace stillheap::forecast
