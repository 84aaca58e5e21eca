#include <cmath>

#include "fuzz.hpp"
#include "yard/record/csv_import.hpp"
#include "yard/record/write.hpp"

namespace {

using namespace stillheap;

/// A yard with one fill, made once. Nothing is ever imported into it, so that each input meets the same.
struct Yard {
  fuzz::Scratch scratch{"import"};
  record::Store store = record::Store::open(scratch.path() / "site.records.sqlite");
  std::string fill_id;

  Yard() {
    record::Vessel vessel;
    vessel.mark.by = "ab";
    vessel.name = "north";
    record::Fill fill;
    fill.mark.by = "ab";
    fill.vessel_id = record::add(store, vessel).id;
    fill.batch = "1";
    fill.filled_at = record::parse_instant("2025-03-01T00:00Z", "UTC", "fuzz");
    fill_id = record::add(store, fill).id;
  }
};

record::CsvMapping mapping_by(std::uint8_t choice) {
  record::CsvMapping mapping;
  mapping.time = "time";
  if ((choice & 1U) != 0) mapping.date = "date";
  if ((choice & 2U) != 0) mapping.pattern = "%d.%m.%Y %H:%M";
  if ((choice & 4U) != 0) mapping.zone = "Europe/Paris";
  mapping.decimal_comma = (choice & 8U) != 0;
  if ((choice & 16U) != 0) mapping.probe_column = "probe";
  mapping.probes = {record::parse_probe("a=temperature,degF,place:core,depth:18 in", "fuzz"),
                    record::parse_probe("b=moisture,%,place:wall", "fuzz")};
  return mapping;
}

}  // namespace

/// A logger's CSV file. The first byte chooses how it is to be read.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Yard yard;
  if (size == 0) return 0;
  record::CsvRequest request;
  request.file = yard.scratch.write("log.csv", fuzz::text_of(data + 1, size - 1));
  request.source = "p7";
  request.mapping = mapping_by(data[0]);
  request.fill_id = yard.fill_id;
  request.mark.by = "ab";
  fuzz::try_it([&] {
    const record::CsvPreview preview = record::preview_csv(yard.store, request);
    for (const record::Reading& one : preview.readings) {
      fuzz::expect(std::isfinite(one.value), "a reading that is not finite would go in");
    }
  });
  return 0;
}
