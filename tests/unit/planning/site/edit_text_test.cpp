#include "planning/site/edit_text.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "planning/site/parse_toml.hpp"
#include "planning/site/site.hpp"

namespace stillheap::site {
namespace {

const std::string yard = R"(# my yard
[blend]   # what goes in
moisture = ["60 %",
            "68 %"]   # of wet mass

[[vessel]]
name = "north"
diameter = "1.2 m"   # größer geht nicht

[vessel.channels]
count = 6            # on the ring
radius = "0.3 m"

[[vessel]]
name = "south"
diameter = "1.4 m"
)";

std::string with(const Edit& edit) { return edited(yard, std::vector<Edit>{edit}, "site.toml"); }

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

TEST(EditText, ChangesTheValueAndNothingElse) {
  EXPECT_EQ(with({"vessel", "north", "diameter", "\"1.25 m\""}), replaced(yard, "\"1.2 m\"", "\"1.25 m\""));
  EXPECT_EQ(with({"vessel", "south", "diameter", "\"2 m\""}), replaced(yard, "\"1.4 m\"", "\"2 m\""));
  EXPECT_EQ(with({"vessel.channels", "north", "count", "8"}), replaced(yard, "count = 6", "count = 8"));
}

TEST(EditText, ReplacesAValueOverSeveralLinesAndKeepsItsComment) {
  EXPECT_EQ(with({"blend", "", "moisture", "[\"50 %\", \"65 %\"]"}),
            replaced(yard, "[\"60 %\",\n            \"68 %\"]", "[\"50 %\", \"65 %\"]"));
}

TEST(EditText, PutsAMissingKeyUnderItsHeading) {
  EXPECT_EQ(with({"vessel.channels", "north", "centre", "true"}),
            replaced(yard, "[vessel.channels]\n", "[vessel.channels]\ncentre = true\n"));
}

TEST(EditText, AddsAMissingSectionBehindItsVessel) {
  const std::string text = with({"vessel.channels", "south", "count", "3"});
  EXPECT_EQ(text.substr(0, yard.size() - 1), yard.substr(0, yard.size() - 1));
  const toml::table root = parse_toml("site.toml", text);
  EXPECT_EQ(root.at_path("vessel[1].channels.count").value<int>(), 3);
  EXPECT_EQ(root.at_path("vessel[0].channels.count").value<int>(), 6);
}

TEST(EditText, LeavesWhatComesOutAsAComment) {
  EXPECT_EQ(with({"vessel.channels", "north", "count", std::nullopt}), replaced(yard, "count = 6 ", "# count = 6 "));
}

TEST(EditText, RefusesAVesselThatIsNotThere) {
  EXPECT_THROW((void)with({"vessel", "west", "diameter", "\"1 m\""}), InputError);
}

TEST(EditText, TellsTheLinesThatDiffer) {
  const auto lines = differing_lines("a\nb\nc\n", "a\nB\nc\nd\n");
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0].sign, '-');
  EXPECT_EQ(lines[0].text, "b");
  EXPECT_EQ(lines[1].text, "B");
  EXPECT_EQ(lines[2].sign, '+');
  EXPECT_EQ(lines[2].text, "d");
}

// What is put back as it was leaves every example's text as it was, byte for byte.
TEST(EditText, IsExactOnTheExamples) {
  for (const char* name : {"orchard-cooperative", "common-round-us", "market-garden-twelve", "rectangular-yard"}) {
    const std::string file = std::string(STILLHEAP_SOURCE_DIR "/examples/") + name + "/site.toml";
    const std::string text = read_site_text(file);
    const Site site = read_site(file);
    const std::vector<Edit> edits{{"vessel", site.vessels.back().name, "fill_height", "\"0.9 m\""}};
    const std::string changed = edited(text, edits, file);
    EXPECT_DOUBLE_EQ(read_site(file, {}, changed).vessels.back().fill_height_m, 0.9) << name;
    EXPECT_LE(differing_lines(text, changed).size(), 2U) << name;
  }
}

}  // namespace
}  // namespace stillheap::site
