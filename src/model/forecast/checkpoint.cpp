#include "model/forecast/checkpoint.hpp"

#include <fstream>
#include <iterator>

#include "core/base/error.hpp"
#include "core/base/fingerprint.hpp"
#include "core/base/whole_file.hpp"
#include "core/json/strict.hpp"
#include "model/forecast/cbor.hpp"

namespace stillheap::forecast {

constexpr auto members_of(Is<Checkpoint> auto& s) noexcept {
  auto& [request, middle, draft, members] = s;
  return std::tie(request, middle, draft, members);
}

namespace {

constexpr const char* kind = "stillheap checkpoint";

using Bytes = std::vector<std::uint8_t>;

template <class Run>
std::uint64_t print_of_bytes(const Run& bytes) {
  Fingerprint print;
  print.add(bytes);
  return print.value();
}

InputError cannot_use(const std::filesystem::path& file, const std::string& why) {
  return {file.string(), why, "run without --resume to begin anew"};
}

std::uint64_t print_of_shape() { return print_of_bytes(shape_of<std::vector<Checkpoint>>()); }

/// A tree of the bytes is read by recursion.
void refuse_odd(const std::filesystem::path& file, const Bytes& bytes) {
  constexpr strict_json::Limits limits{64, std::size_t{1} << 30U};  // chosen: far above what is written
  const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  if (!strict_json::what_is_wrong_with_cbor(text, limits).empty())
    throw cannot_use(file, "this is no whole checkpoint");
}

Bytes read_bytes(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw cannot_use(file, "there is no checkpoint to go on from");
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
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
  Bytes inside = Cbor::to_cbor(packed(checkpoints));
  Cbor outside = {{"kind", kind}, {"version", checkpoint_version}, {"shape", print_of_shape()}};
  outside["print"] = print_of_bytes(inside);
  outside["forecasts"] = Cbor::binary(std::move(inside), 24);  // tag 24: CBOR in a byte string
  const Bytes all = Cbor::to_cbor(outside);
  write_whole_file(file, std::string(all.begin(), all.end()));
}

std::vector<Checkpoint> read_checkpoints(const std::filesystem::path& file) {
  constexpr auto keep_tags = Cbor::cbor_tag_handler_t::store;
  const Bytes all = read_bytes(file);
  refuse_odd(file, all);
  const Cbor outside = Cbor::from_cbor(all, true, false, keep_tags);
  if (!outside.is_object() || outside.value("kind", "") != kind) throw cannot_use(file, "this is no whole checkpoint");
  try {
    if (outside.at("version") != checkpoint_version || outside.at("shape") != print_of_shape())
      throw cannot_use(file, "the checkpoint was written by another version of the program");
    const Bytes& inside = outside.at("forecasts").get_binary();
    if (outside.at("print") != print_of_bytes(inside)) throw cannot_use(file, "the checkpoint is damaged");
    refuse_odd(file, inside);
    std::vector<Checkpoint> checkpoints;
    unpack(Cbor::from_cbor(inside, true, true, keep_tags), checkpoints);
    return checkpoints;
  } catch (const Cbor::exception&) {
    throw cannot_use(file, "this is no whole checkpoint");
  } catch (const std::length_error&) {
    throw cannot_use(file, "this is no whole checkpoint");
  }
}

}  // namespace stillheap::forecast
