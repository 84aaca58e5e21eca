#include <memory>

#include "fuzz.hpp"
#include "present/server/change.hpp"
#include "present/server/serve.hpp"
#include "yard/record/write.hpp"

namespace {

using namespace stillheap;

constexpr const char* fill_id = "11111111-1111-4111-8111-111111111111";

/// A server without its socket on a yard with one fill of a known id.
struct Yard {
  fuzz::Scratch scratch{"server"};
  std::unique_ptr<server::House> house;

  Yard() {
    std::filesystem::copy_file(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml",
                               scratch.path() / "site.toml");
    house = std::make_unique<server::House>(scratch.path() / "site.toml", server::Safety{});
    const auto store = house->yard()->stores.take();
    record::Vessel vessel;
    vessel.mark.by = "ab";
    vessel.name = "north";
    record::Fill fill;
    fill.mark.by = "ab";
    fill.mark.id = fill_id;
    fill.vessel_id = record::add(*store, vessel).id;
    fill.batch = "1";
    fill.filled_at = record::parse_instant("2025-03-01T00:00Z", "UTC", "fuzz");
    (void)record::add(*store, fill);
  }
};

std::string_view cut(std::string_view& rest, char at) {
  const std::size_t end = rest.find(at);
  const std::string_view part = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  return part;
}

/// "POST /api/entries?x=1", lines "name: value", an empty line, the body. The headers that every honest request has are
/// there unless they are given.
server::Request ask_of(std::string_view text) {
  server::Request ask;
  ask.address = "127.0.0.1";
  std::string_view line = cut(text, '\n');
  ask.method = cut(line, ' ');
  std::string_view query = line;
  ask.path = cut(query, '?');
  while (!query.empty()) {
    std::string_view one = cut(query, '&');
    const std::string name(cut(one, '='));
    ask.query.emplace(name, one);
  }
  while (!text.empty()) {
    std::string_view header = cut(text, '\n');
    if (header.empty()) break;
    const std::string name(cut(header, ':'));
    header.remove_prefix(std::min(header.find_first_not_of(' '), header.size()));
    ask.header.emplace(name, header);
  }
  ask.body = text;
  ask.header.emplace("host", "localhost:8340");
  ask.header.emplace("origin", "http://localhost:8340");
  ask.header.emplace("content-type", "application/json");
  ask.header.emplace("content-length", std::to_string(ask.body.size()));
  return ask;
}

/// Routes that run a forecast take seconds: of those the body alone is read.
bool runs_a_forecast(const server::Request& ask) {
  return ask.method == "POST" && (ask.path == "/api/drafts" || ask.path == "/api/forecasts");
}

}  // namespace

/// One request to the page's server, as its routes see it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Yard yard;
  const server::Request ask = ask_of(fuzz::text_of(data, size));
  if (runs_a_forecast(ask)) {
    fuzz::try_it([&] {
      const auto what = server::make_case(yard.house->yard()->site, server::read_change(server::body_json(ask)));
      (void)server::text_of(server::read_change(server::body_json(ask)));
      fuzz::expect(what.design.height_m > 0.0, "a case without height was taken");
    });
    return 0;
  }
  const server::Response answer = server::respond(*yard.house, {}, ask);
  fuzz::expect(answer.status >= 200 && answer.status < 500, answer.body.c_str());
  return 0;
}
