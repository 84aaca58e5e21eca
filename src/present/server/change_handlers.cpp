#include "present/server/guard.hpp"
#include "present/server/handlers.hpp"
#include "present/server/json.hpp"

namespace stillheap::server {
namespace {

constexpr std::chrono::milliseconds at_once{1000};  // chosen: how soon a listener who left is noticed
constexpr std::chrono::seconds beat{15};  // chosen: what stands between keeps quiet connections for half a minute

/// Tells one listener of what is stored, and between that it is still there; ends with the session.
class Teller {
 public:
  Teller(ServerContext& context, Request ask)
      : context_(context), ask_(std::move(ask)), place_(context.changes.take()), seen_(context.changes.count()) {}

  [[nodiscard]] bool has_place() const { return static_cast<bool>(place_); }

  bool next(std::string& piece) {
    const std::uint64_t now = context_.changes.count_after(seen_, at_once);
    if (now != seen_) {
      piece = "data: " + std::to_string(now) + "\n\n";
    } else if (Clock::now() >= next_beat_) {
      piece = ": still here\n\n";
    } else {
      return true;
    }
    seen_ = now;
    next_beat_ = Clock::now() + beat;
    return may_ask(*context_.door, ask_);
  }

 private:
  ServerContext& context_;
  Request ask_;
  ChangeWatch::Place place_;
  std::uint64_t seen_;
  Clock::time_point next_beat_{};  // at once: the head alone does not leave every buffer on the way
};

}  // namespace

Response send_changes(ServerContext& context, const Request& ask) {
  const auto teller = std::make_shared<Teller>(context, ask);
  if (!teller->has_place()) {
    Response full =
        problem(503, "changes", "are told to as many pages as can be", "look at the yard from time to time");
    full.headers.emplace_back("Retry-After", "60");
    return full;
  }
  Response made;
  made.type = "text/event-stream";
  made.more = [teller](std::string& piece) { return teller->next(piece); };
  return made;
}

}  // namespace stillheap::server
