#pragma once
#include <cstddef>
#include <string>
#include <string_view>

/// What every JSON text has to pass before a tree is made of it: trees are copied, written and compared by recursion,
/// and a text of a few bytes can ask for a tree of gigabytes.
namespace stillheap::strict_json {

/// All chosen.
struct Limits {
  std::size_t most_depth = 32;       ///< lists and objects inside each other
  std::size_t most_values = 100000;  ///< and keys, all together
};

/// What is wrong with a text, or empty: no JSON, nested too deep, too many values, or a key twice in one object (which
/// of the two counts is anybody's guess).
[[nodiscard]] std::string what_is_wrong(std::string_view text, const Limits& limits = {});

/// The same for CBOR (RFC 8949) with every kind of tag allowed.
[[nodiscard]] std::string what_is_wrong_with_cbor(std::string_view bytes, const Limits& limits);

/// Throws InputError(where, what, mend) when something is.
void check(std::string_view text, const std::string& where, const std::string& mend, const Limits& limits = {});

}  // namespace stillheap::strict_json
