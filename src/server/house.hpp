#pragma once
#include <memory>
#include <string>

#include "server/calibration_shelf.hpp"
#include "server/forecast_shelf.hpp"
#include "server/session.hpp"
#include "server/state_shelf.hpp"
#include "server/store_pool.hpp"
#include "server/store_watch.hpp"
#include "server/write_queue.hpp"
#include "site/site.hpp"

namespace stillheap::server {

/// How open the server is.
struct Safety {
  bool lan = false;  ///< the network may ask; a passphrase is then needed
  bool tls = false;
  std::string passphrase_hash;  ///< Argon2id; only with lan
  std::string machine_name;     ///< a Host that may be asked for, with lan
};

/// All that the handlers work with. One of it lives as long as the server.
struct House {
  House(site::Site the_site, Safety the_safety);

  site::Site site;
  std::shared_ptr<const weather::Series> weather;  ///< read once
  Safety safety;
  StorePool stores;
  WriteQueue writes;
  StoreWatch store_watch;  ///< after the pool, which makes the store when there is none
  StateShelf states;
  Sessions sessions;
  LoginLimit login_limit;
  ForecastShelf forecasts;
  CalibrationShelf calibrations;
};

}  // namespace stillheap::server
