#include "client.hpp"

#include <httplib.h>

#include <nlohmann/json.hpp>
#include <thread>

#include "yard/record/ident.hpp"

namespace stillheap::load {
namespace {

using Clock = std::chrono::steady_clock;
using nlohmann::json;

constexpr int sent_again_every = 8;

class Client {
 public:
  explicit Client(const Work& what) : what_(what), http_("127.0.0.1", what.port) {
    http_.set_keep_alive(true);
    http_.set_tcp_nodelay(true);
    http_.set_connection_timeout(30);
    http_.set_read_timeout(30);
    headers_ = {{"Origin", "http://127.0.0.1:" + std::to_string(what.port)}};
  }

  void note(int n) {
    const double value = 45.0 + n % 20 + 0.001 * what_.number;  // no jump that would be asked back
    const json reading = {{"kind_of_entry", "reading"},
                          {"id", record::new_id()},
                          {"fill", what_.fill},
                          {"measure", "temperature"},
                          {"place", "client " + std::to_string(what_.number)},
                          {"at_s", what_.first_at_s + n},
                          {"value", value},
                          {"by", "ab"}};
    if (!send(reading, "stored")) return;
    seen_.acknowledged.push_back({reading.at("id"), value});
    if (n % sent_again_every == 0) (void)send(reading, "known");
  }

  void look(int n) {
    const std::string fill = "/api/fills/" + what_.fill;
    const std::pair<const char*, std::string> looks[] = {
        {"GET yard", "/api/yard"},      {"GET readings", fill + "/readings"}, {"GET yard", "/api/yard"},
        {"GET state", fill + "/state"}, {"GET today", "/api/today"},          {"GET fill", fill}};
    const auto& [kind, path] = looks[static_cast<std::size_t>(n + what_.number) % std::size(looks)];
    const auto began = Clock::now();
    const auto answer = http_.Get(path, headers_);
    timed(kind, began);
    if (!answer) return fault(kind, httplib::to_string(answer.error()));
    if (answer->status != 200) return fault(kind, std::to_string(answer->status) + " " + answer->body);
    if (!json::accept(answer->body)) fault(kind, "answered no JSON");
  }

  Seen seen_;

 private:
  bool send(const json& reading, const std::string& wanted) {
    const std::string body = json{{"entries", {reading}}}.dump();
    const auto began = Clock::now();
    const auto answer = http_.Post("/api/entries", headers_, body, "application/json");
    timed("POST reading", began);
    if (!answer) return fault("POST reading", httplib::to_string(answer.error())), false;
    if (answer->status != 200) {
      return fault("POST reading", std::to_string(answer->status) + " " + answer->body), false;
    }
    const json told = json::parse(answer->body, nullptr, false);
    if (!told.is_discarded() && told["results"][0]["outcome"] == wanted) return true;
    return fault("POST reading", "wanted " + wanted + ", told " + answer->body), false;
  }

  void timed(const std::string& kind, Clock::time_point began) {
    seen_.took_ms[kind].push_back(std::chrono::duration<double, std::milli>(Clock::now() - began).count());
  }
  void fault(const std::string& kind, const std::string& what) {
    seen_.faults.push_back("client " + std::to_string(what_.number) + ", " + kind + ": " + what);
  }

  Work what_;
  httplib::Client http_;
  httplib::Headers headers_;
};

}  // namespace

Seen work(const Work& what) {
  Client client(what);
  for (int n = 0; Clock::now() < what.until; ++n) {
    client.note(n);
    std::this_thread::sleep_for(what.rest);
    client.look(n);
    std::this_thread::sleep_for(what.rest);
  }
  return std::move(client.seen_);
}

}  // namespace stillheap::load
