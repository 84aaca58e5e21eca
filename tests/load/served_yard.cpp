#include "served_yard.hpp"

#include <httplib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "yard/record/ident.hpp"
#include "yard/record/store.hpp"

namespace stillheap::load {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr long long day_s = 86400;
constexpr int filled_days_ago = 40;

/// Reads the program's first line, which tells the port after "localhost:".
int read_port(int pipe) {
  std::string text;
  char sign = 0;
  while (text.find('\n') == std::string::npos && ::read(pipe, &sign, 1) == 1) text += sign;
  const std::string before = "localhost:";
  const std::size_t at = text.find(before);
  if (at == std::string::npos) throw std::runtime_error("the server told no address: " + text);
  return std::stoi(text.substr(at + before.size()));
}

}  // namespace

ServedYard::ServedYard(const fs::path& program, const fs::path& site_file, int vessels)
    : folder_(fs::temp_directory_path() / ("stillheap-load-" + record::new_id())) {
  fs::create_directories(folder_);
  fs::copy_file(site_file, folder_ / "site.toml");
  start(program);
  fill(vessels);
}

ServedYard::~ServedYard() {
  (void)stop();
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void ServedYard::start(const fs::path& program) {
  int pipe[2];
  if (::pipe(pipe) != 0) throw std::runtime_error("no pipe");
  server_ = ::fork();
  if (server_ == 0) {
    ::dup2(pipe[1], STDOUT_FILENO);
    ::close(pipe[0]);
    ::close(pipe[1]);
    ::execl(program.c_str(), program.c_str(), "serve", folder_.c_str(), "--port", "0", nullptr);
    ::_exit(127);
  }
  ::close(pipe[1]);
  port_ = read_port(pipe[0]);
  ::close(pipe[0]);
}

void ServedYard::fill(int vessels) {
  using std::chrono::system_clock;
  filled_s_ = system_clock::to_time_t(system_clock::now()) - filled_days_ago * day_s;
  json entries = json::array();
  for (int i = 0; i < vessels; ++i) {
    const std::string vessel = record::new_id();
    fills_.push_back(record::new_id());
    const std::string name = "vessel " + std::to_string(i + 1);
    entries.push_back({{"kind_of_entry", "vessel"}, {"id", vessel}, {"name", name}, {"by", "ab"}});
    entries.push_back({{"kind_of_entry", "fill"},
                       {"id", fills_.back()},
                       {"vessel", vessel},
                       {"batch", "batch " + std::to_string(i + 1)},
                       {"by", "ab"},
                       {"filled_s", filled_s_}});
  }
  httplib::Client client("127.0.0.1", port_);
  const httplib::Headers headers{{"Origin", "http://127.0.0.1:" + std::to_string(port_)}};
  const auto answer = client.Post("/api/entries", headers, json{{"entries", entries}}.dump(), "application/json");
  if (!answer || answer->status != 200) throw std::runtime_error("the vessels were not taken in");
  const json results = json::parse(answer->body).at("results");
  for (const json& one : results) {
    if (one.at("outcome") != "stored") throw std::runtime_error("a vessel was refused: " + one.dump());
  }
}

fs::path ServedYard::store_file() const { return record::store_path(folder_ / "site.toml"); }

double ServedYard::server_cpu_s() const {
  std::ifstream in("/proc/" + std::to_string(server_) + "/stat");
  std::string text;
  std::getline(in, text);
  std::istringstream rest(text.substr(text.rfind(')') + 1));
  std::string word;
  for (int i = 0; i < 11; ++i) rest >> word;  // fields 3 to 13 of proc(5)
  long long user = 0, system = 0;
  rest >> user >> system;
  return static_cast<double>(user + system) / static_cast<double>(::sysconf(_SC_CLK_TCK));
}

bool ServedYard::stop() {
  if (server_ <= 0) return true;
  int status = 0;
  ::kill(server_, SIGTERM);
  const bool ended = ::waitpid(server_, &status, 0) == server_;
  server_ = -1;
  return ended && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace stillheap::load
