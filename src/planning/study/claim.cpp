#include "planning/study/claim.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <fstream>
#include <sstream>

#include "core/base/error.hpp"

namespace stillheap::study {
namespace {

namespace fs = std::filesystem;

fs::path file_of(const fs::path& stem, int turn) { return stem.string() + '.' + std::to_string(turn); }

std::string first_line(const fs::path& file) {
  std::string line;
  std::getline(std::ifstream(file), line);
  return line;
}

std::string place() {
  std::array<char, 256> host{};
  if (::gethostname(host.data(), host.size() - 1) != 0) return "";
  std::error_code error;
  const fs::path space = fs::read_symlink("/proc/self/ns/pid", error);
  return std::string(host.data()) + ' ' + first_line("/proc/sys/kernel/random/boot_id") + ' ' + space.string();
}

/// Of /proc/PID/stat (proc(5)): field 22, and field 3. A process that ended and was not yet waited for still has one.
struct Standing {
  unsigned long long started = 0;  ///< 0: no such process
  bool is_zombie = false;
};

/// Counted from behind the name, which may hold anything.
Standing standing_of(long process) {
  const std::string line = first_line("/proc/" + std::to_string(process) + "/stat");
  const std::size_t name_end = line.rfind(')');
  if (name_end == std::string::npos) return {};
  std::istringstream rest(line.substr(name_end + 1));
  std::string state, skipped;
  rest >> state;
  for (int field = 4; field < 22; ++field) rest >> skipped;
  Standing standing{0, state == "Z"};
  rest >> standing.started;
  return standing;
}

std::string text_of(const Owner& owner) {
  return std::to_string(owner.process) + ' ' + std::to_string(owner.started) + ' ' + owner.place + '\n';
}

/// Nothing when the file is gone or not written yet.
std::optional<Owner> read_owner(const fs::path& file) {
  std::istringstream line(first_line(file));
  Owner owner;
  if (!(line >> owner.process >> owner.started) || line.get() != ' ') return std::nullopt;
  std::getline(line, owner.place);
  return owner;
}

[[noreturn]] void cannot(const fs::path& file, int reason) {
  throw RunError(file.string(), "the claim cannot be written: " + std::generic_category().message(reason),
                 "see that the folder is there, may be written to and has room");
}

/// False when someone else was quicker.
bool make_for_one(const fs::path& file) {
  const int handle = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
  if (handle < 0) {
    if (errno == EEXIST) return false;
    cannot(file, errno);
  }
  const std::string text = text_of(this_process());
  const bool whole = ::write(handle, text.data(), text.size()) == static_cast<ssize_t>(text.size());
  const int reason = errno;
  ::close(handle);
  if (whole) return true;
  ::unlink(file.c_str());
  cannot(file, reason);
}

int highest_turn(const fs::path& stem) {
  for (int turn = most_turns; turn > 0; --turn) {
    if (fs::exists(file_of(stem, turn))) return turn;
  }
  return 0;
}

}  // namespace

Owner this_process() {
  const long process = ::getpid();
  return {place(), process, standing_of(process).started};
}

bool surely_dead(const Owner& owner) {
  if (owner.place.empty() || owner.place != place()) return false;
  if (::kill(static_cast<pid_t>(owner.process), 0) != 0 && errno == ESRCH) return true;
  const Standing now = standing_of(owner.process);
  return now.started != owner.started || now.is_zombie;
}

Claim::Claim(fs::path stem, int turn, std::chrono::duration<double> beat) : stem_(std::move(stem)), turn_(turn) {
  heart_ = std::thread([this, beat] {
    std::unique_lock lock(mutex_);
    while (!wake_.wait_for(lock, beat, [this] { return over_; }))
      ::utimensat(AT_FDCWD, file_of(stem_, turn_).c_str(), nullptr, 0);
  });
}

Claim::~Claim() {
  stop();
  std::error_code ignored;
  fs::remove(file_of(stem_, turn_), ignored);
}

void Claim::finish() {
  stop();
  std::error_code ignored;
  for (int turn = turn_; turn > 0; --turn) fs::remove(file_of(stem_, turn), ignored);
}

void Claim::stop() noexcept {
  {
    const std::scoped_lock lock(mutex_);
    over_ = true;
  }
  wake_.notify_all();
  if (heart_.joinable()) heart_.join();
}

Claims::Claims(fs::path folder, std::chrono::duration<double> stale_after)
    : folder_(std::move(folder)), stale_after_(stale_after) {}

bool Claims::is_dead(const std::string& name, int turn) {
  const fs::path file = file_of(folder_ / name, turn);
  const std::optional<Owner> owner = read_owner(file);
  if (owner && surely_dead(*owner)) return true;
  if (owner && owner->place == place()) return false;
  std::error_code gone;
  const fs::file_time_type beat = fs::last_write_time(file, gone);
  if (gone) return false;  // just let go of; looked at again soon
  const auto now = std::chrono::steady_clock::now();
  const auto known = seen_.find(name);
  if (known == seen_.end() || known->second.turn != turn || known->second.beat != beat) {
    seen_[name] = {turn, beat, now};
    return false;
  }
  return now - known->second.since > stale_after_;
}

TakeResult Claims::take(const std::string& name) {
  const fs::path stem = folder_ / name;
  const int last = highest_turn(stem);
  if (last > 0 && !is_dead(name, last)) return {};
  if (last == most_turns) return {TakeResult::Kind::lost_too_often, nullptr};
  if (!make_for_one(file_of(stem, last + 1))) return {};
  seen_.erase(name);
  // Eight beats before a claim counts as stale: chosen, so that a slow file system may swallow some.
  return {TakeResult::Kind::taken, std::make_unique<Claim>(stem, last + 1, stale_after_ / 8.0)};
}

void Claims::clear(const std::string& name) const {
  std::error_code ignored;
  for (int turn = most_turns; turn > 0; --turn) fs::remove(file_of(folder_ / name, turn), ignored);
}

}  // namespace stillheap::study
