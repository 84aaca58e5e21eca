#pragma once
#include <filesystem>
#include <string>

#include "core/quantity/quantity.hpp"
#include "domain/vessel/design.hpp"
#include "yard/record/store.hpp"

/// The record of one batch to print, sign and file.
namespace stillheap::sheet {

struct BatchPrint {
  UnitSystem units = UnitSystem::metric;
  std::string zone = "UTC";                ///< for printed times
  const vessel::Design* design = nullptr;  ///< of the vessel, for the share the probes speak for; null: not known
};

/// Writes what the records hold of one fill: figures, lots, temperature chart, readings by place, what the
/// hygiene rules find in them, events, tests,
/// spreading, photos with their hashes, every correction with the old value and why, and the SHA-256 of batch_json,
/// so that the paper can be held against the data. The same records give the same bytes. Returns the number of pages.
/// Throws InputError when the fill is not known, RunError when the file cannot be written.
int write_batch_record(const record::Store& store, const std::string& fill_id, const std::filesystem::path& file,
                       const BatchPrint& print);

}  // namespace stillheap::sheet
