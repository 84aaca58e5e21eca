#include "yard/learned/learned.hpp"

#include <system_error>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "yard/record/ident.hpp"
#include "yard/state/inputs.hpp"

namespace stillheap::yard {

namespace fs = std::filesystem;

namespace {

bool is_of(const calibrate::Kept& kept, const calibrate::Basis& now) {
  return kept.basis.request == now.request && kept.basis.model == now.model;
}

bool still_read(const calibrate::Kept& kept, std::span<const calibrate::CoreReading> readings) {
  const auto count = static_cast<std::size_t>(kept.learned.readings);
  return readings.size() >= count && calibrate::print_of(readings, count) == kept.basis.readings;
}

}  // namespace

fs::path learned_file(const fs::path& store_file, const std::string& fill) {
  fs::path folder = store_file;
  folder.replace_extension().replace_extension(".learned");
  return folder / (record::sha256_hex(fill).substr(0, 32) + ".cbor");
}

plan::Filling filling_of(const record::Fill& fill, const std::string& zone) {
  return {date::to_iso(record::local_day(fill.filled_at, zone)), fill.moisture_wet, {}};
}

std::vector<calibrate::CoreReading> readings_to_learn(const record::Store& store, const record::Fill& fill,
                                                      record::Instant until) {
  std::vector<calibrate::CoreReading> readings;
  for (const CoreDay& one : core_days(store, fill, until)) {
    if (one.day <= learned_days) readings.push_back({one.day, one.celsius});
  }
  return readings;
}

void keep_learned(const fs::path& store_file, const record::Fill& fill, const calibrate::Basis& basis,
                  const calibrate::Learned& learned, record::Instant at) {
  const fs::path file = learned_file(store_file, fill.mark.thing);
  std::error_code failed;
  fs::create_directories(file.parent_path(), failed);
  if (failed) throw RunError(file.parent_path().string(), failed.message(), "look at the folder's rights");
  calibrate::write_kept({basis, at.time_since_epoch().count(), learned}, file);
}

std::optional<Taught> taught_of(const fs::path& store_file, const record::Fill& fill,
                                const forecast::Request& without_readings,
                                std::span<const calibrate::CoreReading> readings) {
  std::optional<calibrate::Kept> kept = calibrate::read_kept(learned_file(store_file, fill.mark.thing));
  if (!kept) return std::nullopt;
  Taught taught{std::move(*kept), Standing::holds};
  const bool his = is_of(taught.kept, calibrate::basis_of(without_readings, readings));
  if (!his || !still_read(taught.kept, readings)) {
    taught.standing = Standing::not_his;
  } else if (readings.size() > static_cast<std::size_t>(taught.kept.learned.readings)) {
    taught.standing = Standing::may_grow;
  }
  return taught;
}

OwnLookup::OwnLookup(fs::path store_file, const site::Site& site, std::string zone, WithStore with_store)
    : store_file_(std::move(store_file)), site_(site), zone_(std::move(zone)), with_store_(std::move(with_store)) {}

void OwnLookup::drop_touched(const record::Store& store) {
  const std::scoped_lock lock(mutex_);
  // The waterline first: what comes in between is then found once more, not missed.
  const record::Waterline line = record::waterline(store);
  const record::Touched touched = record::touched_since(store, line_);
  line_ = line;
  std::erase_if(seen_, [&](const auto& one) { return touched.all || touched.fills.contains(one.first); });
}

forecast::OwnReadings OwnLookup::find(const record::Store& store, const record::Fill& fill,
                                      const vessel::Design& design) const {
  const std::optional<calibrate::Kept> kept = calibrate::read_kept(learned_file(store_file_, fill.mark.thing));
  if (!kept || kept->learned.own.draws.empty()) return {};
  if (!still_read(*kept, readings_to_learn(store, fill, record::now()))) return {};
  try {
    const auto request = plan::fill_request(site_, design, filling_of(fill, zone_), learned_days);
    return is_of(*kept, calibrate::basis_of(request, {})) ? kept->learned.own : forecast::OwnReadings{};
  } catch (const Error&) {
    return {};  // a site that cannot be planned is told where it is planned
  }
}

forecast::OwnReadings OwnLookup::operator()(const record::Fill& fill, const vessel::Design& design) {
  const fs::path file = learned_file(store_file_, fill.mark.thing);
  std::error_code missing;
  const fs::file_time_type written = fs::last_write_time(file, missing);
  if (missing) return {};
  Seen seen{written, fill.mark.id, {}};
  with_store_([&](const record::Store& store) {
    drop_touched(store);
    {
      const std::scoped_lock lock(mutex_);
      const auto found = seen_.find(fill.mark.thing);
      const bool same =
          found != seen_.end() && found->second.written == written && found->second.fill_entry == fill.mark.id;
      if (same) {
        seen = found->second;
        return;
      }
    }
    seen.own = find(store, fill, design);
    const std::scoped_lock lock(mutex_);
    seen_[fill.mark.thing] = seen;
  });
  return seen.own;
}

}  // namespace stillheap::yard
