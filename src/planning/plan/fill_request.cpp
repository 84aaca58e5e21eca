#include "planning/plan/fill_request.hpp"

#include "core/base/error.hpp"
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

forecast::Request fill_request(site::Site site, const vessel::Design& design, const std::string& start_date, int days) {
  site.vessels = {design};
  site.start_date = start_date;
  site.forecast_days = days;
  struct Caught {
    forecast::Request request;
  };
  try {
    (void)make_plan(
        site, {}, [](const forecast::Request& request, const Progress&) -> forecast::Result { throw Caught{request}; });
  } catch (const Caught& caught) {
    forecast::Request request = caught.request;
    request.grid = forecast::Grid::draft;
    return request;
  }
  throw RunError("calibrate", "the plan asks for no forecast", "check the site with: stillheap check");
}

}  // namespace stillheap::plan
