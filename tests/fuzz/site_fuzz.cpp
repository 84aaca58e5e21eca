#include <cmath>

#include "fuzz.hpp"
#include "planning/site/site.hpp"

/// A site file.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace stillheap;
  static const fuzz::Scratch scratch("site");
  const auto file = scratch.write("site.toml", fuzz::text_of(data, size));
  fuzz::try_it([&] {
    const site::Site site = site::read_site(file);
    fuzz::expect(!site.vessels.empty() && !site.offers.empty(), "a site without vessel or feedstock was taken");
    for (const vessel::Design& one : site.vessels) {
      fuzz::expect(std::isfinite(one.height_m) && one.height_m > 0.0, "a vessel without height was taken");
    }
    fuzz::expect(std::isfinite(site.place.latitude_rad), "a place without latitude was taken");
  });
  return 0;
}
