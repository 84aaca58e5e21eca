#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>

#include "core/quantity/quantity.hpp"
#include "domain/limits/limits.hpp"

/// The keys of a site file: one row a key. The reader, its messages and docs/site-file.md all come from here.
namespace stillheap::site {

/// How a value is written.
enum class Form {
  amount,         ///< text with a unit: "1.2 m"
  amount_pair,    ///< two of them, low and high: ["60 %", "70 %"]
  months,         ///< twelve of them, or { unit = "degC", months = [12 numbers] }
  three_amounts,  ///< three of them, one a pool
  positions,      ///< list of places: [["0.2 m", "-0.1 m"], ...]
  shares,         ///< table of feedstock id = share
  number,         ///< 2.5
  number_pair,    ///< [25, 40]
  number_list,    ///< [1, 7, 30], rising
  whole,          ///< 7
  whole_pair,     ///< [4, 2]
  flag,           ///< true or false
  word,           ///< one of a few words
  text,           ///< any text
  date,           ///< 2026-03-14
  file            ///< path, from the site file's folder
};

/// One end of what is allowed, written as in a site file. Empty: no end.
struct Bound {
  std::string_view text;
  bool inclusive = true;
};
constexpr Bound from(std::string_view text) noexcept { return {text, true}; }
constexpr Bound above(std::string_view text) noexcept { return {text, false}; }
constexpr Bound to(std::string_view text) noexcept { return {text, true}; }
constexpr Bound below(std::string_view text) noexcept { return {text, false}; }
/// The ends of a limit that others read too.
constexpr Bound low_of(const limits::Limit& limit) noexcept { return {limit.least, limit.least_itself}; }
constexpr Bound high_of(const limits::Limit& limit) noexcept { return {limit.most, true}; }

enum class Need {
  required,
  optional,     ///< left out: nothing
  has_default,  ///< left out: `standard` is used and listed
  worked_out    ///< left out: worked out from other keys as `standard` says, and listed
};

struct Key {
  std::string_view section;  ///< "vessel.channels"
  std::string_view name;     ///< "radius"
  Form form = Form::text;
  Dimension dimension{};
  bool by_volume_too = false;  ///< masses (and prices by mass) may be given by volume instead
  Bound low{};
  Bound high{};
  std::string_view choices{};  ///< words, parted by |
  Need need = Need::optional;
  std::string_view standard{};  ///< default, written as in a site file (texts and amounts without quotes)
  std::string_view source{};    ///< where the default comes from
  std::string_view help{};
};

struct SectionKey {
  std::string_view path;
  bool repeated = false;  ///< [[feedstock]]
  bool required = false;
  std::string_view help{};
};

[[nodiscard]] std::span<const SectionKey> sections() noexcept;
[[nodiscard]] const SectionKey* find_section(std::string_view path) noexcept;

[[nodiscard]] std::span<const Key> yard_keys() noexcept;      ///< site, place, weather, goal, money, forecast
[[nodiscard]] std::span<const Key> heap_keys() noexcept;      ///< feedstocks, blend, bath, fill
[[nodiscard]] std::span<const Key> vessel_keys() noexcept;    ///< vessels and their water
[[nodiscard]] std::span<const Key> workshop_keys() noexcept;  ///< loads, stock to cut from
/// All of them, in the order above.
[[nodiscard]] std::array<std::span<const Key>, 4> all_keys() noexcept;

/// The row of a key, or null.
[[nodiscard]] const Key* find_key(std::string_view section, std::string_view name) noexcept;

/// "above 0 m and at most 6 m", "round or rectangular"; empty when the form says it all.
[[nodiscard]] std::string allowed_text(const Key& key);

/// How the value is written, for messages and docs: "a length such as \"1.2 m\"".
[[nodiscard]] std::string form_text(const Key& key);

}  // namespace stillheap::site
