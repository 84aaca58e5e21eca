#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/first_order.hpp"

namespace stillheap::forecast {
namespace {

using Function = std::function<double(const std::vector<double>&)>;

FirstOrder estimate(const Function& function, const std::vector<std::vector<double>>& inputs, InputLaw law,
                    int highest_degree) {
  std::vector<double> answers;
  for (const auto& run : inputs) answers.push_back(function(run));
  const auto found = first_order(inputs, answers, {.law = law, .highest_degree = highest_degree});
  EXPECT_TRUE(found.has_value());
  return found.value();
}

TEST(FirstOrder, MeetsTheIshigamiFunction) {
  const Function ishigami = [](const std::vector<double>& u) {
    const auto x = [&](std::size_t i) { return constant::pi * (2.0 * u[i] - 1.0); };
    return std::sin(x(0)) + 7.0 * std::pow(std::sin(x(1)), 2) + 0.1 * std::pow(x(2), 4) * std::sin(x(0));
  };
  const FirstOrder found = estimate(ishigami, even_points(3, 512, 1), InputLaw::even, 8);
  outside::expect("V01", "s1", found.share[0]);
  outside::expect("V01", "s2", found.share[1]);
  outside::expect("V01", "s3", found.share[2]);
  outside::expect("V01", "unexplained", found.unexplained);
}

TEST(FirstOrder, MeetsTheGFunction) {
  const std::vector<double> a{0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0};
  const Function g = [&](const std::vector<double>& u) {
    double product = 1.0;
    for (std::size_t i = 0; i < a.size(); ++i) product *= (std::abs(4.0 * u[i] - 2.0) + a[i]) / (1.0 + a[i]);
    return product;
  };
  const FirstOrder found = estimate(g, even_points(8, 512, 1), InputLaw::even, 8);
  outside::expect("V02", "s1", found.share[0]);
  outside::expect("V02", "s2", found.share[1]);
  outside::expect("V02", "s3", found.share[2]);
  outside::expect("V02", "s5", found.share[4]);
}

TEST(FirstOrder, FindsTheFewThatMatterAmongAsManyInputsAsTheForecastHas) {
  const std::vector<double> c{0.35, 0.25, 0.20, 0.10};
  const Function product = [&](const std::vector<double>& z) {
    return std::exp(std::inner_product(c.begin(), c.end(), z.begin(), 0.0));
  };
  const FirstOrder found = estimate(product, normal_points(28, 64, 1), InputLaw::normal, 3);
  outside::expect("V03", "s1", found.share[0]);
  outside::expect("V03", "s2", found.share[1]);
  outside::expect("V03", "s3", found.share[2]);
  outside::expect("V03", "s4", found.share[3]);
  outside::expect("V03", "idle_together", std::accumulate(found.share.begin() + 4, found.share.end(), 0.0));
  std::vector<std::size_t> order(28);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto x, auto y) { return found.share[x] > found.share[y]; });
  const auto rank = 1 + (std::find(order.begin(), order.end(), std::size_t{1}) - order.begin());
  outside::report_miss("V03", "rank_of_input_2", static_cast<double>(rank),
                       "0.24 and 0.15 lie within one tolerance of each other, and with 64 runs they change places; the "
                       "model's description says that neighbours in the ranking can");
}

}  // namespace
}  // namespace stillheap::forecast
