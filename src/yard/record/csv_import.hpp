#pragma once
#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "yard/record/csv_mapping.hpp"
#include "yard/record/doubt.hpp"
#include "yard/record/store.hpp"

/// Readings from the CSV file of a logger: first a preview of all of it, then all that is good.
namespace stillheap::record {

/// A cell that will not go in, and why.
struct Refusal {
  std::size_t line = 0;  ///< from 1
  std::string column;
  std::string value;  ///< as it stands in the file and a terminal may show it, cut when long
  std::string why;
};

struct CsvPreview {
  std::filesystem::path file;
  std::string source;
  CsvMapping mapping;
  EntryMetadata mark;              ///< who imports
  std::vector<Reading> readings;   ///< what will go in, in the order of the file
  std::vector<Refusal> held;       ///< unlikely: not stored unless the request says that somebody is sure
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
  YardFacts facts{};   ///< what is unlikely in this yard
  bool sure = false;   ///< the unlikely goes in too
};

/// Reads the whole file and tells what would go in. Stores nothing.
/// Times before the fill or after its end are refused; so is a second value for a place and time, in the file or in
/// the records. In the hour that comes twice in autumn, rows go on in the order of the file.
/// Throws InputError when the file cannot be read, a column is missing, or no mapping is known.
[[nodiscard]] CsvPreview preview_csv(const Store& store, const CsvRequest& request);

/// Readings stored in one transaction: so long is the store held, some 0.1 s, before others have their turn.
inline constexpr std::size_t rows_at_once = 1000;  // chosen

/// Runs a part of an import on a store, whole or not at all.
using ImportPart = std::function<void(Store&)>;
using PartRunner = std::function<void(const ImportPart& part)>;

/// Stores a preview, the mapping under the logger's name and all readings, part by part. Returns how many readings were
/// stored; those that came in otherwise since the preview are passed over. What is refused was refused by the preview,
/// before anything was stored; when the program is killed or the disk is full on the way, the same import goes on where
/// it stopped: RunError tells how far it came.
std::size_t import_csv(Store& store, const CsvPreview& preview);
/// The same where `run` chooses the store and the turn of each part.
std::size_t import_csv(const CsvPreview& preview, const PartRunner& run);

/// The mapping kept under a logger's name. Nothing when the name is not known.
[[nodiscard]] std::optional<CsvMapping> kept_mapping(const Store& store, const std::string& source);

}  // namespace stillheap::record
