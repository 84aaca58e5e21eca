#include "model/forecast/sealed.hpp"

#include <fstream>
#include <iterator>

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "core/json/strict.hpp"

namespace stillheap::forecast {
namespace {

template <class Run>
std::uint64_t print_of_run(const Run& bytes) {
  Fingerprint print;
  print.add(bytes);
  return print.value();
}

Bytes read_bytes(const Seal& seal, const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw cannot_use(seal, file, "there is no such file");
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// A tree of the bytes is read by recursion.
void refuse_odd(const Seal& seal, const std::filesystem::path& file, const Bytes& bytes) {
  constexpr strict_json::Limits limits{64, std::size_t{1} << 30U};  // chosen: far above what is written
  const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  if (!strict_json::what_is_wrong_with_cbor(text, limits).empty())
    throw cannot_use(seal, file, "this is no whole " + seal.kind);
}

}  // namespace

std::uint64_t print_of_bytes(const Bytes& bytes) { return print_of_run(bytes); }
std::uint64_t print_of_bytes(const std::string& bytes) { return print_of_run(bytes); }

InputError cannot_use(const Seal& seal, const std::filesystem::path& file, const std::string& why) {
  return {file.string(), why, seal.mend};
}

void write_sealed(const Seal& seal, Bytes inside, const std::filesystem::path& file) {
  Cbor outside = {{"kind", seal.kind}, {"version", seal.version}, {"shape", seal.shape}};
  outside["print"] = print_of_bytes(inside);
  outside["inside"] = Cbor::binary(std::move(inside), 24);  // tag 24: CBOR in a byte string
  const Bytes all = Cbor::to_cbor(outside);
  write_whole_file(file, std::string(all.begin(), all.end()));
}

Bytes read_sealed(const Seal& seal, const std::filesystem::path& file) {
  const Bytes all = read_bytes(seal, file);
  refuse_odd(seal, file, all);
  try {
    const Cbor outside = Cbor::from_cbor(all, true, false, Cbor::cbor_tag_handler_t::store);
    if (!outside.is_object() || outside.value("kind", "") != seal.kind)
      throw cannot_use(seal, file, "this is no whole " + seal.kind);
    if (outside.at("version") != seal.version || outside.at("shape") != seal.shape)
      throw OtherVersion(file.string(), "it was written by another version of the program", seal.mend);
    Bytes inside = outside.at("inside").get_binary();
    if (outside.at("print") != print_of_bytes(inside)) throw cannot_use(seal, file, "it is damaged");
    refuse_odd(seal, file, inside);
    return inside;
  } catch (const Cbor::exception&) {
    throw cannot_use(seal, file, "this is no whole " + seal.kind);
  }
}

}  // namespace stillheap::forecast
