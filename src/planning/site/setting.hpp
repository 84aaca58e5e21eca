#pragma once
#include <string>
#include <string_view>

#include "planning/site/key.hpp"

/// Values put in place of a site file's own before it is read: what a study varies.
namespace stillheap::site {

struct Setting {
  std::string key;    ///< "vessel.diameter"; of one block only: "vessel.north.diameter"; a share: "blend.shares.straw"
  std::string value;  ///< written as in a site file: "\"1.2 m\"", "7", "[2, 3]"
  std::string where;  ///< where it stands, for messages: "study.toml:7"
};

/// What a written key names.
struct NamedKey {
  const Key* key = nullptr;  ///< null: nothing has that name
  std::string block;         ///< the one block meant, "north"; empty: every block of its kind
  std::string share;         ///< of a table of shares, the one meant
};

/// Finds the row of a key as written in a Setting. A name of a key wins over a block of the same name.
[[nodiscard]] NamedKey find_named_key(std::string_view written);

/// The names of keys closest to a mistyped one, as a sentence for the mend.
[[nodiscard]] std::string key_hint(std::string_view written);

}  // namespace stillheap::site
