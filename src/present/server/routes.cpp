#include <array>

#include "present/server/handlers.hpp"
#include "present/server/route.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t kilobyte = 1024;
constexpr std::size_t batch_bytes = 512 * kilobyte;  // chosen: 500 entries
constexpr std::size_t megabyte = 1024 * kilobyte;
constexpr std::size_t file_bytes = 24 * megabyte;   // chosen: a year of a busy logger
constexpr std::size_t photo_bytes = 30 * megabyte;  // as the records take them
constexpr bool before_session = true;

constexpr std::array table{
    Route{"GET", "/api/session", &get_session, kilobyte, before_session},
    Route{"POST", "/api/session", &open_session, kilobyte, before_session},
    Route{"DELETE", "/api/session", &close_session, kilobyte},
    Route{"GET", "/api/beginning", &get_beginning},
    Route{"POST", "/api/beginning", &begin_yard},
    Route{"POST", "/api/beginning/proposal", &propose_beginning},
    Route{"GET", "/api/site", &get_site},
    Route{"GET", "/api/yard", &get_yard},
    Route{"GET", "/api/addresses", &get_addresses},
    Route{"GET", "/api/store", &get_store},
    Route{"GET", "/api/changes", &send_changes},
    Route{"GET", "/api/today", &get_today},
    Route{"GET", "/api/fills/{fill}/state", &get_state},
    Route{"GET", "/api/fills/{fill}", &get_fill},
    Route{"GET", "/api/fills/{fill}/readings", &get_readings},
    Route{"GET", "/api/fills/{fill}/batch", &get_batch},
    Route{"GET", "/api/fills/{fill}/batch.pdf", &send_batch_record},
    Route{"GET", "/api/fills/{fill}/calibration", &get_calibration},
    Route{"POST", "/api/fills/{fill}/calibration", &order_calibration},
    Route{"DELETE", "/api/fills/{fill}/calibration", &stop_calibration},
    Route{"GET", "/api/vessels/{vessel}/fills", &get_fills},
    Route{"GET", "/api/lots", &get_lots},
    Route{"GET", "/api/labels.pdf", &send_labels},
    Route{"GET", "/api/calendar.ics", &send_calendar},
    Route{"GET", "/api/loggers", &get_loggers},
    Route{"POST", "/api/imports/preview", &preview_import, file_bytes},
    Route{"POST", "/api/imports", &import_file, file_bytes},
    Route{"GET", "/api/export", &get_export},
    Route{"POST", "/api/entries", &add_entries, batch_bytes},
    Route{"POST", "/api/photos", &add_photo, photo_bytes},
    Route{"GET", "/api/photos/{sha256}", &send_photo},
    Route{"POST", "/api/drafts", &draft},
    Route{"POST", "/api/site/proposal", &propose_site},
    Route{"POST", "/api/forecasts", &order_forecast},
    Route{"GET", "/api/forecasts/{forecast}", &get_forecast},
    Route{"DELETE", "/api/forecasts/{forecast}", &stop_forecast},
    Route{"GET", "/api/forecasts/{forecast}/inside", &get_inside},
    Route{"GET", "/api/forecasts/{forecast}/inside/{field}", &send_inside},
};

}  // namespace

std::span<const Route> routes() noexcept { return table; }

}  // namespace stillheap::server
