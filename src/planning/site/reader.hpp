#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "planning/site/document.hpp"

/// Taking values out of a document. A value that was refused reads as NaN (or a harmless word), so that checks
/// between keys stay silent about it; the report already names it.
namespace stillheap::site {

struct Reader {
  Report report;
  Assumptions defaults;                   ///< of the values asked for that the file left out
  UnitSystem units = UnitSystem::metric;  ///< for messages
};

[[nodiscard]] const Value& value(const Section& section, std::string_view name);
[[nodiscard]] const Section& part(const Block& block, std::string_view schema);
[[nodiscard]] const Block& only_block(const Document& document, std::string_view schema);

/// Whether the file has the key, good or not.
[[nodiscard]] bool given(const Section& section, std::string_view name);

[[nodiscard]] double amount(Reader& reader, const Section& section, std::string_view name);
[[nodiscard]] std::optional<double> maybe_amount(const Section& section, std::string_view name);
[[nodiscard]] int whole(Reader& reader, const Section& section, std::string_view name);
[[nodiscard]] bool flag(Reader& reader, const Section& section, std::string_view name);
[[nodiscard]] std::string word(Reader& reader, const Section& section, std::string_view name);
[[nodiscard]] const std::vector<double>& numbers(Reader& reader, const Section& section, std::string_view name);

/// Lists a value that was worked out because the file left its key out.
void note_default(Reader& reader, const Section& section, std::string_view name, const std::string& text);

/// Reports a given value: `what` follows "= value", for example "puts channel 2 on the wall".
void refuse(Reader& reader, const Section& section, std::string_view name, const std::string& what,
            const std::string& mend);

/// Reports a key that is not there but needed beside others.
void miss(Reader& reader, const Section& section, std::string_view name, const std::string& why);

/// Exactly one of the two keys must be given; tells what is wrong otherwise.
[[nodiscard]] bool exactly_one(Reader& reader, const Section& section, std::string_view one, std::string_view other);

/// An amount in the user's units, for messages.
[[nodiscard]] std::string shown(const Reader& reader, double si, Dimension dimension);

}  // namespace stillheap::site
