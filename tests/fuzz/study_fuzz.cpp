#include <cmath>
#include <set>

#include "fuzz.hpp"
#include "planning/study/study.hpp"

namespace {

using namespace stillheap;

/// Most cases that are written out for one input, and most whose site is read: a study may have a million.
constexpr std::size_t most_written = 2000;
constexpr std::size_t most_read = 2;

std::size_t count_of(const study::Study& study) {
  if (study.way == study::Way::quasi_random) return static_cast<std::size_t>(study.count);
  if (study.way == study::Way::list) return study.axes.front().values.size();
  std::size_t count = 1;
  for (const study::Axis& axis : study.axes) count *= axis.values.size();
  return count;
}

void look_at(const study::Study& study) {
  fuzz::expect(!study.axes.empty(), "a study that varies nothing was taken");
  std::set<std::string> keys;
  for (const study::Axis& axis : study.axes) {
    fuzz::expect(axis.row != nullptr && keys.insert(axis.key).second, "a key is varied twice");
    fuzz::expect(axis.range.has_value() || !axis.values.empty(), "a key without values was taken");
  }
  for (const site::Setting& one : study.fixed) {
    fuzz::expect(keys.insert(one.key).second, "a key is varied and set, or set twice");
  }
  const std::size_t count = count_of(study);
  fuzz::expect(count >= 1 && count <= static_cast<std::size_t>(study::most_cases), "as many cases were taken");
  if (count > most_written) return;
  const std::vector<study::Case> cases = study::cases_of(study);
  fuzz::expect(cases.size() == count, "not as many cases as the study says");
  for (const study::Case& one : cases) {
    fuzz::expect(one.values.size() == study.axes.size(), "a case without all its values");
    for (std::size_t a = 0; a < study.axes.size(); ++a) {
      const std::optional<double> number = study::number_of(study.axes[a], one.values[a]);
      fuzz::expect(!number || std::isfinite(*number), "a number of the results is none");
    }
  }
  for (std::size_t i = 0; i < std::min(most_read, count); ++i) {
    fuzz::try_it([&] { (void)study::site_of(study, cases[i == 0 ? 0 : count - 1]); });
  }
}

}  // namespace

/// A study file, beside the site file of an example.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::Scratch scratch("study");
  static const bool made = std::filesystem::copy_file(
      std::filesystem::path(STILLHEAP_SOURCE_DIR) / "examples/common-round-us/site.toml", scratch.path() / "site.toml");
  fuzz::expect(made, "the site file beside was not made");
  const auto file = scratch.write("study.toml", fuzz::text_of(data, size));
  fuzz::try_it([&] { look_at(study::read_study(file)); });
  return 0;
}
