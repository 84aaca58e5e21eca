#pragma once
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "present/server/scratch.hpp"

/// What comes in and goes out, without any web library: handlers can be called and tested on their own.
namespace stillheap::server {

struct Request {
  std::string method;                        ///< "GET"
  std::string path;                          ///< "/api/fills/018f.../readings"
  std::map<std::string, std::string> named;  ///< parts of the path by their name in the route
  std::map<std::string, std::string> query;
  std::map<std::string, std::string> header;  ///< names in lower case
  std::string body;
  std::string address;  ///< of who asks
};

/// Whether it only asks to see something: GET or HEAD.
[[nodiscard]] bool reads(const Request& ask) noexcept;

struct Response {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers;
  std::shared_ptr<const Scratch> file;  ///< when there, what is sent instead of the body, piece by piece
  /// When there, what is sent instead of the body for as long as it says so and somebody reads: it puts the next piece,
  /// perhaps none, and may wait for it a second or so. Its length is not known: the connection ends with it.
  std::function<bool(std::string& piece)> more;
};

/// An answer too large to be held in memory: `write` fills a file that goes when the answer was sent.
[[nodiscard]] Response answer_by_file(const std::string& name, std::string type,
                                      const std::function<void(std::ostream&)>& write);

/// Thrown by handlers: there is nothing at this address. The text goes to the user.
struct NotThere {
  std::string what;
};

}  // namespace stillheap::server
