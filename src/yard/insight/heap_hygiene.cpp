#include "yard/insight/heap_hygiene.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillheap::insight {
namespace {

constexpr const char* raw_caution =
    "Places that no probe speaks for may have stayed cool. Count the compost as raw for hygiene: test it, or keep the "
    "intervals before harvest for raw manure (90 days, 120 days where the crop touches soil: 7 CFR 205.203(c)(1)) or "
    "whatever the local rule asks.";

constexpr double least_limit_c = 40.0;  // of all rules

/// The readings up to now that any rule can turn on: cool ones between cool ones are left out, which changes no
/// stretch above the least limit and spares a year of cool readings the search.
rules::History up_to(const Track& track, double now_s) {
  const rules::History all = history_of(track);
  const auto counts = [&](std::size_t i) {
    return i < all.size() && all[i].time_s <= now_s && all[i].celsius >= least_limit_c;
  };
  rules::History kept;
  for (std::size_t i = 0; i < all.size() && all[i].time_s <= now_s; ++i) {
    if (counts(i) || counts(i + 1) || (i > 0 && counts(i - 1))) kept.push_back(all[i]);
  }
  if (kept.empty() && !all.empty() && all.front().time_s <= now_s) kept.push_back(all.front());
  return kept;
}

std::optional<Spoken> spoken_by_met(const RuleFinding& finding, const ProbeView& view,
                                    const std::vector<std::size_t>& track_of) {
  if (view.material.empty()) return std::nullopt;
  std::vector<ProbePoint> met;
  for (std::size_t i = 0; i < finding.probes.size(); ++i) {
    if (!finding.probes[i].verdict.met) continue;
    const std::size_t track = track_of[i];
    // One in a channel or without a place speaks for no material, and takes nothing from what the others speak for.
    if (track < view.probes.size() && view.probes[track]) met.push_back(*view.probes[track]);
  }
  if (met.empty() && finding.probes_met() > 0) return std::nullopt;
  return spoken_for(view.material, met);
}

Phrase text_of(const RuleFinding& finding, std::size_t met) {
  const std::string rule = finding.probes.front().verdict.rule;
  Phrase phrase = {"\"" + finding.rule_id + "\" is met at ", number(static_cast<double>(met)), " of ",
                   number(static_cast<double>(finding.probes.size())),
                   finding.probes.size() == 1 ? " probe position" : " probe positions"};
  if (met == 0) {
    phrase.emplace_back(".");
  } else if (finding.spoken) {
    append(phrase, {". Those probes speak for ", share(finding.spoken->near), " of the heap by being within ",
                    length(near_probe_m), " of it, and for ", share(finding.spoken->as_deep),
                    " if all that lies as far from the cool faces was as hot."});
  } else {
    phrase.emplace_back(
        ". For what share of the heap that speaks is not known: note depth and distance from the middle of every "
        "probe, and the vessel's design. A probe in a channel speaks for no material.");
  }
  return phrase;
}

Phrase reading_of(const RuleFinding& finding) {
  Phrase phrase;
  for (const ProbeVerdict& probe : finding.probes) {
    if (!phrase.empty()) phrase.emplace_back("; ");
    append(phrase, name_of(probe.spot));
    phrase.emplace_back(": " + probe.verdict.reading);
    if (probe.verdict.met_at_s) append(phrase, {", met ", moment(*probe.verdict.met_at_s)});
  }
  return phrase;
}

void finish(RuleFinding& finding, const ProbeView& view, const std::vector<std::size_t>& track_of, double now_s) {
  const std::size_t met = finding.probes_met();
  finding.met_at_every_probe = met == finding.probes.size();
  finding.spoken = spoken_by_met(finding, view, track_of);
  Statement& statement = finding.statement;
  statement.id = "hygiene-" + finding.rule_id;
  statement.text = text_of(finding, met);
  statement.reading = reading_of(finding);
  statement.rule = {finding.probes.front().verdict.rule};
  statement.source = finding.probes.front().verdict.source;
  statement.caution = raw_caution;
  statement.time_s = now_s;
  for (const ProbeVerdict& probe : finding.probes) {
    if (probe.verdict.met_at_s) statement.time_s = std::min(statement.time_s, *probe.verdict.met_at_s);
  }
}

}  // namespace

std::size_t RuleFinding::probes_met() const noexcept {
  return static_cast<std::size_t>(
      std::count_if(probes.begin(), probes.end(), [](const ProbeVerdict& probe) { return probe.verdict.met; }));
}

Spoken spoken_for(std::span<const MaterialPoint> material, std::span<const ProbePoint> probes) {
  if (material.empty() || probes.empty()) return {};
  double shallowest_m = std::numeric_limits<double>::infinity();
  for (const ProbePoint& probe : probes) shallowest_m = std::min(shallowest_m, probe.to_face_m);
  std::size_t near = 0;
  std::size_t deep = 0;
  for (const MaterialPoint& point : material) {
    if (point.to_face_m >= shallowest_m) ++deep;
    const bool reached = std::any_of(probes.begin(), probes.end(), [&](const ProbePoint& probe) {
      const double x_m = point.plan.x_m - probe.plan.x_m;
      const double y_m = point.plan.y_m - probe.plan.y_m;
      const double z_m = point.height_m - probe.height_m;
      return x_m * x_m + y_m * y_m + z_m * z_m <= near_probe_m * near_probe_m;
    });
    if (reached) ++near;
  }
  const auto all = static_cast<double>(material.size());
  return {static_cast<double>(near) / all, static_cast<double>(deep) / all};
}

std::vector<RuleFinding> heap_hygiene(std::span<const Track> tracks, const ProbeView& view,
                                      const rules::Circumstances& circumstances, double now_s) {
  std::vector<RuleFinding> findings;
  std::vector<std::size_t> track_of;  // of each position
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    if (tracks[i].sensed != Sensed::temperature) continue;
    const rules::History history = up_to(tracks[i], now_s);
    if (history.empty()) continue;
    track_of.push_back(i);
    const std::vector<rules::Verdict> verdicts = rules::judge_all(history, circumstances);
    findings.resize(verdicts.size());
    for (std::size_t rule = 0; rule < verdicts.size(); ++rule) {
      findings[rule].rule_id = verdicts[rule].rule_id;
      findings[rule].probes.push_back({tracks[i].spot, verdicts[rule]});
    }
  }
  for (RuleFinding& finding : findings) finish(finding, view, track_of, now_s);
  return findings;
}

}  // namespace stillheap::insight
