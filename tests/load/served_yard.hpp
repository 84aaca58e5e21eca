#pragma once
#include <sys/types.h>

#include <filesystem>
#include <string>
#include <vector>

/// The built program serving an own yard with filled vessels, as a process of its own.
namespace stillheap::load {

class ServedYard {
 public:
  /// Copies `site_file` into a new folder, starts `program` on it and fills `vessels` vessels.
  /// Throws std::runtime_error when any of that fails.
  ServedYard(const std::filesystem::path& program, const std::filesystem::path& site_file, int vessels);
  ServedYard(const ServedYard&) = delete;
  ServedYard& operator=(const ServedYard&) = delete;
  ~ServedYard();

  [[nodiscard]] int port() const noexcept { return port_; }
  [[nodiscard]] const std::vector<std::string>& fills() const noexcept { return fills_; }
  [[nodiscard]] std::filesystem::path store_file() const;
  /// Seconds since 1970 at which every vessel was filled.
  [[nodiscard]] long long filled_s() const noexcept { return filled_s_; }
  /// User and system time that the server has used so far [s].
  [[nodiscard]] double server_cpu_s() const;
  /// Ends the server as Ctrl-C does. True when it ended well.
  bool stop();

 private:
  void start(const std::filesystem::path& program);
  void fill(int vessels);

  std::filesystem::path folder_;
  pid_t server_ = -1;
  int port_ = 0;
  long long filled_s_ = 0;
  std::vector<std::string> fills_;
};

}  // namespace stillheap::load
