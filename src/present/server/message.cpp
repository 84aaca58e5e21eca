#include "present/server/message.hpp"

#include <fstream>

#include "core/base/error.hpp"

namespace stillheap::server {

bool reads(const Request& ask) noexcept { return ask.method == "GET" || ask.method == "HEAD"; }

Response answer_by_file(const std::string& name, std::string type, const std::function<void(std::ostream&)>& write) {
  const auto scratch = std::make_shared<const Scratch>(name);
  std::ofstream out(scratch->file(), std::ios::binary);
  write(out);
  out.close();
  if (!out) throw RunError("temporary folder", "has no room for " + name, "make room in it");
  Response made;
  made.type = std::move(type);
  made.file = scratch;
  return made;
}

}  // namespace stillheap::server
