#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "yard/record/csv_import.hpp"

/// The log sheet typed back in: readings of core and side, squeezed handfuls and water, from one CSV file as the plan
/// writes it (log_sheet.hpp).
namespace stillheap::record {

struct LogRequest {
  std::filesystem::path file;
  std::string fill_id;
  EntryMetadata mark;  ///< who types it in, and the zone its hours count in; a row's own initials come first
  YardFacts facts{};   ///< what is unlikely in this yard
  bool sure = false;   ///< the unlikely goes in too
};

struct LogPreview {
  std::filesystem::path file;
  std::vector<Reading> readings;  ///< what will go in
  std::vector<Event> events;      ///< water as `sprinkled`, a squeezed handful as `other` with its word in the note
  std::vector<Refusal> held;      ///< unlikely: not stored unless somebody is sure
  std::vector<Refusal> refused;
  std::size_t rows = 0;   ///< with anything but day, hour and initials; the others are passed over
  std::size_t known = 0;  ///< cells that the records hold already
  [[nodiscard]] std::size_t good() const noexcept { return readings.size() + events.size(); }
};

/// Reads the file and tells what would go in; stores nothing. A day counts from the day of the filling; numbers without
/// unit are in that of the column's head. Water is a volume or how long it ran ("10 min"). A cell that the records
/// hold already is known; another value for its day and hour is refused. Throws InputError when the file cannot be
/// read, a column is missing, or the fill is not in the records.
[[nodiscard]] LogPreview preview_log(const Store& store, const LogRequest& request);

/// Stores the preview in one transaction: all of it, or nothing. Returns how many entries were stored.
std::size_t import_log(Store& store, const LogPreview& preview);

}  // namespace stillheap::record
