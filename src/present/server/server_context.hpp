#pragma once
#include <memory>
#include <string>

#include "planning/site/site.hpp"
#include "present/server/calibration_jobs.hpp"
#include "present/server/change_watch.hpp"
#include "present/server/daily_copies.hpp"
#include "present/server/door.hpp"
#include "present/server/draft_turns.hpp"
#include "present/server/forecast_jobs.hpp"
#include "present/server/state_cache.hpp"
#include "present/server/store_pool.hpp"
#include "present/server/store_watch.hpp"
#include "present/server/write_queue.hpp"
#include "yard/learned/learned.hpp"
#include "yard/record/doubt.hpp"
#include "yard/record/due.hpp"

namespace stillheap::server {

/// All that the handlers of a yard work with. One of it lives as long as the server, from when there is a site file.
struct ServerContext {
  /// `copies`: folder of the daily copies; empty: none are kept.
  ServerContext(site::Site the_site, std::shared_ptr<Door> the_door, std::filesystem::path copies = {});

  site::Site site;
  std::shared_ptr<const weather::Series> weather;  ///< read once
  yard::Setting setting;
  record::YardFacts facts;               ///< what the site says of entries, to ask the unlikely back
  std::shared_ptr<yard::OwnLookup> own;  ///< what the readings of each fill taught
  record::Rhythm rhythm;                 ///< with the water programmes of the site
  std::shared_ptr<Door> door;
  StorePool stores;
  WriteQueue writes;
  StoreWatch store_watch;  ///< after the pool, which makes the store when there is none
  ChangeWatch changes;
  DailyCopies copies;
  StateCache states;
  DraftTurns drafts;
  ForecastJobs forecasts;
  CalibrationJobs calibrations;
};

}  // namespace stillheap::server
