#include "planning/study/run_case.hpp"

#include <sys/resource.h>
#include <time.h>

#include "core/base/error.hpp"
#include "planning/study/folder.hpp"

namespace stillheap::study {
namespace {

double cpu_s() {
  timespec now{};
  ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double peak_memory_kb() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss);
}

plan::Plan plan_of(const Study& study, const Case& one, const std::function<bool()>& keep_on,
                   const plan::ForecastFunction& forecast) {
  site::Site site = site_of(study, one);
  if (site.members == 1) site.members = 0;
  return plan::make_plan(
      site, [&](double, const std::string&) { return keep_on(); }, forecast);
}

void take_numbers(const plan::Plan& plan, CaseResult& result) {
  for (const plan::VesselPlan& kind : plan.vessels) {
    KindNumbers numbers{kind.design.name, {}};
    for (const Measure& measure : measures()) numbers.numbers.push_back(measure.of(plan, kind));
    result.kinds.push_back(std::move(numbers));
    if (!kind.forecast.stopped) continue;
    result.state = State::failed;
    result.reason = kind.design.name + ": the forecast broke off: " + *kind.forecast.stopped;
  }
  // Numbers up to where a run broke off would look like those of a whole one.
  if (result.state == State::failed) result.kinds.clear();
}

}  // namespace

std::optional<CaseResult> run_case(const Study& study, const Case& one, const std::function<bool()>& keep_on,
                                   const plan::ForecastFunction& forecast) {
  CaseResult result{one.number, State::done, "", {}, process_name(), -cpu_s(), 0.0};
  try {
    const plan::Plan plan = plan_of(study, one, keep_on, forecast);
    if (plan.stopped) return std::nullopt;
    take_numbers(plan, result);
  } catch (const InputError& error) {
    result.state = State::impossible;
    result.reason = error.what();
  } catch (const RunError& error) {
    result.state = State::failed;
    result.reason = error.what();
  }
  result.cpu_s += cpu_s();
  result.peak_memory_kb = peak_memory_kb();
  return result;
}

}  // namespace stillheap::study
