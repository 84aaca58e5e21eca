#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <span>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "model/forecast/output.hpp"

// Format: "VTK XML file formats", VTK's own documentation (UnstructuredGrid, version 1.0, and the collection of
// time steps). Inline binary data are base64 of a count of bytes, of the type that header_type names, followed at
// once by the values; header and values are one stream when nothing is compressed.

namespace stillheap::forecast {
namespace {

constexpr std::uint8_t vtk_wedge = 13;
constexpr std::size_t wedge_nodes = 6;
constexpr std::string_view byte_order = std::endian::native == std::endian::little ? "LittleEndian" : "BigEndian";

/// Base64 after RFC 4648, section 4.
std::string base64(std::span<const unsigned char> bytes) {
  constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - i);
    std::uint32_t triple = 0;
    for (std::size_t k = 0; k < 3; ++k) triple = triple << 8 | (k < count ? bytes[i + k] : 0U);
    for (std::size_t k = 0; k < 4; ++k) text += k <= count ? alphabet[triple >> (18 - 6 * k) & 63U] : '=';
  }
  return text;
}

template <class Value>
std::string encode(const std::vector<Value>& values) {
  const std::uint64_t size = values.size() * sizeof(Value);
  std::vector<unsigned char> bytes(sizeof size + size);
  std::memcpy(bytes.data(), &size, sizeof size);
  if (size > 0) std::memcpy(bytes.data() + sizeof size, values.data(), size);
  return base64(bytes);
}

/// One DataArray; `more` holds further attributes.
std::string data_array(std::string_view type, std::string_view name, std::string_view encoded,
                       std::string_view more = "") {
  std::string text = "        <DataArray type=\"";
  text.append(type).append("\" Name=\"").append(name).append("\"").append(more).append(" format=\"binary\">");
  return text.append(encoded).append("</DataArray>\n");
}

std::string decimal(double value) {
  std::array<char, 32> buffer{};
  return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr};
}

/// Twice the area, positive when the corners run anticlockwise seen from above.
double turn(const FieldMesh& mesh, const std::array<int, 3>& triangle) {
  const auto at = [&](int corner) { return mesh.points[static_cast<std::size_t>(triangle[corner])]; };
  const auto [a, b, c] = std::array{at(0), at(1), at(2)};
  return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

/// Six nodes a wedge. VTK wants the normal of the first three nodes, by the right hand, to point away from the
/// other three (documentation of vtkWedge): the upper triangle anticlockwise from above, then the lower one.
std::vector<std::int32_t> wedges(const FieldMesh& mesh) {
  std::vector<std::int32_t> nodes;
  const int points = static_cast<int>(mesh.points.size());
  nodes.reserve(wedge_nodes * mesh.triangles.size() * static_cast<std::size_t>(std::max(0, mesh.levels - 1)));
  for (int level = 1; level < mesh.levels; ++level) {
    for (std::array<int, 3> triangle : mesh.triangles) {
      if (turn(mesh, triangle) < 0.0) std::swap(triangle[1], triangle[2]);
      for (const int node : triangle) nodes.push_back(level * points + node);
      for (const int node : triangle) nodes.push_back((level - 1) * points + node);
    }
  }
  return nodes;
}

std::string cells_element(const FieldMesh& mesh) {
  const std::vector<std::int32_t> nodes = wedges(mesh);
  std::vector<std::int32_t> ends(nodes.size() / wedge_nodes);
  for (std::size_t i = 0; i < ends.size(); ++i) ends[i] = static_cast<std::int32_t>(wedge_nodes * (i + 1));
  const std::vector<std::uint8_t> types(ends.size(), vtk_wedge);
  return "      <Cells>\n" + data_array("Int32", "connectivity", encode(nodes)) +
         data_array("Int32", "offsets", encode(ends)) + data_array("UInt8", "types", encode(types)) +
         "      </Cells>\n";
}

std::string points_element(const FieldMesh& mesh, const Snapshot& snapshot) {
  std::vector<float> places;
  places.reserve(3 * mesh.points.size() * snapshot.level_m.size());
  for (const double level_m : snapshot.level_m) {
    for (const Point& point : mesh.points)
      for (const double value : {point.x_m, point.y_m, level_m}) places.push_back(static_cast<float>(value));
  }
  return "      <Points>\n" + data_array("Float32", "Points", encode(places), " NumberOfComponents=\"3\"") +
         "      </Points>\n";
}

std::string vtu_text(const FieldMesh& mesh, const Snapshot& snapshot, const std::string& cells) {
  const std::size_t points = mesh.points.size() * snapshot.level_m.size();
  const std::size_t wedge_count = mesh.triangles.size() * static_cast<std::size_t>(std::max(0, mesh.levels - 1));
  assert(snapshot.level_m.size() == static_cast<std::size_t>(mesh.levels));
  assert(snapshot.temperature_c.size() == points);
  assert(snapshot.oxygen.size() == points);
  assert(snapshot.moisture_wet.size() == points);
  std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<VTKFile type=\"UnstructuredGrid\" version=\"1.0\" ";
  text.append("byte_order=\"").append(byte_order).append("\" header_type=\"UInt64\">\n  <UnstructuredGrid>\n");
  text += "    <FieldData>\n" +
          data_array("Float64", "TimeValue", encode(std::vector{snapshot.day}), " NumberOfTuples=\"1\"") +
          "    </FieldData>\n";
  text += "    <Piece NumberOfPoints=\"" + std::to_string(points) + "\" NumberOfCells=\"" +
          std::to_string(wedge_count) + "\">\n      <PointData Scalars=\"temperature_degC\">\n" +
          data_array("Float32", "temperature_degC", encode(snapshot.temperature_c)) +
          data_array("Float32", "oxygen_share", encode(snapshot.oxygen)) +
          data_array("Float32", "moisture_wet", encode(snapshot.moisture_wet)) + "      </PointData>\n";
  text += points_element(mesh, snapshot) + cells;
  return text + "    </Piece>\n  </UnstructuredGrid>\n</VTKFile>\n";
}

std::string file_name(std::size_t index) {
  std::string number = std::to_string(index);
  if (number.size() < 4) number.insert(0, 4 - number.size(), '0');
  return "fields_" + number + ".vtu";
}

std::string collection_text(const std::vector<Snapshot>& snapshots) {
  std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<VTKFile type=\"Collection\" version=\"0.1\" ";
  text.append("byte_order=\"").append(byte_order).append("\">\n  <!-- timestep: days since filling -->\n");
  text += "  <Collection>\n";
  for (std::size_t i = 0; i < snapshots.size(); ++i) {
    text += "    <DataSet timestep=\"" + decimal(snapshots[i].day) + "\" group=\"\" part=\"0\" file=\"" + file_name(i) +
            "\"/>\n";
  }
  return text + "  </Collection>\n</VTKFile>\n";
}

}  // namespace

void write_fields(const Result& result, const std::filesystem::path& folder) {
  std::error_code failure;
  std::filesystem::create_directories(folder, failure);
  if (failure)
    throw RunError(folder.string(), "the folder cannot be made: " + failure.message(), "name another folder");
  const std::string cells = cells_element(result.mesh);
  for (std::size_t i = 0; i < result.snapshots.size(); ++i)
    write_whole_file(folder / file_name(i), vtu_text(result.mesh, result.snapshots[i], cells));
  write_whole_file(folder / "fields.pvd", collection_text(result.snapshots));
}

}  // namespace stillheap::forecast
