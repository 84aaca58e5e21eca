#include "present/server/exchange.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <memory>
#include <regex>
#include <utility>

#include "present/server/guard.hpp"
#include "present/server/route.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/read.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;

/// A head at once, and the body after something else happened.
class LateBody final : public ByteStream {
 public:
  LateBody(std::string head, std::string body, std::function<void()> between)
      : parts_{std::move(head), std::move(body)}, between_(std::move(between)) {}
  [[nodiscard]] ssize_t read(char* to, std::size_t size) override {
    if (at_ == 1 && between_) std::exchange(between_, nullptr)();
    if (at_ == 2) return 0;
    std::string& part = parts_[at_];
    const std::size_t count = std::min(size, part.size());
    std::copy_n(part.data(), count, to);
    part.erase(0, count);
    if (part.empty()) ++at_;
    return static_cast<ssize_t>(count);
  }
  [[nodiscard]] bool write(const char* from, std::size_t size) override {
    got_.append(from, size);
    return true;
  }
  [[nodiscard]] const std::string& got() const noexcept { return got_; }

 private:
  std::string parts_[2], got_;
  std::function<void()> between_;
  std::size_t at_ = 0;
};

struct Asked {
  std::string method = "GET", path = "/api/yard";
  std::string host = "shed", origin = "http://shed", token;
  std::string body;
  std::size_t told_bytes = 0;  ///< when not as long as the body
};

std::string head_of(const Asked& ask) {
  std::string text = ask.method + ' ' + ask.path + " HTTP/1.1\r\nHost: " + ask.host + "\r\n";
  if (!ask.origin.empty()) text += "Origin: " + ask.origin + "\r\n";
  if (!ask.token.empty()) text += "Cookie: " + std::string(session_cookie) + '=' + ask.token + "\r\n";
  if (ask.method != "GET") {
    text += "Content-Type: application/json\r\nContent-Length: " +
            std::to_string(ask.told_bytes > 0 ? ask.told_bytes : ask.body.size()) + "\r\n";
  }
  return text + "\r\n";
}

/// A server of the network, without its socket.
class OnTheNetwork : public testing::Test {
 protected:
  OnTheNetwork() : folder_(fs::path(testing::TempDir()) / ("exchange-" + record::new_id())) {
    fs::create_directories(folder_);
    fs::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml", folder_ / "site.toml");
    Safety safety;
    safety.lan = true;
    safety.machine_name = "shed";
    house_ = std::make_unique<House>(folder_ / "site.toml", safety);
  }
  ~OnTheNetwork() override {
    house_.reset();
    fs::remove_all(folder_);
  }
  ServerContext& context() { return *house_->yard(); }
  std::string session() { return house_->door().sessions.open(Clock::now()); }
  /// Status of the answer; the whole of it in `answered_`.
  int ask(const Asked& what, std::function<void()> between = {}) {
    LateBody line(head_of(what), what.body, std::move(between));
    Exchange exchange(*house_, page_, line, "192.0.2.7");
    (void)exchange.serve_one();
    answered_ = line.got();
    std::smatch found;
    return std::regex_search(answered_, found, std::regex("^HTTP/1\\.1 (\\d+)")) ? std::stoi(found[1]) : 0;
  }
  Asked vessel(const std::string& token) {
    Asked made;
    made.method = "POST";
    made.path = "/api/entries";
    made.token = token;
    made.body = R"({"entries":[{"kind_of_entry":"vessel","name":"North 1","by":"ab","id":")" + record::new_id() +
                R"(","design":")" + house_->yard()->site.vessels.front().name + R"("}]})";
    return made;
  }
  std::size_t vessels() { return record::all<record::Vessel>(*house_->yard()->stores.take()).size(); }

  std::string answered_;

 private:
  fs::path folder_;
  StaticFiles page_;
  std::unique_ptr<House> house_;
};

TEST_F(OnTheNetwork, ABodyOfOneWhoGaveThePassphraseIsTaken) {
  bool came_late = false;
  EXPECT_EQ(ask(vessel(session()), [&] { came_late = true; }), 200) << answered_;
  EXPECT_TRUE(came_late);
  EXPECT_EQ(vessels(), 1U);
  EXPECT_NE(answered_.find("X-Content-Type-Options: nosniff"), std::string::npos);
}

TEST_F(OnTheNetwork, ABodyWhoseSessionEndedWhileItCameIsRefused) {
  const std::string token = session();
  EXPECT_EQ(ask(vessel(token), [&] { context().door->sessions.close(token); }), 401) << answered_;
  EXPECT_EQ(vessels(), 0U);
  EXPECT_NE(answered_.find("X-Content-Type-Options: nosniff"), std::string::npos);
}

TEST_F(OnTheNetwork, ThePassphraseItselfNeedsNoSession) {
  Asked give;
  give.method = "POST";
  give.path = "/api/session";
  give.body = "{}";
  EXPECT_EQ(ask(give), 422) << "looked at, and told what is missing";
  give.method = "GET";
  EXPECT_EQ(ask(give), 200);
}

TEST_F(OnTheNetwork, NoRouteIsReachedFromElsewhereByAStrangerOrWithTooMuch) {
  const std::string token = session();
  for (const Route& route : routes()) {
    SCOPED_TRACE(std::string(route.method) + ' ' + std::string(route.pattern));
    Asked fair;
    fair.method = route.method;
    fair.path = std::regex_replace(std::string(route.pattern), std::regex("\\{[^}]*\\}"), "x");
    fair.token = token;
    fair.body = fair.method == "GET" ? "" : "{}";

    Asked other_host = fair;
    other_host.host = "elsewhere.example";
    EXPECT_EQ(ask(other_host), 421);
    Asked other_page = fair;
    other_page.origin = "http://elsewhere.example";
    EXPECT_EQ(ask(other_page), 403);
    if (fair.method != "GET") {
      Asked no_page = fair;
      no_page.origin.clear();
      EXPECT_EQ(ask(no_page), 403);
      Asked large = fair;
      large.told_bytes = route.most_bytes + 1;
      EXPECT_EQ(ask(large), 413);
    }
    if (route.without_session) continue;
    for (const std::string& none : {std::string(), token + "0", std::string(64, '0')}) {
      Asked stranger = fair;
      stranger.token = none;
      EXPECT_EQ(ask(stranger), 401);
    }
    if (fair.body.empty()) continue;
    Asked late = fair;
    late.token = session();
    EXPECT_EQ(ask(late, [&] { context().door->sessions.close(late.token); }), 401);
  }
  EXPECT_EQ(vessels(), 0U);
}

}  // namespace
}  // namespace stillheap::server
