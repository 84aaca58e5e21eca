#include "planning/study/case_result.hpp"

#include <cmath>
#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "core/json/strict.hpp"

namespace stillheap::study {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array states{State::done, State::impossible, State::failed};

Json json_of(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

double number_from(const Json& json) {
  return json.is_null() ? std::numeric_limits<double>::quiet_NaN() : json.get<double>();
}

Json json_of(const KindNumbers& kind) {
  Json numbers = Json::object();
  for (std::size_t i = 0; i < measures().size(); ++i) {
    const forecast::Banded& one = kind.numbers[i];
    numbers[std::string(measures()[i].name)] = {json_of(one.middle), json_of(one.low), json_of(one.high)};
  }
  return {{"vessel", kind.vessel}, {"numbers", numbers}};
}

KindNumbers kind_from(const Json& json) {
  KindNumbers kind{json.at("vessel").get<std::string>(), {}};
  for (const Measure& measure : measures()) {
    const Json& one = json.at("numbers").at(std::string(measure.name));
    kind.numbers.push_back({number_from(one.at(0)), number_from(one.at(1)), number_from(one.at(2))});
  }
  return kind;
}

State state_from(const std::string& name) {
  for (const State state : states) {
    if (name == name_of(state)) return state;
  }
  throw std::out_of_range("no state " + name);
}

CaseResult result_from(const Json& json) {
  CaseResult result;
  result.number = json.at("case").get<int>();
  result.state = state_from(json.at("state").get<std::string>());
  result.reason = json.at("reason").get<std::string>();
  for (const Json& kind : json.at("kinds")) result.kinds.push_back(kind_from(kind));
  result.by = json.at("by").get<std::string>();
  result.cpu_s = json.at("cpu_s").get<double>();
  result.peak_memory_kb = json.at("peak_memory_kb").get<double>();
  return result;
}

}  // namespace

const char* name_of(State state) noexcept {
  switch (state) {
    case State::done:
      return "done";
    case State::impossible:
      return "impossible";
    case State::failed:
      return "failed";
  }
  return "";
}

std::string to_text(const CaseResult& result) {
  Json json{{"case", result.number}, {"state", name_of(result.state)}, {"reason", result.reason}};
  json["kinds"] = Json::array();
  for (const KindNumbers& kind : result.kinds) json["kinds"].push_back(json_of(kind));
  json["by"] = result.by;
  json["cpu_s"] = result.cpu_s;
  json["peak_memory_kb"] = result.peak_memory_kb;
  return json.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
}

CaseResult read_case_result(const std::filesystem::path& file) {
  try {
    const std::string text = read_whole_file(file);
    strict_json::check(text, file.string(), "take the file away and run the study again");
    return result_from(Json::parse(text));
  } catch (const std::exception& error) {
    throw RunError(file.string(), std::string("is no whole result of a case: ") + error.what(),
                   "take the file away and run the study again");
  }
}

}  // namespace stillheap::study
