#include <array>
#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

#include "model/forecast/output.hpp"
#include "output_folder.hpp"

namespace stillheap::forecast {
namespace {

namespace fs = std::filesystem;
using FieldFiles = OutputFolder;

std::vector<unsigned char> from_base64(const std::string& text) {
  const std::string alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::vector<unsigned char> bytes;
  std::uint32_t bits = 0;
  int held = 0;
  EXPECT_EQ(text.size() % 4, 0U);
  for (const char c : text) {
    if (c == '=') break;
    const std::size_t at = alphabet.find(c);
    EXPECT_NE(at, std::string::npos) << c;
    bits = bits << 6 | static_cast<std::uint32_t>(at);
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes.push_back(static_cast<unsigned char>(bits >> held & 255U));
  }
  return bytes;
}

/// The element's own text: from its attributes to the first end of an element.
std::string element(const std::string& xml, const std::string& key) {
  const std::size_t at = xml.find(key);
  if (at == std::string::npos) return "no " + key;
  return xml.substr(at, xml.find('<', at + 1) - at);
}

std::string attribute(const std::string& of, const std::string& name) {
  const std::size_t at = of.find(name + "=\"");
  if (at == std::string::npos) return "no " + name;
  const std::size_t start = at + name.size() + 2;
  return of.substr(start, of.find('"', start) - start);
}

template <class Value>
std::vector<Value> array_of(const std::string& xml, const std::string& type, const std::string& name) {
  const std::string text = element(xml, "<DataArray type=\"" + type + "\" Name=\"" + name + "\"");
  EXPECT_EQ(attribute(text, "format"), "binary") << name;
  const std::vector<unsigned char> bytes = from_base64(text.substr(text.find('>') + 1));
  std::uint64_t size = 0;
  if (bytes.size() < sizeof size) return {};
  std::memcpy(&size, bytes.data(), sizeof size);
  EXPECT_EQ(size, bytes.size() - sizeof size) << name;
  std::vector<Value> values((bytes.size() - sizeof size) / sizeof(Value));
  std::memcpy(values.data(), bytes.data() + sizeof size, values.size() * sizeof(Value));
  return values;
}

TEST(Base64Reader, ReadsTheVectorsOfRfc4648) {  // section 10: the reader of these tests itself
  const auto text = [](const std::string& coded) {
    const std::vector<unsigned char> bytes = from_base64(coded);
    return std::string(bytes.begin(), bytes.end());
  };
  EXPECT_EQ(text("Zg=="), "f");
  EXPECT_EQ(text("Zm8="), "fo");
  EXPECT_EQ(text("Zm9v"), "foo");
  EXPECT_EQ(text("Zm9vYmFy"), "foobar");
}

TEST_F(FieldFiles, VtuCountsAgreeWithTheMesh) {
  const Result result = small_result();
  write_fields(result, folder);
  const std::string xml = read(folder / "fields_0000.vtu");
  EXPECT_EQ(attribute(element(xml, "<VTKFile"), "header_type"), "UInt64");
  EXPECT_EQ(attribute(element(xml, "<Piece"), "NumberOfPoints"), "12");
  EXPECT_EQ(attribute(element(xml, "<Piece"), "NumberOfCells"), "4");
  EXPECT_EQ(array_of<std::int32_t>(xml, "Int32", "offsets"), (std::vector<std::int32_t>{6, 12, 18, 24}));
  EXPECT_EQ(array_of<std::uint8_t>(xml, "UInt8", "types"), (std::vector<std::uint8_t>{13, 13, 13, 13}));
  EXPECT_EQ(array_of<std::int32_t>(xml, "Int32", "connectivity").size(), 24U);
  EXPECT_EQ(array_of<float>(xml, "Float32", "Points").size(), 36U);
}

TEST_F(FieldFiles, VtuGivesBackTheVeryFloats) {
  const Result result = small_result();
  write_fields(result, folder);
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string xml = read(folder / ("fields_000" + std::to_string(i) + ".vtu"));
    const Snapshot& snapshot = result.snapshots[i];
    EXPECT_EQ(array_of<float>(xml, "Float32", "temperature_degC"), snapshot.temperature_c);
    EXPECT_EQ(array_of<float>(xml, "Float32", "oxygen_share"), snapshot.oxygen);
    EXPECT_EQ(array_of<float>(xml, "Float32", "moisture_wet"), snapshot.moisture_wet);
    EXPECT_EQ(array_of<double>(xml, "Float64", "TimeValue"), std::vector{snapshot.day});
    const std::vector<float> places = array_of<float>(xml, "Float32", "Points");
    ASSERT_EQ(places.size(), 36U);
    constexpr std::size_t at = 27;  // level 2, point 1 of 4, three numbers a point
    EXPECT_EQ(places[at], 2.0F);
    EXPECT_EQ(places[at + 1], 0.0F);
    EXPECT_EQ(places[at + 2], static_cast<float>(snapshot.level_m[2]));
  }
}

using Vector = std::array<double, 3>;

Vector minus(const Vector& a, const Vector& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }

/// a x b . c
double triple(const Vector& a, const Vector& b, const Vector& c) {
  return (a[1] * b[2] - a[2] * b[1]) * c[0] + (a[2] * b[0] - a[0] * b[2]) * c[1] + (a[0] * b[1] - a[1] * b[0]) * c[2];
}

/// Volume of an upright wedge in VTK's sense: positive when the normal of nodes 0, 1, 2 points away from node 3.
/// Source: documentation of vtkWedge. Prism: half the cross product times the height.
double vtk_volume_m3(const std::array<Vector, 6>& p) {
  return -0.5 * triple(minus(p[1], p[0]), minus(p[2], p[0]), minus(p[3], p[0]));
}

TEST_F(FieldFiles, EveryWedgeHasPositiveVolumeInVtksSense) {
  const Result result = small_result();
  write_fields(result, folder);
  const std::string xml = read(folder / "fields_0001.vtu");
  const std::vector<float> places = array_of<float>(xml, "Float32", "Points");
  const std::vector<std::int32_t> nodes = array_of<std::int32_t>(xml, "Int32", "connectivity");
  ASSERT_EQ(nodes.size(), 24U);
  double sum_m3 = 0.0;
  for (std::size_t cell = 0; cell < nodes.size() / 6; ++cell) {
    std::array<Vector, 6> p{};
    for (std::size_t k = 0; k < 6; ++k) {
      for (std::size_t axis = 0; axis < 3; ++axis)
        p[k][axis] = places.at(3 * static_cast<std::size_t>(nodes[6 * cell + k]) + axis);
    }
    EXPECT_GT(vtk_volume_m3(p), 0.0) << "wedge " << cell;
    sum_m3 += vtk_volume_m3(p);
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_EQ(p[k][0], p[k + 3][0]) << "node " << k << " and its partner stand over each other";
      EXPECT_EQ(p[k][1], p[k + 3][1]);
    }
  }
  EXPECT_NEAR(sum_m3, 2.0 * (1.0 - 0.21), 1e-6) << "plan of 2.0 m2 times the height; 32-bit places";
}

TEST_F(FieldFiles, CollectionNamesEveryFileWithItsDay) {
  const Result result = small_result();
  write_fields(result, folder / "made" / "fields");
  const std::string xml = read(folder / "made" / "fields" / "fields.pvd");
  EXPECT_EQ(attribute(element(xml, "<VTKFile"), "type"), "Collection");
  std::vector<std::string> seen;
  for (std::size_t at = xml.find("<DataSet"); at != std::string::npos; at = xml.find("<DataSet", at + 1)) {
    const std::string entry = element(xml.substr(at), "<DataSet");
    seen.push_back(attribute(entry, "timestep"));
    EXPECT_TRUE(fs::exists(folder / "made" / "fields" / attribute(entry, "file")));
  }
  EXPECT_EQ(seen, (std::vector<std::string>{"0.5", "21"}));
}

}  // namespace
}  // namespace stillheap::forecast
