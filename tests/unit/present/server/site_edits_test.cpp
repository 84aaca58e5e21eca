#include "present/server/site_edits.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace stillheap::server {
namespace {

const std::string folder = STILLHEAP_SOURCE_DIR "/examples/";

/// The site file with the change written in, read again.
site::Site read_again(const std::string& name, const Change& change) {
  const std::string file = folder + name + "/site.toml";
  return site::read_site(file, {},
                         site::edited(site::read_site_text(file), edits_of(site::read_site(file), change), file));
}

Change of(const site::Site& site) {
  Change change;
  change.design = site.vessels.front().name;
  return change;
}

std::vector<vessel::Channel> ring(int count, double radius_m, double first_rad) {
  std::vector<vessel::Channel> made;
  for (int i = 0; i < count; ++i) {
    const double angle = first_rad + 2.0 * std::numbers::pi * i / count;
    made.push_back({{radius_m * std::cos(angle), radius_m * std::sin(angle)}, 0.1});
  }
  return made;
}

void expect_same(const std::vector<vessel::Channel>& a, const std::vector<vessel::Channel>& b) {
  ASSERT_EQ(a.size(), b.size());
  for (const vessel::Channel& one : a) {
    double nearest_m = 1.0;
    for (const vessel::Channel& other : b) {
      nearest_m = std::min(nearest_m, std::hypot(one.centre.x_m - other.centre.x_m, one.centre.y_m - other.centre.y_m));
    }
    EXPECT_LT(nearest_m, 1e-3);
  }
}

TEST(SiteEdits, AreNoneForWhatTheFileSaysAlready) {
  const site::Site site = site::read_site(folder + "orchard-cooperative/site.toml");
  Change change = of(site);
  change.diameter_m = site.vessels.front().diameter_m;
  change.channels = site.vessels.front().channels;
  change.moisture_wet = site.blend.moisture_target_wet;
  EXPECT_TRUE(edits_of(site, change).empty());
}

TEST(SiteEdits, ReadAgainAsTheyWereMeant) {
  for (const char* name : {"orchard-cooperative", "common-round-us"}) {
    const site::Site site = site::read_site(folder + name + "/site.toml");
    Change change = of(site);
    change.diameter_m = 1.5;
    change.fill_height_m = 1.2;
    change.moisture_wet = 0.62;
    change.shares = {{site.offers[0].feedstock.id, 0.25}, {site.offers[1].feedstock.id, 0.75}};
    change.channels = ring(5, 0.35, 0.3);
    const site::Site made = read_again(name, change);
    const vessel::Design& design = made.vessels.front();
    EXPECT_NEAR(design.diameter_m, 1.5, 1e-3) << name;
    EXPECT_NEAR(design.fill_height_m, 1.2, 1e-3) << name;
    EXPECT_NEAR(made.blend.moisture_target_wet, 0.62, 1e-4) << name;
    EXPECT_NEAR(made.blend.shares_by_mass.at(site.offers[0].feedstock.id), 0.25, 1e-4) << name;
    expect_same(design.channels, *change.channels);
  }
}

TEST(SiteEdits, WriteAnUnevenLayoutAsPlacesAndTakeTheRingOut) {
  const site::Site site = site::read_site(folder + "orchard-cooperative/site.toml");
  Change change = of(site);
  change.channels = {{{0.1, 0.2}, 0.1}, {{-0.4, 0.0}, 0.1}, {{0.3, -0.3}, 0.1}};
  expect_same(read_again("orchard-cooperative", change).vessels.front().channels, *change.channels);
}

TEST(SiteEdits, GoThroughAFileWithAListOfPlacesToo) {
  const site::Site site = site::read_site(folder + "rectangular-yard/site.toml");
  Change change = of(site);
  change.channels = {{{0.5, 0.1}, 0.1}, {{-0.5, -0.1}, 0.1}};
  change.length_m = site.vessels.front().length_m;
  expect_same(read_again("rectangular-yard", change).vessels.front().channels, *change.channels);
}

TEST(SiteEdits, RaiseTheCageWhenItIsFilledHigher) {
  const site::Site site = site::read_site(folder + "orchard-cooperative/site.toml");
  Change change = of(site);
  change.fill_height_m = 1.45;
  const site::Site made = read_again("orchard-cooperative", change);
  EXPECT_NEAR(made.vessels.front().height_m, 1.45, 1e-3);
}

TEST(SiteEdits, RefuseAVesselThatIsNotThere) {
  Change change;
  change.design = "west";
  EXPECT_THROW((void)edits_of(site::read_site(folder + "orchard-cooperative/site.toml"), change), InputError);
}

}  // namespace
}  // namespace stillheap::server
