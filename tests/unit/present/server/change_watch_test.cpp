#include "present/server/change_watch.hpp"

#include <gtest/gtest.h>

#include <memory>
#include <vector>

#include "present/server/exchange.hpp"
#include "present/server/guard.hpp"
#include "yard/record/changes.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/write.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

class Changes : public testing::Test {
 protected:
  Changes() : folder_(fs::path(testing::TempDir()) / ("changes-" + record::new_id())) {
    fs::create_directories(folder_);
    fs::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml", folder_ / "site.toml");
    store_.emplace(record::Store::open(file()));
  }
  ~Changes() override {
    store_.reset();
    fs::remove_all(folder_);
  }
  [[nodiscard]] fs::path file() const { return folder_ / "site.records.sqlite"; }
  /// As another program does it: on a connection of its own.
  void store_something() {
    record::Vessel one;
    one.mark.by = "ab";
    one.name = record::new_id();
    (void)record::add(*store_, one);
  }
  fs::path folder_;
  std::optional<record::Store> store_;
};

TEST_F(Changes, OfOthersGiveAnotherVersionOwnOnesDoNot) {
  record::Store mine = record::Store::open(file(), false);
  const long long before = record::version_by_others(mine);
  EXPECT_EQ(record::version_by_others(mine), before);
  store_something();
  const long long after = record::version_by_others(mine);
  EXPECT_NE(after, before);
  record::Vessel own;
  own.mark.by = "ab";
  own.name = "own";
  (void)record::add(mine, own);
  EXPECT_EQ(record::version_by_others(mine), after);
}

TEST_F(Changes, AreNoticedSoonWhoeverStoredThem) {
  ChangeWatch watch(file());
  const auto place = watch.take();
  ASSERT_TRUE(place);
  const std::uint64_t first = watch.count_after(0, 10s);  // the first look counts: nobody looked before
  EXPECT_GT(first, 0U);
  EXPECT_EQ(watch.count_after(first, 1200ms), first) << "nothing was stored";
  store_something();
  EXPECT_GT(watch.count_after(first, 10s), first);
}

TEST_F(Changes, AreToldToSoManyAndNoMore) {
  ChangeWatch watch(file());
  const auto take = [&] { return std::unique_ptr<ChangeWatch::Place>(new ChangeWatch::Place(watch.take())); };
  std::vector<std::unique_ptr<ChangeWatch::Place>> taken;
  for (std::size_t i = 0; i < ChangeWatch::most_listeners; ++i) {
    taken.push_back(take());
    EXPECT_TRUE(*taken.back());
  }
  EXPECT_FALSE(watch.take());
  taken.pop_back();
  EXPECT_TRUE(watch.take());
}

/// Somebody who reads so many pieces and goes, or goes at a word.
class Leaver final : public ByteStream {
 public:
  Leaver(std::string sent, int pieces, std::string word = "")
      : sent_(std::move(sent)), pieces_(pieces), word_(std::move(word)) {}
  ssize_t read(char* to, std::size_t size) override {
    const std::size_t count = std::min(size, sent_.size() - at_);
    std::copy_n(sent_.data() + at_, count, to);
    at_ += count;
    return static_cast<ssize_t>(count);
  }
  bool write(const char* from, std::size_t size) override {
    if (size > 0 && !got_.empty()) --pieces_;
    got_.append(from, size);
    return true;
  }
  bool is_left() override { return pieces_ <= 0 || (!word_.empty() && got_.find(word_) != std::string::npos); }
  [[nodiscard]] const std::string& got() const { return got_; }

 private:
  std::string sent_, got_;
  std::size_t at_ = 0;
  int pieces_;
  std::string word_;
};

TEST_F(Changes, AreSentAsEventsUntilTheOtherSideGoes) {
  House house(folder_ / "site.toml", {});
  constexpr int pieces = 60;  // "still here" comes first where the first look at the disk takes long
  Leaver line("GET /api/changes HTTP/1.1\r\nHost: localhost:8340\r\n\r\n", pieces, "\ndata: ");
  const StaticFiles page;
  Exchange exchange(house, page, line, "127.0.0.1");
  EXPECT_FALSE(exchange.serve_one()) << "its length is not known: the connection ends with it";
  const std::string& got = line.got();
  EXPECT_NE(got.find("Content-Type: text/event-stream\r\n"), std::string::npos) << got;
  EXPECT_EQ(got.find("Content-Length"), std::string::npos) << got;
  EXPECT_NE(got.find("Connection: close\r\n"), std::string::npos) << got;
  EXPECT_NE(got.find("\ndata: 1\n\n"), std::string::npos) << got;  // WHATWG HTML 9.2.5: an event
}

TEST_F(Changes, AreNotToldToStrangersAndNotOnceTheSessionIsOver) {
  Safety open_to_all;
  open_to_all.lan = true;
  House house(folder_ / "site.toml", open_to_all);
  const std::string head = "GET /api/changes HTTP/1.1\r\nHost: localhost:8340\r\n";
  Leaver stranger(head + "\r\n", 1);
  EXPECT_TRUE(Exchange(house, {}, stranger, "192.168.1.7").serve_one());
  EXPECT_EQ(stranger.got().substr(0, 12), "HTTP/1.1 401");

  const std::string token = house.door().sessions.open(Clock::now());
  Leaver member(head + "Cookie: " + std::string(session_cookie) + "=" + token + "\r\n\r\n", 1000);
  std::thread ends([&] {
    std::this_thread::sleep_for(1500ms);
    house.door().sessions.close(token);
    store_something();
  });
  EXPECT_FALSE(Exchange(house, {}, member, "192.168.1.7").serve_one()) << "comes back, though nobody left";
  ends.join();
  EXPECT_EQ(member.got().substr(0, 12), "HTTP/1.1 200");
}

}  // namespace
}  // namespace stillheap::server
