#pragma once
#include "present/server/house.hpp"
#include "present/server/message.hpp"

/// What each route does. Their answers are described in docs/openapi.json. They throw InputError (told as 422),
/// NotThere (404) and RunError (500).
namespace stillheap::server {

// session_handlers.cpp
[[nodiscard]] Response get_session(House& house, const Request& ask);
[[nodiscard]] Response open_session(House& house, const Request& ask);
[[nodiscard]] Response close_session(House& house, const Request& ask);
// beginning_handlers.cpp
[[nodiscard]] Response get_beginning(House& house, const Request& ask);
[[nodiscard]] Response begin_yard(House& house, const Request& ask);
[[nodiscard]] Response propose_beginning(House& house, const Request& ask);
// yard_handlers.cpp
[[nodiscard]] Response get_site(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_yard(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_addresses(House& house, const Request& ask);
// store_handlers.cpp
[[nodiscard]] Response get_store(ServerContext& context, const Request& ask);
// change_handlers.cpp
[[nodiscard]] Response send_changes(ServerContext& context, const Request& ask);
// insight_handlers.cpp
[[nodiscard]] Response get_today(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_state(ServerContext& context, const Request& ask);
// record_handlers.cpp
[[nodiscard]] Response get_fills(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_fill(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_readings(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_batch(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_export(ServerContext& context, const Request& ask);
[[nodiscard]] Response add_entries(ServerContext& context, const Request& ask);
[[nodiscard]] Response add_photo(ServerContext& context, const Request& ask);
[[nodiscard]] Response send_photo(ServerContext& context, const Request& ask);
// paper_handlers.cpp
[[nodiscard]] Response send_batch_record(ServerContext& context, const Request& ask);
[[nodiscard]] Response send_labels(ServerContext& context, const Request& ask);
[[nodiscard]] Response send_calendar(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_lots(ServerContext& context, const Request& ask);
// import_handlers.cpp
[[nodiscard]] Response get_loggers(ServerContext& context, const Request& ask);
[[nodiscard]] Response preview_import(ServerContext& context, const Request& ask);
[[nodiscard]] Response import_file(ServerContext& context, const Request& ask);
// calibration_handlers.cpp
[[nodiscard]] Response get_calibration(ServerContext& context, const Request& ask);
[[nodiscard]] Response order_calibration(ServerContext& context, const Request& ask);
[[nodiscard]] Response stop_calibration(ServerContext& context, const Request& ask);
// forecast_handlers.cpp
[[nodiscard]] Response propose_site(ServerContext& context, const Request& ask);
[[nodiscard]] Response draft(ServerContext& context, const Request& ask);
[[nodiscard]] Response order_forecast(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_forecast(ServerContext& context, const Request& ask);
[[nodiscard]] Response stop_forecast(ServerContext& context, const Request& ask);
[[nodiscard]] Response get_inside(ServerContext& context, const Request& ask);
[[nodiscard]] Response send_inside(ServerContext& context, const Request& ask);

}  // namespace stillheap::server
