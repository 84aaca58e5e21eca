#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"

/// Labels to cut out, laminate and tie to the vessels.
namespace stillheap::sheet {

struct VesselLabel {
  std::string name;
  std::string address;  ///< what its QR code opens
};

/// Writes them as PDF, eight a page, on A4 or Letter: the vessel's name, what the code does, the code and its address.
/// Returns the number of pages. Throws InputError when there is none or an address is too long for a code, RunError
/// when the file cannot be written.
int write_labels(const std::vector<VesselLabel>& labels, const std::filesystem::path& file, UnitSystem units);

}  // namespace stillheap::sheet
