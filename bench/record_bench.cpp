#include <SQLiteCpp/SQLiteCpp.h>
#include <benchmark/benchmark.h>

#include <cstdio>
#include <filesystem>
#include <string>

#include "present/server/serve.hpp"
#include "present/server/server_context.hpp"
#include "yard/record/due.hpp"
#include "yard/record/export.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"
#include "yard/state/today.hpp"

/// A yard of 40 vessels and 13 fills each, 10 series a fill, 5 million readings in all: how fast it opens.
namespace {

namespace record = stillheap::record;

constexpr int vessels = 40;
constexpr int fills = 13;  // a vessel; the last one is in it now
constexpr int series = 10;
constexpr long all_readings = 5'000'000;

record::Mark mark() {
  record::Mark mark;
  mark.by = "ab";
  mark.zone = "Europe/Paris";
  return mark;
}

record::Instant filled(int fill) {
  return record::parse_instant("2014-01-01T08:00Z", "UTC", "bench") + std::chrono::days{330 * fill};
}

void fill_vessel(record::Store& store, const std::string& vessel_id, int vessel, int number) {
  record::Fill fill;
  fill.mark = mark();
  fill.vessel_id = vessel_id;
  fill.batch = std::to_string(vessel) + "-" + std::to_string(number);
  fill.filled_at = filled(number);
  const std::string id = record::add(store, fill).id;
  for (int place = 0; place < series; ++place) {
    record::Reading reading;
    reading.mark = mark();
    reading.fill_id = id;
    reading.at = fill.filled_at;
    reading.value = 20.0;
    reading.place.name = "probe " + std::to_string(place);
    (void)record::add(store, reading);
  }
  for (int day = 1; day < 300; ++day) {
    record::Event event;
    event.mark = mark();
    event.fill_id = id;
    event.kind = record::EventKind::sprinkled;
    event.at = fill.filled_at + std::chrono::days{day};
    (void)record::add(store, event);
  }
  if (number + 1 == fills) return;
  record::Event out;
  out.mark = mark();
  out.fill_id = id;
  out.kind = record::EventKind::harvested;
  out.at = fill.filled_at + std::chrono::days{320};
  (void)record::add(store, out);
}

/// The bulk of the readings by SQL: one every few minutes and series, and one in a thousand corrected.
void add_bulk(const std::filesystem::path& file) {
  SQLite::Database database(file.string(), SQLite::OPEN_READWRITE);
  database.exec("BEGIN");
  const long each = all_readings / (vessels * fills * series) - 1;
  database.exec("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < " + std::to_string(each) +
                ") INSERT INTO readings (id, noted_by, noted_s, zone, series, at_s, value, written) "
                "SELECT randomblob(16), 'ab', 1, 'Europe/Paris', s.row, f.filled_s + i * 28000, "
                "20 + abs(random() % 5000) / 100.0, '' FROM n JOIN series s JOIN fills f ON f.row = s.fill");
  database.exec(
      "INSERT INTO readings (id, revises, reason, noted_by, noted_s, zone, series, at_s, value, written) "
      "SELECT randomblob(16), row, 'slip', 'ab', 1, 'Europe/Paris', series, at_s, value + 1, '' "
      "FROM readings WHERE row % 1000 = 0");
  database.exec("COMMIT");
  database.exec("PRAGMA wal_checkpoint(TRUNCATE)");
}

/// Made once and left in the temporary folder: making it takes minutes.
std::filesystem::path big_store() {
  const std::filesystem::path file = std::filesystem::temp_directory_path() / "stillheap-bench.records.sqlite";
  if (std::filesystem::exists(file)) return file;
  std::fprintf(stderr, "making %s\n", file.c_str());
  const std::filesystem::path part = file.string() + ".part";
  std::filesystem::remove(part);
  {
    record::Store store = record::Store::open(part);
    record::Together together(store);
    for (int vessel = 0; vessel < vessels; ++vessel) {
      const std::string id = record::add(store, record::Vessel{mark(), "vessel " + std::to_string(vessel), "", ""}).id;
      for (int number = 0; number < fills; ++number) fill_vessel(store, id, vessel, number);
    }
    together.commit();
  }
  add_bulk(part);
  std::filesystem::rename(part, file);
  return file;
}

void open_yard(benchmark::State& state) {
  const std::filesystem::path file = big_store();
  std::size_t readings = 0;
  for (auto _ : state) {
    const record::Store store = record::Store::open(file, false);
    const auto yard = record::yard(store);
    const auto due = record::due_list(yard, record::all<record::DueDay>(store), record::now(), "Europe/Paris");
    benchmark::DoNotOptimize(due.size());
    readings = 0;
    for (const auto& glance : yard) readings += glance.last.size();
  }
  state.counters["last_readings"] = static_cast<double>(readings);
}
BENCHMARK(open_yard)->Unit(benchmark::kMillisecond);

/// What `status` works out: every rule on every reading of every fill that is in a vessel now.
void states_of_the_yard(benchmark::State& state) {
  const record::Store store = record::Store::open(big_store(), false);
  const record::Instant at = filled(fills - 1) + std::chrono::days{310};
  std::size_t alerts = 0;
  for (auto _ : state) {
    for (const auto& one : stillheap::yard::states_of_yard(store, nullptr, at)) alerts += one.alerts.size();
  }
  benchmark::DoNotOptimize(alerts);
}
BENCHMARK(states_of_the_yard)->Unit(benchmark::kMillisecond);

/// A server's answers on a copy of the store beside a site file.
class Served {
 public:
  Served() : folder_(std::filesystem::temp_directory_path() / "stillheap-bench-yard") {
    std::filesystem::create_directories(folder_);
    const auto over = std::filesystem::copy_options::overwrite_existing;
    std::filesystem::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml", folder_ / "site.toml", over);
    std::filesystem::copy_file(big_store(), record::store_path(folder_ / "site.toml"), over);
    house_ = std::make_unique<stillheap::server::House>(stillheap::site::read_site(folder_ / "site.toml"),
                                                        stillheap::server::Safety{});
  }
  ~Served() {
    house_.reset();
    std::filesystem::remove_all(folder_);
  }
  std::size_t ask(const std::string& path) {
    stillheap::server::Ask ask;
    ask.method = "GET";
    ask.path = path;
    ask.header["host"] = "localhost";
    const auto answer = stillheap::server::respond(*house_, {}, ask);
    if (answer.status != 200) std::fprintf(stderr, "%s: %d\n", path.c_str(), answer.status);
    return answer.body.size();
  }
  stillheap::server::House& house() { return *house_; }

 private:
  std::filesystem::path folder_;
  std::unique_ptr<stillheap::server::House> house_;
};

void answers_of_the_yard(benchmark::State& state) {
  Served served;
  const std::string path = state.range(0) == 0 ? "/api/yard" : "/api/today";
  state.SetLabel(path);
  (void)served.ask(path);
  for (auto _ : state) benchmark::DoNotOptimize(served.ask(path));
}
BENCHMARK(answers_of_the_yard)->Unit(benchmark::kMillisecond)->Arg(0)->Arg(1);

void first_answer_of_today(benchmark::State& state) {
  Served served;
  for (auto _ : state) benchmark::DoNotOptimize(served.ask("/api/today"));
}
BENCHMARK(first_answer_of_today)->Unit(benchmark::kMillisecond)->Iterations(1);

void read_one_fill(benchmark::State& state) {
  const record::Store store = record::Store::open(big_store(), false);
  const std::string fill = record::yard(store).front().fill->mark.thing;
  for (auto _ : state) benchmark::DoNotOptimize(record::of_fill<record::Reading>(store, fill).size());
}
BENCHMARK(read_one_fill)->Unit(benchmark::kMillisecond);

void batch_data_of_one_fill(benchmark::State& state) {
  const record::Store store = record::Store::open(big_store(), false);
  const std::string fill = record::yard(store).front().fill->mark.thing;
  for (auto _ : state) benchmark::DoNotOptimize(record::batch_json(store, fill).size());
}
BENCHMARK(batch_data_of_one_fill)->Unit(benchmark::kMillisecond);

void note_one_reading(benchmark::State& state) {
  record::Store store = record::Store::open(big_store(), false);
  record::Reading reading;
  reading.mark = mark();
  reading.fill_id = record::yard(store).front().fill->mark.thing;
  reading.place.name = "noted by hand";
  for (auto _ : state) {
    reading.mark.id = record::new_id();
    reading.at = record::now();
    reading.value =
        20.0 + static_cast<double>(state.iterations() % 60) + 1e-6 * static_cast<double>(std::rand() % 1000);
    benchmark::DoNotOptimize(record::add(store, reading).id.size());
  }
}
BENCHMARK(note_one_reading)->Unit(benchmark::kMillisecond)->Iterations(50);

void check_whole(benchmark::State& state) {
  const std::filesystem::path file = big_store();
  for (auto _ : state) (void)record::Store::open(file, false, record::Check::whole);
}
BENCHMARK(check_whole)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
