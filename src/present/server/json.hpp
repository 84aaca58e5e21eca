#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "core/base/error.hpp"
#include "core/quantity/quantity.hpp"
#include "present/server/message.hpp"

/// JSON out and in. Keys end in their unit as everywhere.
namespace stillheap::server {

using Json = nlohmann::ordered_json;

/// An answer with a JSON body. Bytes that are not UTF-8 are replaced.
[[nodiscard]] Response answer(const Json& json, int status = 200);

/// {"problems": [{"where", "what", "mend"}]}; what to do is told in these units, `what` quotes what was sent.
[[nodiscard]] Json problems_json(const std::vector<Problem>& problems, UnitSystem units = UnitSystem::metric);
[[nodiscard]] Response problem(int status, const std::string& where, const std::string& what, const std::string& mend);

/// The body as JSON; throws InputError when it is none, or not sent as application/json.
[[nodiscard]] Json body_json(const Request& ask);

/// Every sentence in an answer as this reader counts (quantity::retold); names, ids and cited sources stay.
void tell_in(UnitSystem units, Json& json);

/// A number, or null when it is not finite.
[[nodiscard]] Json number(double value);

}  // namespace stillheap::server
