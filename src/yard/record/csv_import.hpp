#pragma once
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "yard/record/csv_mapping.hpp"
#include "yard/record/store.hpp"

/// Readings from the CSV file of a logger: first a preview of all of it, then everything in one transaction.
namespace stillheap::record {

/// A cell that will not go in, and why.
struct Refusal {
  std::size_t line = 0;  ///< from 1
  std::string column;
  std::string value;  ///< as it stands in the file
  std::string why;
};

struct CsvPreview {
  std::filesystem::path file;
  std::string source;
  CsvMapping mapping;
  EntryMetadata mark;              ///< who imports
  std::vector<Reading> readings;   ///< what will go in, in the order of the file
  std::vector<Refusal> refused;    ///< everything else but cells that are known already or hold nothing
  std::size_t rows = 0;            ///< lines below the header that hold anything
  std::size_t known = 0;           ///< cells whose very content is in the records already
  std::size_t nothing = 0;         ///< cells that mean: nothing read
  std::vector<std::string> notes;  ///< what was decided on the way: the hour that came twice
};

/// What is to be read.
struct CsvRequest {
  std::filesystem::path file;
  std::string source;                 ///< name of the logger
  std::optional<CsvMapping> mapping;  ///< none: the one kept under the name
  std::string fill_id;
  EntryMetadata mark;  ///< by and zone
};

/// Reads the whole file and tells what would go in. Stores nothing.
/// Times before the fill or after its end are refused; so is a second value for a place and time, in the file or in
/// the records. In the hour that comes twice in autumn, rows go on in the order of the file.
/// Throws InputError when the file cannot be read, a column is missing, or no mapping is known.
[[nodiscard]] CsvPreview preview_csv(const Store& store, const CsvRequest& request);

/// Stores a preview: the mapping under the logger's name, and all readings, in one transaction. Returns how many
/// readings were stored; those that came in otherwise since the preview are passed over.
std::size_t import_csv(Store& store, const CsvPreview& preview);

/// The mapping kept under a logger's name. Nothing when the name is not known.
[[nodiscard]] std::optional<CsvMapping> kept_mapping(const Store& store, const std::string& source);

}  // namespace stillheap::record
