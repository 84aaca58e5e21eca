#include <gtest/gtest.h>

#include <set>

#include "support.hpp"

namespace stillheap::study {
namespace {

using test::Folder;
using test::write_study;

/// What reading the study and its cases' sites says is wrong.
std::string complaint(const Folder& folder, const std::string& text) {
  try {
    const Study study = read_study(write_study(folder, text));
    for (const Case& one : cases_of(study)) (void)site_of(study, one);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Study, CrossesAllValuesInAGridAndTheLastKeyChangesFastest) {
  const Folder folder;
  const std::vector<Case> cases = cases_of(read_study(write_study(folder, test::six_drafts())));
  ASSERT_EQ(cases.size(), 6U);
  EXPECT_EQ(cases[0].values, (std::vector<std::string>{"\"12 ft 6 in\"", "\"60 %\""}));
  EXPECT_EQ(cases[1].values, (std::vector<std::string>{"\"12 ft 6 in\"", "\"65 %\""}));
  EXPECT_EQ(cases[5].values, (std::vector<std::string>{"\"15 ft\"", "\"70 %\""}));
  EXPECT_EQ(cases[5].number, 6);
}

TEST(Study, TakesListsSideBySide) {
  const Folder folder;
  const std::string text =
      "way = \"list\"\n[vary.vessel.channels.count]\nlist = [3, 4]\n[vary.\"fill.people\"]\nlist = [1, 2]\n";
  const Study study = read_study(write_study(folder, text));
  const std::vector<Case> cases = cases_of(study);
  ASSERT_EQ(cases.size(), 2U);
  EXPECT_EQ(words_of(study, cases[1]), "vessel.channels.count = 4, fill.people = 2");
}

TEST(Study, SpreadsQuasiRandomCasesOverTheWholeRange) {
  const Folder folder;
  const std::string text =
      "way = \"quasi-random\"\ncount = 64\nseed = 3\n[vary.\"blend.soaked_moisture\"]\nfrom = \"50 %\"\nto = \"70 %\"\n"
      "[vary.\"vessel.channels.count\"]\nfrom = 2\nto = 5\n[vary.\"vessel.wall\"]\nlist = [\"open\", \"closed\"]\n";
  const Study study = read_study(write_study(folder, text));
  const std::vector<Case> cases = cases_of(study);
  ASSERT_EQ(cases.size(), 64U);
  std::array<int, 4> quarters{};
  std::map<std::string, int> channels, walls;
  for (const Case& one : cases) {
    const double share = (*number_of(study.axes[0], one.values[0]) - 0.5) / 0.2;
    ASSERT_GE(share, 0.0);
    ASSERT_LE(share, 1.0);
    ++quarters[std::min<std::size_t>(3, static_cast<std::size_t>(4.0 * share))];
    ++channels[one.values[1]];
    ++walls[one.values[2]];
  }
  // Sobol points of a power of two fill every quarter with a quarter of them; the shift moves at most one across a
  // bound.
  for (const int quarter : quarters) EXPECT_NEAR(quarter, 16, 1);
  EXPECT_EQ(channels.size(), 4U);
  for (const auto& [value, count] : channels) EXPECT_NEAR(count, 16, 1) << value;
  EXPECT_EQ(walls.size(), 2U);
  const auto again = cases_of(study);
  for (std::size_t i = 0; i < cases.size(); ++i) EXPECT_EQ(cases[i].values, again[i].values);
}

TEST(Study, GivesTheSiteItsValues) {
  const Folder folder;
  const Study study = read_study(write_study(folder, test::six_drafts()));
  const std::vector<Case> cases = cases_of(study);
  const site::Site first = site_of(study, cases[0]);
  const site::Site last = site_of(study, cases[5]);
  EXPECT_DOUBLE_EQ(first.blend.moisture_target_wet, 0.60);
  EXPECT_DOUBLE_EQ(last.blend.moisture_target_wet, 0.70);
  EXPECT_LT(first.vessels[0].diameter_m, last.vessels[0].diameter_m);
  EXPECT_EQ(first.grid, forecast::Grid::draft);
  EXPECT_EQ(first.forecast_days, 20);
}

TEST(Study, ReachesOneBlockByItsNameAndOneShareByItsFeedstock) {
  const Folder folder;
  const std::string text =
      "way = \"list\"\n[vary.\"feedstock.leaves.moisture\"]\nlist = [\"20 %\"]\n[vary.\"blend.shares.leaves\"]\nlist = "
      "[\"26.5 %\"]\n"
      "[set]\nvessel.ring.fill_height = \"4 ft\"\n";
  const Study study = read_study(write_study(folder, text));
  const site::Site site = site_of(study, cases_of(study)[0]);
  EXPECT_DOUBLE_EQ(site.offers[1].feedstock.moisture_wet, 0.20);
  EXPECT_NE(site.offers[0].feedstock.moisture_wet, 0.20);
  EXPECT_NEAR(site.vessels[0].fill_height_m, 4 * 0.3048, 1e-12);
}

TEST(Study, TellsFileLineKeyValueAndWhatIsAllowed) {
  const Folder folder;
  const std::string told = complaint(folder, "[vary.\"vessel.panel_length\"]\nlist = [\"12 ft\", \"90 ft\"]\n");
  EXPECT_TRUE(has(told, "study.toml:2: vessel.ring.panel_length = \"90 ft\" is too large")) << told;
  EXPECT_TRUE(has(told, "at most 62 ft 4 in")) << told;
}

TEST(Study, TellsWhatCannotStandTogether) {
  const Folder folder;
  const std::string told = complaint(folder, "[vary.\"vessel.channels.radius\"]\nlist = [\"12 in\", \"23 in\"]\n");
  EXPECT_TRUE(has(told, "study.toml:2: vessel.ring.channels.radius = \"23 in\"")) << told;
}

TEST(Study, RefusesWhatItDoesNotKnow) {
  const Folder folder;
  EXPECT_TRUE(has(complaint(folder, "[vary.\"vessel.diametre\"]\nlist = [\"1 m\"]\n"), "vessel.diameter"));
  EXPECT_TRUE(has(complaint(folder, "way = \"random\"\n" + test::six_drafts()), "grid, list or quasi-random"));
  EXPECT_TRUE(has(complaint(folder, "colour = 1\n" + test::six_drafts()), "not a key of a study"));
  EXPECT_TRUE(has(complaint(folder, ""), "vary is missing"));
  EXPECT_TRUE(has(complaint(folder, "way = \"quasi-random\"\n" + test::six_drafts()), "count is missing"));
  EXPECT_TRUE(has(complaint(folder, "[vary.\"vessel.stone.height\"]\nlist = [\"1 m\"]\n"), "block that the site file"));
  EXPECT_TRUE(has(complaint(folder, "[vary.\"fill.people\"]\nfrom = 1\nto = 4\nsteps = 3\n"), "whole numbers"));
  EXPECT_TRUE(
      has(complaint(folder, "[vary.\"vessel.height\"]\nfrom = \"1 m\"\nto = \"6 ft\"\nsteps = 3\n"), "same unit"));
  EXPECT_TRUE(has(complaint(folder, "way = \"list\"\n" + test::six_drafts()), "different lengths"));
  EXPECT_TRUE(has(complaint(folder, "[vary.\"vessel.wall\"]\nfrom = \"a\"\nto = \"b\"\nsteps = 2\n"), "no amount"));
}

TEST(Study, RefusesAKeyThatStandsTwice) {
  const Folder folder;
  const std::string varied = "[vary.\"vessel.panel_length\"]\nlist = [\"12 ft\"]\n";
  EXPECT_TRUE(has(complaint(folder, varied + "[vary.vessel.panel_length]\nlist = [\"15 ft\"]\n"),
                  "study.toml:4: vary.vessel.panel_length: stands at"));
  EXPECT_TRUE(has(complaint(folder, varied + "[set]\nvessel.panel_length = \"15 ft\"\n"),
                  "study.toml:5: set.vessel.panel_length: stands at"));
  // One of all rings, and one block's alone, are two keys.
  EXPECT_NO_THROW(
      (void)read_study(write_study(folder, varied + "[set]\nvessel.ring.panel_length = \"15 ft\"\n", "both.toml")));
}

TEST(Study, OfTheExamplesCanBeRun) {
  const Study study = read_study(std::filesystem::path(STILLHEAP_SOURCE_DIR) / "examples/study/study.toml");
  const std::vector<Case> cases = cases_of(study);
  EXPECT_EQ(cases.size(), 24U);
  for (const Case& one : cases) EXPECT_NO_THROW((void)site_of(study, one)) << words_of(study, one);
}

TEST(Study, VariesTheSiteFileAsItWasWhenItWasRead) {
  const Folder folder;
  const Study study = read_study(write_study(folder, test::six_drafts()));
  std::ofstream(study.site) << "broken = \n";
  EXPECT_NO_THROW((void)site_of(study, cases_of(study)[0]));
}

TEST(Study, IsRefusedWithSignsOutsideQuotes) {
  const Folder folder;
  EXPECT_TRUE(has(complaint(folder, "größe = 1\n" + test::six_drafts()), "study.toml:2: \"ö\" stands outside quotes"));
}

TEST(Study, IsRefusedWithoutItsSiteFile) {
  const Folder folder;
  const auto file = folder.write("lost.toml", "site = \"nowhere\"\n" + test::six_drafts());
  EXPECT_THROW((void)read_study(file), InputError);
}

}  // namespace
}  // namespace stillheap::study
