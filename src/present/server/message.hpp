#pragma once
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

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

struct Response {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers;
};

/// Thrown by handlers: there is nothing at this address. The text goes to the user.
struct NotThere {
  std::string what;
};

}  // namespace stillheap::server
