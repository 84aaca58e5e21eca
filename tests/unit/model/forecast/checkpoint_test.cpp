#include "model/forecast/checkpoint.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>

#include "core/base/error.hpp"
#include "model/forecast/cbor.hpp"
#include "model/forecast/output.hpp"
#include "model/forecast/run.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

bool go_on(double, const std::string&) { return true; }

/// A folder that is gone at the end of its test.
struct TestFolder {
  std::filesystem::path path = std::filesystem::temp_directory_path() / ("stillheap-c-" + std::to_string(::getpid()));
  TestFolder() { std::filesystem::create_directories(path); }
  ~TestFolder() { std::filesystem::remove_all(path); }
};

/// Everything a result holds, bit for bit: its JSON, and the bits of what the JSON rounds or leaves out.
std::string bits_of(const Result& result) {
  const Cbor rest = {packed(result.history), packed(result.snapshots), packed(result.evaporated_kg_s)};
  const auto bytes = Cbor::to_cbor(rest);
  return to_json(result).dump() + std::string(bytes.begin(), bytes.end());
}

/// Runs to the end with a stop after some steps, again and again, each time through a file.
Result run_with_stops(const Request& request, const std::filesystem::path& file, unsigned seed, int most_steps,
                      int& stops) {
  std::mt19937 generator(seed);
  Checkpoint checkpoint = checkpoint_for(request);
  for (stops = 0;; ++stops) {
    auto left = static_cast<int>(generator() % static_cast<unsigned>(most_steps));
    Result result = run(request, [&](double, const std::string&) { return left-- > 0; }, checkpoint, {});
    if (!result.stopped_by_user) return result;
    write_checkpoints({checkpoint}, file);
    checkpoint = read_checkpoints(file).at(0);
  }
}

class Stopped : public testing::TestWithParam<unsigned> {};

TEST_P(Stopped, AndResumedRunsEqualOneWithoutAStopBitForBit) {
  const TestFolder folder;
  Request request = common_request(20);
  request.members = 3;
  int stops = 0;
  const Result stopped = run_with_stops(request, folder.path / "c.cbor", GetParam(), 120, stops);
  EXPECT_GE(stops, 2);
  EXPECT_EQ(bits_of(stopped), bits_of(run(request, go_on)));
}

INSTANTIATE_TEST_SUITE_P(Seeds, Stopped, testing::Range(1U, 5U));

TEST(Stopped, HoldsOnTheStandardGridToo) {
  const TestFolder folder;
  Request request = common_request(1);
  request.grid = Grid::standard;
  request.members = 2;
  int stops = 0;
  const Result stopped = run_with_stops(request, folder.path / "c.cbor", 5, 40, stops);
  EXPECT_GE(stops, 2);
  EXPECT_EQ(bits_of(stopped), bits_of(run(request, go_on)));
}

TEST(Stopped, SaysOnWhichDayOrAtWhichRun) {
  Request request = common_request(20);
  request.members = 2;
  const Result early = run(request, [](double share, const std::string&) { return share < 0.35; });
  EXPECT_TRUE(early.stopped_by_user);
  EXPECT_NE(early.stopped.value().find("by the user on day 10."), std::string::npos) << *early.stopped;
  EXPECT_GT(early.history.back().day, 8.0);
  const Result late = run(request, [](double, const std::string& what) { return what != "forecast, band"; });
  EXPECT_EQ(late.stopped.value(), "stopped by the user after 0 of the 2 runs of the band");
  EXPECT_NEAR(late.history.back().day, 20.0, 1e-6);
}

TEST(Checkpoints, AreKeptOnTheWayWhenDueAndGoOnFromThere) {
  Request request = common_request(12);
  request.members = 2;
  int steps = 0, kept = 0;
  std::vector<Checkpoint> copies;
  Checkpoint checkpoint = checkpoint_for(request);
  const Keeper keeper{[&] { return ++steps % 8 == 0; },
                      [&](const Checkpoint& so_far) {
                        ++kept;
                        copies.push_back(so_far);
                      }};
  const std::string whole = bits_of(run(request, go_on, checkpoint, keeper));
  ASSERT_GE(kept, 2);
  for (Checkpoint& copy : copies) EXPECT_EQ(bits_of(run(request, go_on, copy, {})), whole);
}

TEST(Checkpoints, RefuseAnotherRequestAndNameWhatChanged) {
  const Request request = common_request(5);
  Checkpoint checkpoint = checkpoint_for(request);
  const auto words = [&](const Request& other) -> std::string {
    try {
      (void)run(other, go_on, checkpoint, {});
    } catch (const InputError& error) {
      return error.what();
    }
    return "";
  };
  Request other = request;
  other.design.channels[3].centre.x_m = std::nextafter(other.design.channels[3].centre.x_m, 9.0);
  EXPECT_NE(words(other).find("stopped: the vessel;"), std::string::npos) << words(other);
  other = request;
  other.days = 6;
  other.weather.hours[77].wind_m_s += 0.1;
  EXPECT_NE(words(other).find("the weather, the number of days"), std::string::npos) << words(other);
  EXPECT_EQ(words(request), "");
}

TEST(Checkpoints, RefuseFilesThatAreMissingCutOrDamaged) {
  const TestFolder folder;
  const auto file = folder.path / "c.cbor";
  EXPECT_THROW((void)read_checkpoints(file), InputError);
  const Request request = common_request(5);
  write_checkpoints({checkpoint_for(request), checkpoint_for(request)}, file);
  EXPECT_EQ(read_checkpoints(file).size(), 2U);
  std::ifstream in(file, std::ios::binary);
  const std::string good{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  for (const std::size_t length : {std::size_t{0}, std::size_t{5}, good.size() / 2, good.size() - 1}) {
    std::ofstream(file, std::ios::binary) << good.substr(0, length);
    EXPECT_THROW((void)read_checkpoints(file), InputError) << length;
  }
  for (std::size_t place = 0; place < good.size(); place += 7) {
    std::string bad = good;
    bad[place] = static_cast<char>(bad[place] ^ 0x10);
    std::ofstream(file, std::ios::binary) << bad;
    EXPECT_THROW((void)read_checkpoints(file), InputError) << place;
  }
}

TEST(Cbor, KeepsEveryBitOfANumber) {
  using Limits = std::numeric_limits<double>;
  const std::vector<double> odd{0.0,
                                -0.0,
                                0.1,
                                1.0 / 3.0,
                                Limits::denorm_min(),
                                Limits::max(),
                                Limits::infinity(),
                                -Limits::infinity(),
                                Limits::quiet_NaN()};
  HistoryRow row;
  for (const double value : odd) {
    row.day = value;
    HistoryRow back;
    unpack(Cbor::from_cbor(Cbor::to_cbor(packed(row)), true, true, Cbor::cbor_tag_handler_t::store), back);
    EXPECT_EQ(std::bit_cast<std::uint64_t>(back.day), std::bit_cast<std::uint64_t>(value)) << value;
  }
}

TEST(Cbor, RefusesAValueOfAnotherShape) {
  Snapshot snapshot;
  EXPECT_THROW(unpack(packed(Months{}), snapshot), std::length_error);
  EXPECT_NE(shape_of<HotClock>(), shape_of<Months>());
  EXPECT_EQ(shape_of<Months>(), "(12d12d12d12d)");
}

}  // namespace
}  // namespace stillheap::forecast
