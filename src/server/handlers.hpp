#pragma once
#include "server/house.hpp"
#include "server/message.hpp"

/// What each route does. Their answers are described in docs/openapi.json. They throw InputError (told as 422),
/// NotThere (404) and RunError (500).
namespace stillheap::server {

// session_handlers.cpp
[[nodiscard]] Answer tell_session(House& house, const Ask& ask);
[[nodiscard]] Answer open_session(House& house, const Ask& ask);
[[nodiscard]] Answer close_session(House& house, const Ask& ask);
// yard_handlers.cpp
[[nodiscard]] Answer tell_site(House& house, const Ask& ask);
[[nodiscard]] Answer tell_yard(House& house, const Ask& ask);
// store_handlers.cpp
[[nodiscard]] Answer tell_store(House& house, const Ask& ask);
// insight_handlers.cpp
[[nodiscard]] Answer tell_today(House& house, const Ask& ask);
[[nodiscard]] Answer tell_state(House& house, const Ask& ask);
// record_handlers.cpp
[[nodiscard]] Answer tell_fills(House& house, const Ask& ask);
[[nodiscard]] Answer tell_fill(House& house, const Ask& ask);
[[nodiscard]] Answer tell_readings(House& house, const Ask& ask);
[[nodiscard]] Answer tell_batch(House& house, const Ask& ask);
[[nodiscard]] Answer tell_export(House& house, const Ask& ask);
[[nodiscard]] Answer add_entries(House& house, const Ask& ask);
[[nodiscard]] Answer add_photo(House& house, const Ask& ask);
[[nodiscard]] Answer send_photo(House& house, const Ask& ask);
// paper_handlers.cpp
[[nodiscard]] Answer send_batch_record(House& house, const Ask& ask);
[[nodiscard]] Answer send_calendar(House& house, const Ask& ask);
[[nodiscard]] Answer tell_lots(House& house, const Ask& ask);
// import_handlers.cpp
[[nodiscard]] Answer tell_loggers(House& house, const Ask& ask);
[[nodiscard]] Answer preview_import(House& house, const Ask& ask);
[[nodiscard]] Answer import_file(House& house, const Ask& ask);
// calibration_handlers.cpp
[[nodiscard]] Answer tell_calibration(House& house, const Ask& ask);
[[nodiscard]] Answer order_calibration(House& house, const Ask& ask);
[[nodiscard]] Answer stop_calibration(House& house, const Ask& ask);
// forecast_handlers.cpp
[[nodiscard]] Answer draft(House& house, const Ask& ask);
[[nodiscard]] Answer order_forecast(House& house, const Ask& ask);
[[nodiscard]] Answer tell_forecast(House& house, const Ask& ask);
[[nodiscard]] Answer stop_forecast(House& house, const Ask& ask);
[[nodiscard]] Answer tell_inside(House& house, const Ask& ask);
[[nodiscard]] Answer send_inside(House& house, const Ask& ask);

}  // namespace stillheap::server
