#include <cmath>

#include "core/quantity/quantity.hpp"
#include "fuzz.hpp"

/// An amount: the first byte chooses its dimension, the rest is the text. What is read must come back when written.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace stillheap;
  if (size == 0) return 0;
  constexpr int dimensions = static_cast<int>(Dimension::rate) + 1;
  const auto dimension = static_cast<Dimension>(data[0] % dimensions);
  fuzz::try_it([&] {
    const double si = quantity::parse(fuzz::text_of(data + 1, size - 1), dimension, "fuzz");
    fuzz::expect(std::isfinite(si), "an amount that is not finite was taken");
    for (const UnitSystem system : {UnitSystem::metric, UnitSystem::us}) {
      const std::string text = quantity::format(si, dimension, system);
      fuzz::expect(!text.empty(), "an amount is written as nothing");
      (void)quantity::typeset(text);
    }
  });
  return 0;
}
