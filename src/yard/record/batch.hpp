#pragma once
#include <iosfwd>
#include <string>
#include <vector>

#include "yard/record/store.hpp"

/// One batch as data: the statements about one fill, its vessel, lots and photos included, as JSON text that is the
/// same whenever the records are the same. Statements pass one after the other: memory does not grow with the readings.
/// All throw InputError when the fill is not known.
namespace stillheap::record {

void write_batch_json(const Store& store, const std::string& fill_id, std::ostream& to);

/// The same as one text.
[[nodiscard]] std::string batch_json(const Store& store, const std::string& fill_id);

/// A statement and the one that it corrects or withdraws, both as JSON objects as they stand in batch_json.
struct BatchCorrection {
  std::string kind;  ///< "readings"
  std::string before, after;
};

struct BatchDigest {
  std::string sha256;  ///< of batch_json; stands on the batch record
  std::vector<BatchCorrection> corrections;
};
[[nodiscard]] BatchDigest digest_batch(const Store& store, const std::string& fill_id);

}  // namespace stillheap::record
