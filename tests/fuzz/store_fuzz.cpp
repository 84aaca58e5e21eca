#include <iterator>
#include <sstream>

#include "fuzz.hpp"
#include "yard/record/batch.hpp"
#include "yard/record/export.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"

namespace {

using namespace stillheap;

/// The bytes of a small store: a vessel, a fill, readings, an event and a correction, all with fixed ids and moments.
std::string make_store(const fuzz::Scratch& scratch) {
  const auto file = scratch.path() / "whole.sqlite";
  {
    record::Store store = record::Store::open(file);
    int number = 0;
    const auto mark = [&number] {
      record::EntryMetadata one;
      char id[37];
      std::snprintf(id, sizeof id, "11111111-1111-4111-8111-%012d", ++number);
      one.id = id;
      one.by = "ab";
      one.zone = "UTC";
      one.noted_at = record::parse_instant("2025-03-02T00:00Z", "UTC", "fuzz");
      return one;
    };
    const record::Stored vessel = record::add(store, record::Vessel{mark(), "north", "", "under the roof"});
    record::Fill fill{mark(), vessel.id, "2025-1", record::parse_instant("2025-03-01T00:00Z", "UTC", "fuzz"),
                      1.1,    0.65,      {},       "first"};
    const record::Stored filled = record::add(store, fill);
    for (int day = 0; day < 12; ++day) {
      record::Reading reading;
      reading.mark = mark();
      reading.fill_id = filled.id;
      reading.value = 40.0 + day;
      reading.at = fill.filled_at + std::chrono::hours{24 * day};
      reading.place.name = "core";
      (void)record::add(store, reading);
    }
    record::Event event;
    event.mark = mark();
    event.fill_id = filled.id;
    event.kind = record::EventKind::sprinkled;
    event.at = fill.filled_at + std::chrono::hours{30};
    event.volume_m3 = 0.04;
    (void)record::add(store, event);
  }
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Everything the program reads of a store.
void read_all(const std::filesystem::path& file) {
  const record::Store store = record::Store::open(file, false);
  (void)record::find_damage(store);
  for (const record::VesselGlance& glance : record::yard(store)) {
    if (glance.fill) (void)record::batch_json(store, glance.fill->mark.thing);
  }
  std::ostringstream out;
  record::write_json(store, out);
  for (const std::string& kind : record::exported_kinds()) record::write_csv(store, kind, out);
}

}  // namespace

/// A store whose bytes were changed: each five bytes of the input are a place (counted in 256 bytes, then bytes), a
/// length and a value that is put there. The first byte of all may cut the file short.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::Scratch scratch("store");
  static const std::string whole = make_store(scratch);
  if (size == 0) return 0;
  std::string bytes = whole;
  for (std::size_t at = 1; at + 5 <= size; at += 5) {
    const std::size_t place = ((data[at] * 256U + data[at + 1]) * 256U + data[at + 2]) % bytes.size();
    const std::size_t length = std::min<std::size_t>(1U + data[at + 3] % 8U, bytes.size() - place);
    for (std::size_t i = 0; i < length; ++i) bytes[place + i] = static_cast<char>(data[at + 4]);
  }
  if (data[0] > 127) bytes.resize(bytes.size() * (data[0] - 128U) / 128U);
  std::error_code ignored;
  for (const char* const beside : {"-wal", "-shm", "-journal"}) {
    std::filesystem::remove(scratch.path() / (std::string("changed.sqlite") + beside), ignored);
  }
  const auto file = scratch.write("changed.sqlite", bytes);
  fuzz::try_it([&] { read_all(file); });
  return 0;
}
