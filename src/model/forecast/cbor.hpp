#pragma once
#include <array>
#include <bit>
#include <cstring>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "core/base/error.hpp"
#include "model/forecast/members.hpp"

/// Values as CBOR (RFC 8949) and back, every double exact. A struct is an array of its members, a row of numbers a
/// typed array of RFC 8746 (little-endian; tag 86 for 64 bits, 85 for 32), nothing is null.
namespace stillheap::forecast {

using Cbor = nlohmann::json;

static_assert(std::endian::native == std::endian::little, "typed arrays are written as they lie in memory");

template <class T>
concept Listed = requires(T& value) {
  members_of(value);
};

template <class T>
inline constexpr bool is_floating_row = false;
template <class T>
requires std::floating_point<T>
inline constexpr bool is_floating_row<std::vector<T>> = true;
template <class T, std::size_t n>
requires std::floating_point<T>
inline constexpr bool is_floating_row<std::array<T, n>> = true;

template <class T>
inline constexpr bool is_vector = false;
template <class T>
inline constexpr bool is_vector<std::vector<T>> = true;

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

template <class Number>
[[nodiscard]] Cbor packed_row(const Number* first, std::size_t count) {
  constexpr std::uint64_t tag = sizeof(Number) == 8 ? 86 : 85;
  std::vector<std::uint8_t> bytes(count * sizeof(Number));
  if (count > 0) std::memcpy(bytes.data(), first, bytes.size());
  return Cbor::binary(std::move(bytes), tag);
}

template <class T>
[[nodiscard]] Cbor packed(const T& value) {
  if constexpr (Listed<const T>) {
    Cbor row = Cbor::array();
    std::apply([&](const auto&... member) { (row.push_back(packed(member)), ...); }, members_of(value));
    return row;
  } else if constexpr (is_floating_row<T>) {
    return packed_row(value.data(), value.size());
  } else if constexpr (is_optional<T>) {
    return value ? Cbor::array({packed(*value)}) : Cbor(nullptr);
  } else if constexpr (std::is_enum_v<T>) {
    return Cbor(static_cast<int>(value));
  } else if constexpr (std::is_same_v<T, double>) {
    return packed_row(&value, 1);  // a bare number would lose the sign of zero and the kind of not-a-number
  } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
    return Cbor(value);
  } else if constexpr (requires { typename T::mapped_type; }) {
    Cbor row = Cbor::array();
    for (const auto& [key, mapped] : value) row.push_back(Cbor::array({packed(key), packed(mapped)}));
    return row;
  } else {
    Cbor row = Cbor::array();
    for (const auto& one : value) row.push_back(packed(one));
    return row;
  }
}

/// Throws nlohmann's exceptions or std::length_error where the value does not have the shape of T.
template <class T>
void unpack(const Cbor& from, T& value);

template <class Number>
void unpack_row(const Cbor& from, Number* first, std::size_t count) {
  const auto& bytes = from.get_binary();
  if (bytes.size() != count * sizeof(Number)) throw std::length_error("row of another length");
  if (count > 0) std::memcpy(first, bytes.data(), bytes.size());
}

template <class Tuple, std::size_t... i>
void unpack_members(const Cbor& from, Tuple&& members, std::index_sequence<i...>) {
  if (from.size() != sizeof...(i)) throw std::length_error("another number of members");
  (unpack(from.at(i), std::get<i>(members)), ...);
}

template <class T>
void unpack(const Cbor& from, T& value) {
  if constexpr (Listed<T>) {
    auto members = members_of(value);
    unpack_members(from, members, std::make_index_sequence<std::tuple_size_v<decltype(members)>>());
  } else if constexpr (is_floating_row<T>) {
    if constexpr (is_vector<T>) value.resize(from.get_binary().size() / sizeof(value[0]));
    unpack_row(from, value.data(), value.size());
  } else if constexpr (is_optional<T>) {
    value.reset();
    if (!from.is_null()) unpack(from.at(0), value.emplace());
  } else if constexpr (std::is_enum_v<T>) {
    value = static_cast<T>(from.get<int>());
  } else if constexpr (std::is_same_v<T, double>) {
    unpack_row(from, &value, 1);
  } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
    from.get_to(value);
  } else {
    if constexpr (is_vector<T>) value.resize(from.size());
    if (from.size() != value.size()) throw std::length_error("list of another length");
    for (std::size_t i = 0; i < value.size(); ++i) unpack(from.at(i), value[i]);
  }
}

/// The shape of a type in letters. Two programs whose types differ in it cannot read each other's values.
template <class T>
[[nodiscard]] std::string shape_of() {
  if constexpr (Listed<T>) {
    std::string shape = "(";
    T value{};
    std::apply([&](auto&... member) { ((shape += shape_of<std::remove_reference_t<decltype(member)>>()), ...); },
               members_of(value));
    return shape + ')';
  } else if constexpr (is_optional<T> || is_vector<T>) {
    return (is_vector<T> ? '[' : '?') + shape_of<typename T::value_type>() + ']';
  } else if constexpr (std::is_enum_v<T>) {
    return "e";
  } else if constexpr (std::is_floating_point_v<T>) {
    return sizeof(T) == 8 ? "d" : "f";
  } else if constexpr (std::is_arithmetic_v<T>) {
    return "i" + std::to_string(sizeof(T));
  } else if constexpr (std::is_same_v<T, std::string>) {
    return "s";
  } else {
    return std::to_string(std::tuple_size_v<T>) + shape_of<typename T::value_type>();
  }
}

}  // namespace stillheap::forecast
