#pragma once
#include <array>
#include <condition_variable>
#include <deque>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "core/base/error.hpp"
#include "planning/plan/fill_request.hpp"
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Water programmes of a site's vessels by their filling, each worked out once, when it is asked for.
///
/// Fillings of one half-month of which no readings taught anything share a programme; those of the half-month of the
/// site's first fill have the plan's own. One that learned from its readings has a programme of its own.
/// Safe to ask from several threads.
class Programmes {
 public:
  explicit Programmes(site::Site site);
  ~Programmes();
  Programmes(const Programmes&) = delete;
  Programmes& operator=(const Programmes&) = delete;

  /// The programme of a vessel of this design of the site; waits for a draft forecast when it is asked for first.
  /// Throws InputError when the site cannot be planned.
  [[nodiscard]] const water::Programme& of(const vessel::Design& design, const Filling& filling);

  /// The same without waiting: nothing while it is worked out behind the back, one after the other.
  [[nodiscard]] const water::Programme* ready(const vessel::Design& design, const Filling& filling);

  [[nodiscard]] const site::Site& site() const noexcept { return site_; }

 private:
  using Key = std::array<std::string, 3>;  ///< design, day of filling, print of what its readings taught
  struct Wanted {
    Key key;
    Filling filling;
  };
  struct Known {
    std::optional<water::Programme> programme;
    std::optional<InputError> refusal;
  };
  [[nodiscard]] Wanted wanted_of(const vessel::Design& design, const Filling& filling) const;
  [[nodiscard]] Known* find(const Key& key);
  void work_out(const Wanted& wanted, const std::stop_token& stop);
  void work_behind(const std::stop_token& stop);

  const site::Site site_;
  std::mutex turn_;  ///< one is worked out at a time
  std::mutex mutex_;
  std::map<Key, Known> known_;
  std::deque<Wanted> wanted_;
  std::condition_variable_any more_;
  std::jthread worker_;
};

}  // namespace stillheap::plan
