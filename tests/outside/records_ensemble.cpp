// Runs of one record at given deviates, for conditioning (docs/decisions/0010-conditioning.md): one line a run with
// what the record compares.  records_ensemble RECORD.toml POINTS.csv > RUNS.csv
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sstream>

#include "records_run.hpp"

using namespace stillheap;

namespace {

std::vector<std::vector<double>> read_points(const char* file) {
  std::vector<std::vector<double>> rows;
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);) {
    std::istringstream text(line);
    std::vector<double>& row = rows.emplace_back();
    for (std::string cell; std::getline(text, cell, ',');) row.push_back(std::stod(cell));
  }
  return rows;
}

void print_head(const records::Record& record) {
  std::printf("run");
  for (const records::Compare& c : record.compare) std::printf(",%s", c.key.c_str());
  std::printf("\n");
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::cerr << "usage: records_ensemble RECORD.toml POINTS.csv\n";
    return 2;
  }
  const records::Record record = records::read_record(words[1]);
  const forecast::Request draft = records::draft_of(record);
  print_head(record);
  int run = 0;
  for (const std::vector<double>& z : read_points(words[2])) {
    if (z.size() != records::deviates()) throw std::runtime_error("a point needs as many deviates as the model has");
    const forecast::Member member = records::member_of(record, draft, z);
    const records::Seen seen = records::see(member.request, member.parameters);
    std::printf("%d", run++);
    for (const records::Compare& c : record.compare)
      std::printf(",%.6g", seen.track.stopped ? std::nan("") : records::value_of(seen, c, member.request));
    std::printf("\n");
    std::fflush(stdout);
  }
  return 0;
}
