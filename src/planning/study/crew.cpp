#include "planning/study/crew.hpp"

#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <exception>
#include <map>
#include <system_error>
#include <thread>

#include "core/base/error.hpp"

namespace stillheap::study {
namespace {

constexpr int fault_code = 1;

/// Ends without what belongs to the parent: its buffers were flushed before, its destructors are its own.
[[noreturn]] void be_worker(int number, pid_t parent, const std::function<void(int)>& work) {
  ::prctl(PR_SET_PDEATHSIG, SIGTERM);
  int code = 0;
  if (::getppid() == parent) {
    try {
      work(number);
    } catch (const std::exception& error) {
      std::fprintf(stderr, "worker %d: %s\n", number, error.what());
      code = fault_code;
    }
  }
  std::fflush(nullptr);
  ::_exit(code);
}

class Crew {
 public:
  explicit Crew(const std::function<void(int)>& work) : work_(work) {}
  Crew(const Crew&) = delete;
  Crew& operator=(const Crew&) = delete;
  ~Crew() {  // only when something was thrown
    tell(SIGTERM);
    for (const auto& [process, number] : members_) ::waitpid(process, nullptr, 0);
  }

  void add(int number) {
    std::fflush(nullptr);
    const pid_t parent = ::getpid();
    const pid_t process = ::fork();
    if (process < 0) {
      throw RunError("sweep", "no worker can be started: " + std::generic_category().message(errno),
                     "use fewer with --workers");
    }
    if (process == 0) be_worker(number, parent, work_);
    members_[process] = number;
  }

  void tell(int signal) const {
    for (const auto& [process, number] : members_) ::kill(process, signal);
  }

  /// Takes those out that ended. A lost one is replaced unless all are to stop.
  void look(CrewResult& result, bool stopping) {
    const std::map<pid_t, int> before = members_;
    for (const auto& [process, number] : before) {
      int status = 0;
      if (::waitpid(process, &status, WNOHANG) != process) continue;
      members_.erase(process);
      if (WIFEXITED(status) && WEXITSTATUS(status) == 0) continue;
      if (WIFEXITED(status)) {
        result.failed = true;
      } else if (!stopping) {
        ++result.lost;
        add(number);
      }
    }
  }

  [[nodiscard]] bool empty() const noexcept { return members_.empty(); }

 private:
  const std::function<void(int)>& work_;
  std::map<pid_t, int> members_;
};

}  // namespace

CrewResult run_crew(int workers, int most_lost, const std::function<void(int)>& work,
                    const std::function<bool()>& keep_on) {
  CrewResult result;
  Crew crew(work);
  for (int number = 0; number < workers; ++number) crew.add(number);
  bool told = false;
  while (!crew.empty()) {
    const bool stopping = !keep_on() || result.failed;
    if (stopping && !told) crew.tell(SIGTERM);
    told = told || stopping;
    crew.look(result, told);
    if (result.lost > most_lost) {
      throw RunError("sweep", std::to_string(result.lost) + " workers were lost one after another",
                     "see that there is memory enough, or use fewer with --workers");
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  return result;
}

}  // namespace stillheap::study
