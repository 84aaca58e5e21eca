#include "present/server/json.hpp"

#include <cmath>

#include "core/json/strict.hpp"
#include "core/quantity/retold.hpp"

namespace stillheap::server {

Response answer(const Json& json, int status) {
  Response made;
  made.status = status;
  made.body = json.dump(-1, ' ', false, Json::error_handler_t::replace);
  return made;
}

Json problems_json(const std::vector<Problem>& problems, UnitSystem units) {
  Json list = Json::array();
  for (const Problem& one : problems) {
    list.push_back(Json{{"where", one.where}, {"what", one.what}, {"mend", quantity::retold(one.mend, units)}});
  }
  return Json{{"problems", list}};
}

Response problem(int status, const std::string& where, const std::string& what, const std::string& mend) {
  return answer(problems_json({{where, what, mend}}), status);
}

Json body_json(const Request& ask) {
  const auto type = ask.header.find("content-type");
  if (type == ask.header.end() || !type->second.starts_with("application/json")) {
    throw InputError("request", "is not sent as JSON", "send Content-Type: application/json");
  }
  strict_json::check(ask.body, "request", "send a JSON object as docs/openapi.json says");
  return Json::parse(ask.body);
}

void tell_in(UnitSystem units, Json& json) {
  if (units == UnitSystem::metric) return;
  if (json.is_string()) {
    json = quantity::retold(json.get_ref<const std::string&>(), units);
    return;
  }
  if (!json.is_structured()) return;
  for (auto& item : json.items()) {
    const std::string& key = item.key();
    if (key != "name" && key != "id" && key != "where" && key != "source") tell_in(units, item.value());
  }
}

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

}  // namespace stillheap::server
