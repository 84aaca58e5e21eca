#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "yard/record/entries.hpp"

/// How the CSV file of one logger is read. Given once, kept in the store under the logger's name.
namespace stillheap::record {

/// One column that holds readings.
struct CsvProbe {
  std::string column;  ///< its header, exactly
  Measure measure = Measure::temperature;
  std::string unit;  ///< "degF", "%", "dS/m"; "pH" for acidity
  Place place;
  std::string probe;  ///< only rows whose `probe_column` holds this; empty: all rows
  bool operator==(const CsvProbe&) const = default;
};

struct CsvMapping {
  std::string time;             ///< column of the time, or of the time of day when `date` is given
  std::string date;             ///< column of the date; empty: it stands with the time
  std::string pattern = "iso";  ///< as read_time takes it; date and time joined by one blank
  std::string zone = "UTC";     ///< IANA zone or offset of the logger's clock, for times without their own
  std::string delimiter;        ///< one sign; empty: found from the header
  bool decimal_comma = false;
  int header_line = 1;       ///< loggers like to put notes above
  std::string probe_column;  ///< column that names the probe, for files with one reading a row; may be empty
  std::vector<std::string> no_value{"",    "-",   "--", "---",
                                    "NaN", "nan", "NA", "N/A"};  ///< cells that mean: nothing read
  std::vector<CsvProbe> probes;
  bool operator==(const CsvMapping&) const = default;
};

/// Reads "T1=temperature,degF,place:core,depth:18 in": header, measure, unit, then any of place, depth, height,
/// radius, angle, probe. The header may hold everything but its own last "=". Throws InputError with `where`.
[[nodiscard]] CsvProbe parse_probe(std::string_view text, std::string_view where);

/// JSON both ways, in SI, keys as the fields above. from_json refuses unknown keys and impossible values.
[[nodiscard]] std::string to_json(const CsvMapping& mapping);
[[nodiscard]] CsvMapping mapping_from_json(std::string_view text, std::string_view where);

/// Throws InputError naming everything in the mapping that cannot be: no time, no probe, unknown zone or unit.
void check(const CsvMapping& mapping, std::string_view where);

}  // namespace stillheap::record
