// Counts every allocation of the process, libraries' own included, by standing in front of the C library's malloc.
// Left out under sanitizers, which stand there themselves.
#include <gtest/gtest.h>

#include <atomic>
#include <cstddef>
#include <vector>

#include "model/forecast/stepper.hpp"
#include "sample_request.hpp"

#if defined(__GLIBC__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)

namespace {
std::atomic<long> allocations{0};
}

extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);

void* malloc(std::size_t size) {
  ++allocations;
  return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) {
  ++allocations;
  return __libc_calloc(count, size);
}
void* realloc(void* old, std::size_t size) {
  ++allocations;
  return __libc_realloc(old, size);
}
}

namespace stillheap::forecast {
namespace {

TEST(Allocation, IsSeenByTheCount) {
  const long before = allocations;
  const std::vector<double> some(1000, 1.0);
  EXPECT_EQ(allocations - before, 1) << some.size();
}

TEST(Allocation, DoesNotHappenInTheStepLoop) {
  const Request request = draft_weather(common_request(60));
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  Stepper stepper(heap, step_rule(Grid::draft));
  const long before = allocations;
  for (int step = 0; step < 100; ++step) stepper.step(1e9);
  EXPECT_EQ(allocations - before, 0);
  EXPECT_GT(stepper.state().time_s, 86400.0);
}

}  // namespace
}  // namespace stillheap::forecast

#endif
