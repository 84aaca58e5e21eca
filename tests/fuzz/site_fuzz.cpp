#include <cmath>

#include "fuzz.hpp"
#include "site/site.hpp"

namespace {

/// A section's bracket with a comment right behind it. The TOML library (3.3) asserts that this cannot be, where
/// asserts are on (found by this target); without them, as g++ 12 builds the program, it says what is wrong
/// (unit/site).
bool asserts_in_the_library(std::string_view text) {
  for (std::size_t at = text.find('['); at != std::string_view::npos; at = text.find('[', at + 1)) {
    const std::size_t next = text.find_first_not_of(" \t[", at);
    if (next != std::string_view::npos && text[next] == '#') return true;
  }
  return false;
}

}  // namespace

/// A site file.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace stillheap;
  static const fuzz::Scratch scratch("site");
  if (asserts_in_the_library(fuzz::text_of(data, size))) return 0;
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
