#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <exception>
#include <map>
#include <thread>

#include "client.hpp"
#include "served_yard.hpp"
#include "yard/record/read.hpp"

/// Many clients write and read at once on loopback. Ends with 1 when any request failed, or when an acknowledged
/// reading is not in the store exactly once. Prints p50 and p99 of each kind of request.
namespace {

using namespace stillheap;
using namespace stillheap::load;

struct Options {
  std::filesystem::path program;
  std::filesystem::path site = STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml";
  int clients = 50;
  int seconds = 10;
  int vessels = 8;
  int rest_ms = 0;
};

std::vector<Seen> work_all(const ServedYard& yard, const Options& options) {
  std::vector<Seen> seen(static_cast<std::size_t>(options.clients));
  std::vector<std::thread> threads;
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds{options.seconds};
  for (int i = 0; i < options.clients; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const Work what{yard.port(),
                    i,
                    yard.fills()[at % yard.fills().size()],
                    yard.filled_s() + 3600,
                    until,
                    std::chrono::milliseconds{options.rest_ms}};
    threads.emplace_back([&seen, at, what] { seen[at] = work(what); });
  }
  for (std::thread& thread : threads) thread.join();
  return seen;
}

double quantile(std::vector<double>& sorted, double share) {
  const auto rank = static_cast<std::size_t>(std::ceil(share * static_cast<double>(sorted.size())));
  return sorted[std::max<std::size_t>(rank, 1) - 1];
}

void print_times(const std::vector<Seen>& seen, const Options& options, double cpu_s) {
  std::map<std::string, std::vector<double>> all;
  std::size_t requests = 0;
  for (const Seen& one : seen) {
    for (const auto& [kind, took] : one.took_ms) {
      all[kind].insert(all[kind].end(), took.begin(), took.end());
      requests += took.size();
    }
  }
  fmt::print("{} clients, {} s, rest {} ms: {:.0f} requests a second; server {:.2f} ms CPU each\n", options.clients,
             options.seconds, options.rest_ms, static_cast<double>(requests) / options.seconds,
             1e3 * cpu_s / static_cast<double>(std::max<std::size_t>(requests, 1)));
  for (auto& [kind, took] : all) {
    std::sort(took.begin(), took.end());
    fmt::print("  {:<14}{:>8} times   p50 {:>8.1f} ms   p99 {:>8.1f} ms   most {:>8.1f} ms\n", kind, took.size(),
               quantile(took, 0.5), quantile(took, 0.99), took.back());
  }
}

/// Every acknowledged reading once and with its value, and no other.
std::vector<std::string> compare(const std::vector<Seen>& seen, const std::filesystem::path& store_file) {
  std::map<std::string, double> wanted;
  std::vector<std::string> faults;
  for (const Seen& one : seen) {
    faults.insert(faults.end(), one.faults.begin(), one.faults.end());
    for (const Acknowledged& reading : one.acknowledged) wanted[reading.id] = reading.value;
  }
  const record::Store store = record::Store::open(store_file, false, record::Check::whole);
  std::map<std::string, int> found;
  for (const record::Reading& one : record::all<record::Reading>(store)) {
    const auto known = wanted.find(one.mark.id);
    if (known == wanted.end()) {
      faults.push_back("reading " + one.mark.id + " is stored but was never acknowledged");
    } else if (known->second != one.value) {
      faults.push_back("reading " + one.mark.id + " is stored with another value");
    }
    ++found[one.mark.id];
  }
  for (const auto& [id, value] : wanted) {
    if (found[id] != 1) faults.push_back("reading " + id + " is stored " + std::to_string(found[id]) + " times");
  }
  fmt::print("{} readings acknowledged, {} stored\n", wanted.size(), found.size());
  return faults;
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app{"Many clients write and read the yard at once."};
  app.add_option("PROGRAM", options.program, "The built stillheap")->required()->check(CLI::ExistingFile);
  app.add_option("--site", options.site, "Site file to serve")->check(CLI::ExistingFile);
  app.add_option("--clients", options.clients)->check(CLI::Range(1, 500));
  app.add_option("--seconds", options.seconds)->check(CLI::Range(1, 3600));
  app.add_option("--vessels", options.vessels)->check(CLI::Range(1, 200));
  app.add_option("--rest-ms", options.rest_ms, "Pause of each client after each request")->check(CLI::Range(0, 60000));
  CLI11_PARSE(app, argc, argv);
  ServedYard yard(options.program, options.site, options.vessels);
  const double before_s = yard.server_cpu_s();
  const std::vector<Seen> seen = work_all(yard, options);
  print_times(seen, options, yard.server_cpu_s() - before_s);
  std::vector<std::string> faults;
  if (!yard.stop()) faults.emplace_back("the server did not end well");
  const std::vector<std::string> more = compare(seen, yard.store_file());
  faults.insert(faults.end(), more.begin(), more.end());
  for (std::size_t i = 0; i < std::min<std::size_t>(faults.size(), 20); ++i) fmt::print("FAULT {}\n", faults[i]);
  fmt::print("{} faults\n", faults.size());
  return faults.empty() ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 2;
  }
}
