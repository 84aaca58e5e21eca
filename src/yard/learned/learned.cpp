#include "yard/learned/learned.hpp"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "yard/record/ident.hpp"
#include "yard/state/inputs.hpp"
#include "yard/state/state.hpp"

namespace stillheap::yard {

namespace fs = std::filesystem;

namespace {

bool is_of(const calibrate::Kept& kept, const calibrate::Basis& now) {
  return kept.basis.request == now.request && kept.basis.model == now.model;
}

bool still_read(const calibrate::Kept& kept, std::span<const calibrate::Observation> readings) {
  const auto count = static_cast<std::size_t>(kept.learned.observations);
  return readings.size() >= count && calibrate::print_of(readings, count) == kept.basis.readings;
}

bool is_kept(const fs::path& file) {
  std::error_code unknown;
  return fs::symlink_status(file, unknown).type() != fs::file_type::not_found && !unknown;
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

std::vector<calibrate::Observation> readings_to_learn(const record::Store& store, const record::Fill& fill,
                                                      record::Instant until) {
  std::vector<calibrate::Observation> readings;
  for (const CoreDay& one : core_days(store, fill, until)) {
    if (one.day <= learned_days) readings.push_back({one.day, one.celsius});
  }
  for (const PlacesDay& one : moisture_and_oxygen_days(store, fill, until)) {
    const bool wet = one.sensed == insight::Sensed::moisture;
    if (one.day <= learned_days)
      readings.push_back({one.day, one.value, wet ? calibrate::Sensed::moisture : calibrate::Sensed::oxygen});
  }
  std::stable_sort(readings.begin(), readings.end(), [](const auto& a, const auto& b) { return a.day < b.day; });
  return readings;
}

void check_can_keep(const fs::path& store_file, const record::Fill& fill) {
  const fs::path folder = learned_file(store_file, fill.mark.thing).parent_path();
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (!failed && ::access(folder.c_str(), W_OK) != 0) failed = {errno, std::generic_category()};
  if (failed) throw RunError(folder.string(), "cannot be written: " + failed.message(), "look at its rights");
}

void keep_learned(const fs::path& store_file, const record::Fill& fill, const calibrate::Basis& basis,
                  const calibrate::Learned& learned, record::Instant at) {
  check_can_keep(store_file, fill);
  calibrate::write_kept({basis, at.time_since_epoch().count(), learned}, learned_file(store_file, fill.mark.thing));
}

std::string why_not_used(const Taught& taught) {
  switch (taught.standing) {
    case Standing::holds:
    case Standing::may_grow:
      return {};
    case Standing::not_follow:
      return "the forecast cannot follow them";
    case Standing::corrected:
      return "a reading it was learned from was corrected or withdrawn since, or one came in between";
    case Standing::not_his:
      return "the site file, the fill or the program is another since";
    case Standing::other_version:
      return "another version of the program kept it";
    case Standing::unreadable:
      break;
  }
  return "its file cannot be read";
}

std::optional<Taught> taught_of(const fs::path& store_file, const record::Fill& fill,
                                const forecast::Request& without_readings,
                                std::span<const calibrate::Observation> readings) {
  const fs::path file = learned_file(store_file, fill.mark.thing);
  if (!is_kept(file)) return std::nullopt;
  calibrate::KeptFile found = calibrate::read_kept(file);
  if (!found.kept) return Taught{{}, found.of_other_version ? Standing::other_version : Standing::unreadable};
  Taught taught{std::move(*found.kept), Standing::holds};
  if (!is_of(taught.kept, calibrate::basis_of(without_readings, readings))) {
    taught.standing = Standing::not_his;
  } else if (!still_read(taught.kept, readings)) {
    taught.standing = Standing::corrected;
  } else if (taught.kept.learned.own.draws.empty()) {
    taught.standing = Standing::not_follow;
  } else if (readings.size() > static_cast<std::size_t>(taught.kept.learned.observations)) {
    taught.standing = Standing::may_grow;
  }
  return taught;
}

std::optional<Taught> taught_of(const record::Store& store, const record::Fill& fill, const site::Site& site,
                                const vessel::Design& design, const std::string& zone) {
  if (!is_kept(learned_file(store.file(), fill.mark.thing))) return std::nullopt;
  try {
    return taught_of(store.file(), fill, plan::fill_request(site, design, filling_of(fill, zone), learned_days),
                     readings_to_learn(store, fill, record::now()));
  } catch (const Error&) {
    return std::nullopt;
  }
}

std::string words(const Taught& taught, const std::string& zone) {
  if (taught.standing == Standing::unreadable || taught.standing == Standing::other_version) {
    return "what its readings taught is not used: " + why_not_used(taught) + "; let it learn again";
  }
  const record::Instant at{std::chrono::seconds{taught.kept.learned_at_s}};
  const std::string from = std::to_string(taught.kept.learned.readings) + " days of readings, learned from on " +
                           date::to_iso(record::local_day(at, zone));
  if (taught.used()) return "forecast and water follow " + from;
  const bool again = taught.standing != Standing::not_follow;
  return "forecast and water do not follow " + from + ": " + why_not_used(taught) +
         (again ? "; let it learn again" : "");
}

std::string learned_words(const record::Store& store, const record::VesselGlance& glance, const site::Site* site,
                          const std::string& zone) {
  const vessel::Design* design = design_of(glance.vessel, site);
  if (design == nullptr || !glance.fill) return {};
  const std::optional<Taught> taught = taught_of(store, *glance.fill, *site, *design, zone);
  return taught ? words(*taught, zone) : std::string{};
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
  const std::optional<Taught> taught = taught_of(store, fill, site_, design, zone_);
  return taught && taught->used() ? taught->kept.learned.own : forecast::OwnReadings{};
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
