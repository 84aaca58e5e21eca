#include "model/forecast/checkpoint.hpp"

#include "core/base/error.hpp"
#include "model/forecast/sealed.hpp"

namespace stillheap::forecast {

constexpr auto members_of(Is<Checkpoint> auto& s) noexcept {
  auto& [request, middle, draft, members] = s;
  return std::tie(request, middle, draft, members);
}

namespace {

Seal seal() {
  return seal_for<std::vector<Checkpoint>>("stillheap checkpoint", checkpoint_version,
                                           "run without --resume to begin anew");
}

}  // namespace

RequestPrint print_of(const Request& request) {
  RequestPrint prints{};
  std::size_t part = 0;
  const auto members = members_of(request);
  static_assert(std::tuple_size_v<decltype(members)> == request_parts.size(), "name the new part of a request");
  std::apply([&](const auto&... member) { ((prints[part++] = print_of_bytes(Cbor::to_cbor(packed(member)))), ...); },
             members);
  return prints;
}

std::uint64_t print_of(const OwnReadings& own) { return print_of_bytes(Cbor::to_cbor(packed(own))); }

void check_same_request(const Checkpoint& checkpoint, const Request& request) {
  const RequestPrint now = print_of(request);
  std::string changed;
  for (std::size_t part = 0; part < now.size(); ++part) {
    if (now[part] != checkpoint.request[part])
      changed += (changed.empty() ? "" : ", ") + std::string(request_parts[part]);
  }
  if (changed.empty()) return;
  throw InputError("--resume", "what the forecast is made from has changed since it was stopped: " + changed,
                   "put it back as it was, options included, or run without --resume to begin anew");
}

void write_checkpoints(const std::vector<Checkpoint>& checkpoints, const std::filesystem::path& file) {
  write_sealed(seal(), Cbor::to_cbor(packed(checkpoints)), file);
}

std::vector<Checkpoint> read_checkpoints(const std::filesystem::path& file) {
  return unsealed<std::vector<Checkpoint>>(seal(), file);
}

}  // namespace stillheap::forecast
