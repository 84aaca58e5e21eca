#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "present/draw/canvas.hpp"

/// Labels to cut out, laminate and tie to the vessels.
namespace stillheap::sheet {

struct VesselLabel {
  std::string name;
  std::string address;  ///< what its QR code opens
};

/// Width and height of one label, cut out.
[[nodiscard]] Box label_size(const Paper& paper);

/// Draws one label: the vessel's name, what the code does, the code and its address, in a line to cut along. Throws
/// InputError when the address is too long for a code.
void draw_vessel_label(Canvas& canvas, const Box& cell, const VesselLabel& label);

/// Writes them as PDF, eight a page, on A4 or Letter: the vessel's name, what the code does, the code and its address.
/// Returns the number of pages. Throws InputError when there is none or an address is too long for a code, RunError
/// when the file cannot be written.
int write_labels(const std::vector<VesselLabel>& labels, const std::filesystem::path& file, UnitSystem units);

}  // namespace stillheap::sheet
