#include <algorithm>
#include <memory>

#include "fuzz.hpp"
#include "present/server/exchange.hpp"

namespace {

using namespace stillheap;

/// What a stranger sends, some bytes at a time, and what he is answered.
class Line final : public server::ByteStream {
 public:
  Line(std::string_view sent, std::size_t at_once) : sent_(sent), at_once_(at_once) {}
  [[nodiscard]] ssize_t read(char* to, std::size_t size) override {
    const std::size_t count = std::min({size, at_once_, sent_.size()});
    std::copy_n(sent_.data(), count, to);
    sent_.remove_prefix(count);
    return static_cast<ssize_t>(count);
  }
  [[nodiscard]] bool write(const char* from, std::size_t size) override {
    answered.append(from, size);
    return answered.size() < (4U << 20U);
  }
  std::string answered;

 private:
  std::string_view sent_;
  std::size_t at_once_;
};

/// A server of the network, its passphrase known to nobody.
struct Yard {
  fuzz::Scratch scratch{"http"};
  std::unique_ptr<server::House> house;
  std::unique_ptr<server::StaticFiles> page;

  Yard() {
    std::filesystem::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml",
                               scratch.path() / "site.toml");
    std::filesystem::create_directories(scratch.path() / "page");
    (void)scratch.write("page/index.html", "the page");
    server::Safety safety;
    safety.lan = true;
    safety.machine_name = "shed";
    house = std::make_unique<server::House>(scratch.path() / "site.toml", safety);
    page = std::make_unique<server::StaticFiles>(scratch.path() / "page");
  }
};

}  // namespace

/// The very bytes of a connection; the first tells how many come at once. A stranger never gets at the records, and
/// every answer is one.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Yard yard;
  if (size == 0) return 0;
  Line line(fuzz::text_of(data + 1, size - 1), data[0] % 64U + 1U);
  server::Exchange exchange(*yard.house, *yard.page, line, "192.0.2.1",
                            [] { fuzz::expect(false, "a stranger was trusted"); });
  int requests = 0;
  while (exchange.serve_one()) fuzz::expect(++requests < 100000, "a connection without end");
  fuzz::expect(line.answered.empty() || line.answered.starts_with("HTTP/1.1 "), "no answer of HTTP");
  fuzz::expect(line.answered.find("\"vessels\"") == std::string::npos, "a stranger got at the records");
  fuzz::expect(line.answered.find("HTTP/1.1 500") == std::string::npos, "a fault");
  return 0;
}
