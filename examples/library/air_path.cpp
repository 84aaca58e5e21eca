// Prints each vessel's longest way to air, with and without its channels.
#include "domain/vessel/air_path.hpp"

#include <cstdio>

#include "core/base/error.hpp"
#include "core/quantity/quantity.hpp"
#include "planning/site/site.hpp"

namespace {

std::string shown(const stillheap::vessel::Design& design, stillheap::UnitSystem units) {
  return stillheap::quantity::format(stillheap::vessel::longest_air_path(design).length_m, stillheap::Dimension::length,
                                     units);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("air_path SITE.toml\n", stderr);
    return 2;
  }
  try {
    const stillheap::site::Site site = stillheap::site::read_site(argv[1]);
    for (const stillheap::vessel::Design& design : site.vessels) {
      stillheap::vessel::Design bare = design;
      bare.channels.clear();
      std::printf("%s: %s to air, %s without channels\n", design.name.c_str(), shown(design, site.units).c_str(),
                  shown(bare, site.units).c_str());
    }
  } catch (const stillheap::Error& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
