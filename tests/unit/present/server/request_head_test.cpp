#include "present/server/request_head.hpp"

#include <gtest/gtest.h>

#include <array>

#include "memory_stream.hpp"

namespace stillheap::server {
namespace {

HeadRead read(std::string bytes, std::size_t at_once = 4096) {
  MemoryStream from(std::move(bytes), at_once);
  std::string ahead;
  return read_head(from, ahead);
}
int status_of(std::string bytes) {
  const HeadRead made = read(std::move(bytes));
  return made.end == HeadRead::End::refused ? made.refusal.status : made.end == HeadRead::End::whole ? 200 : 0;
}
std::string post(const std::string& fields) { return "POST /api/entries HTTP/1.1\r\nHost: a\r\n" + fields + "\r\n"; }

TEST(RequestHead, IsReadByteByByteAndLeavesWhatFollows) {
  MemoryStream from(
      "POST /a%20b/c?x=1%2B1&y=a+b HTTP/1.1\r\nHost: shed\r\nX-Odd: 1\r\nContent-Length: 4\r\n\r\nbodyGET", 1);
  std::string ahead;
  const HeadRead made = read_head(from, ahead);
  ASSERT_EQ(made.end, HeadRead::End::whole);
  EXPECT_EQ(made.head.ask.method, "POST");
  EXPECT_EQ(made.head.ask.path, "/a b/c");
  EXPECT_EQ(made.head.ask.query.at("x"), "1+1");
  EXPECT_EQ(made.head.ask.query.at("y"), "a b");
  EXPECT_EQ(made.head.ask.header.at("x-odd"), "1");
  EXPECT_EQ(made.head.body_bytes, 4U);
  EXPECT_TRUE(made.head.keeps_open);
  std::string rest = ahead;
  std::array<char, 16> more{};
  for (ssize_t got = 0; (got = from.read(more.data(), more.size())) > 0;)
    rest.append(more.data(), static_cast<std::size_t>(got));
  EXPECT_EQ(rest, "bodyGET");
}

TEST(RequestHead, EndsWithTheConnection) {
  EXPECT_EQ(status_of(""), 0);
  EXPECT_EQ(status_of("GET / HTTP/1.1\r\nHost: a\r\n"), 0);
}

// Status codes: RFC 9110 (2022), section 15, and RFC 6585 (2012) for 431.
TEST(RequestHead, IsRefusedBeyondTheCaps) {
  EXPECT_EQ(status_of("GET /" + std::string(20000, 'x') + " HTTP/1.1\r\nHost: a\r\n\r\n"), 414);
  EXPECT_EQ(status_of(std::string(20000, 'G')), 414);
  EXPECT_EQ(status_of(post("X: " + std::string(20000, 'x') + "\r\n")), 431);
  std::string many;
  for (int i = 0; i < 100; ++i) many += "X" + std::to_string(i) + ": 1\r\n";
  EXPECT_EQ(status_of(post(many)), 431);
  std::string small;
  for (int i = 0; i < 8000; ++i) small += "a:\r\n";
  EXPECT_EQ(status_of(post(small)), 431);
  std::string folded = "X: 1";
  for (int i = 0; i < 8000; ++i) folded += "\r\n 1";
  EXPECT_EQ(status_of(post(folded + "\r\n")), 431);
}

// RFC 9112 (2022), sections 6.1 and 6.3: two ways to tell a length are how requests are smuggled.
TEST(RequestHead, TellsItsLengthOnceOrNotAtAll) {
  EXPECT_EQ(status_of(post("Content-Length: 2\r\nTransfer-Encoding: chunked\r\n")), 400);
  EXPECT_EQ(status_of(post("Transfer-Encoding: chunked\r\nContent-Length: 2\r\n")), 400);
  EXPECT_EQ(status_of(post("Transfer-Encoding: chunked\r\n")), 411);
  EXPECT_EQ(status_of(post("Transfer-Encoding: gzip, chunked\r\n")), 411);
  EXPECT_EQ(status_of(post("Content-Length: 2\r\nContent-Length: 2\r\n")), 400);
  EXPECT_EQ(status_of(post("Content-Length: 2\r\nContent-Length: 3\r\n")), 400);
  for (const char* const length : {"-1", "+1", "1e9", "0x10", "18446744073709551616", "2, 2", "", "1 1"}) {
    EXPECT_EQ(status_of(post(std::string("Content-Length: ") + length + "\r\n")), 400) << length;
  }
  EXPECT_EQ(status_of("GET / HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\n\r\n"), 400);
}

TEST(RequestHead, IsRefusedWithACompressedBody) {
  for (const char* const kind : {"gzip", "br", "deflate", "zstd", "gzip, gzip", "GZip"}) {
    EXPECT_EQ(status_of(post(std::string("Content-Length: 5\r\nContent-Encoding: ") + kind + "\r\n")), 415) << kind;
  }
  EXPECT_EQ(status_of(post("Content-Length: 5\r\nContent-Encoding: identity\r\n")), 200);
}

TEST(RequestHead, IsRefusedWhenItIsNoHttp) {
  const char* const odd[] = {"GET\r\n\r\n",
                             "GET / HTTP/2.0\r\n\r\n",
                             "GET / HTTP/1.1\r\nno colon\r\n\r\n",
                             "GET / HTTP/1.1\r\nHost : a\r\n\r\n",
                             "GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
                             "GET /%zz HTTP/1.1\r\nHost: a\r\n\r\n",
                             "GET /%00 HTTP/1.1\r\nHost: a\r\n\r\n",
                             "GET http://localhost/ HTTP/1.1\r\nHost: a\r\n\r\n",
                             "GET /?a=%f HTTP/1.1\r\nHost: a\r\n\r\n",
                             "\x16\x03\x01\x01\x00\x01\x00\x00\xfc\x03\x03\r\n\r\n"};
  for (const char* const one : odd) EXPECT_EQ(status_of(one), 400) << one;
  EXPECT_EQ(status_of(post("Content-Length: 1\r\nExpect: the moon\r\n")), 417);
}

}  // namespace
}  // namespace stillheap::server
