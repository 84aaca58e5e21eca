#pragma once
#include <filesystem>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "model/calibrate/kept.hpp"
#include "planning/plan/fill_request.hpp"
#include "yard/record/read.hpp"
#include "yard/record/store.hpp"
#include "yard/record/touched.hpp"

/// What the readings of a fill taught, beside the records: forecast, cards and water follow it.
namespace stillheap::yard {

inline constexpr int learned_days = 365;  ///< of the forecast that learns; chosen: as the page's

/// "yard/site.learned/FILL.cbor" for "yard/site.records.sqlite". It can be learned anew, so no copy holds it.
[[nodiscard]] std::filesystem::path learned_file(const std::filesystem::path& store_file, const std::string& fill);

/// A fill of the records as the plan takes it.
[[nodiscard]] plan::Filling filling_of(const record::Fill& fill, const std::string& zone);

/// What a fill's forecast can learn from, up to `until` and its last day, in order of time: the core's warmest of each
/// day, and each day's mean of the places where moisture or oxygen was read.
[[nodiscard]] std::vector<calibrate::Observation> readings_to_learn(const record::Store& store,
                                                                    const record::Fill& fill, record::Instant until);

/// Writes what was learned of a fill at `at`. Throws RunError when it cannot be written.
void keep_learned(const std::filesystem::path& store_file, const record::Fill& fill, const calibrate::Basis& basis,
                  const calibrate::Learned& learned, record::Instant at);

/// Throws RunError when what a fill teaches could not be kept; makes the folder.
void check_can_keep(const std::filesystem::path& store_file, const record::Fill& fill);

/// How something learned stands to what is known now.
enum class Standing {
  holds,          ///< from all readings
  may_grow,       ///< readings came since
  not_follow,     ///< the model could not follow the heap
  corrected,      ///< a reading that was learned from was corrected or withdrawn, or one came in between
  not_his,        ///< site file, fill or model are others
  other_version,  ///< another version of the program kept it; `kept` is then empty, as in the next
  unreadable      ///< its file is damaged
};
struct Taught {
  calibrate::Kept kept;
  Standing standing = Standing::holds;
  [[nodiscard]] bool used() const noexcept { return standing == Standing::holds || standing == Standing::may_grow; }
};
/// "the site file, the fill or the program is another since"; empty where it is used.
[[nodiscard]] std::string why_not_used(const Taught& taught);

/// What is kept of a fill and how it stands to the readings of today and to what would be forecast without any; nothing
/// when nothing is kept.
[[nodiscard]] std::optional<Taught> taught_of(const std::filesystem::path& store_file, const record::Fill& fill,
                                              const forecast::Request& without_readings,
                                              std::span<const calibrate::Observation> readings);
/// The same for a fill of the records. Nothing, too, for a site that cannot be planned: that is told where it is.
[[nodiscard]] std::optional<Taught> taught_of(const record::Store& store, const record::Fill& fill,
                                              const site::Site& site, const vessel::Design& design,
                                              const std::string& zone);

/// One sentence on it: "forecast and water follow 30 days of readings, learned on 2026-10-20", or why they do not.
[[nodiscard]] std::string words(const Taught& taught, const std::string& zone);
/// The same of the fill that is in a vessel; empty when nothing is kept of it, or without a site.
[[nodiscard]] std::string learned_words(const record::Store& store, const record::VesselGlance& glance,
                                        const site::Site* site, const std::string& zone);

/// What the forecast of a fill starts from beside the site file; nothing when nothing was learned, the model could not
/// follow the heap, a reading that was learned from was corrected, or it was learned for another site file, fill or
/// program. Never throws for a site that cannot be planned. For many threads; an answer is kept until something new is
/// said of the fill.
class OwnLookup {
 public:
  using WithStore = std::function<void(const std::function<void(const record::Store&)>&)>;
  /// `site` and what `with_store` needs must outlive it.
  OwnLookup(std::filesystem::path store_file, const site::Site& site, std::string zone, WithStore with_store);
  [[nodiscard]] forecast::OwnReadings operator()(const record::Fill& fill, const vessel::Design& design);

 private:
  struct Seen {
    std::filesystem::file_time_type written;
    std::string fill_entry;
    forecast::OwnReadings own;
  };
  void drop_touched(const record::Store& store);
  [[nodiscard]] forecast::OwnReadings find(const record::Store& store, const record::Fill& fill,
                                           const vessel::Design& design) const;

  std::filesystem::path store_file_;
  const site::Site& site_;
  std::string zone_;
  WithStore with_store_;
  std::mutex mutex_;
  record::Waterline line_;
  std::map<std::string, Seen> seen_;
};

}  // namespace stillheap::yard
