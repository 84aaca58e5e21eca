#pragma once
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/fingerprint.hpp"
#include "model/forecast/cbor.hpp"

/// Values in a file of CBOR that tells damage and other versions by itself.
namespace stillheap::forecast {

using Bytes = std::vector<std::uint8_t>;

/// What a file is recognised by.
struct Seal {
  std::string kind;  ///< "stillheap checkpoint"
  int version = 1;   ///< counts changes of meaning that keep the shape; changes of shape are found by themselves
  std::uint64_t shape = 0;
  std::string mend;  ///< what to do when the file cannot be used
};

[[nodiscard]] std::uint64_t print_of_bytes(const Bytes& bytes);
[[nodiscard]] std::uint64_t print_of_bytes(const std::string& bytes);

/// Writes the file whole or not at all. Throws RunError when that fails.
void write_sealed(const Seal& seal, Bytes inside, const std::filesystem::path& file);

/// The error of a file that cannot be used.
[[nodiscard]] InputError cannot_use(const Seal& seal, const std::filesystem::path& file, const std::string& why);

/// The file is of its kind, but another version of the program wrote it.
class OtherVersion : public InputError {
  using InputError::InputError;
};

/// Throws InputError when the file is missing or damaged, OtherVersion when a program that keeps other things wrote it.
[[nodiscard]] Bytes read_sealed(const Seal& seal, const std::filesystem::path& file);

template <class T>
[[nodiscard]] Seal seal_for(std::string kind, int version, std::string mend) {
  return {std::move(kind), version, print_of_bytes(shape_of<T>()), std::move(mend)};
}

/// Throws as `read_sealed` does.
template <class T>
[[nodiscard]] T unsealed(const Seal& seal, const std::filesystem::path& file) {
  try {
    T value{};
    unpack(Cbor::from_cbor(read_sealed(seal, file), true, true, Cbor::cbor_tag_handler_t::store), value);
    return value;
  } catch (const Cbor::exception&) {
    throw cannot_use(seal, file, "this is no whole " + seal.kind);
  } catch (const std::length_error&) {
    throw cannot_use(seal, file, "this is no whole " + seal.kind);
  }
}

}  // namespace stillheap::forecast
