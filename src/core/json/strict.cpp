#include "core/json/strict.hpp"

#include <nlohmann/json.hpp>
#include <unordered_set>
#include <vector>

#include "core/base/error.hpp"

namespace stillheap::strict_json {
namespace {

using Json = nlohmann::json;

/// Counts what a parser meets; a false answer ends it.
class Counter {
 public:
  explicit Counter(const Limits& limits) : limits_(limits) {}

  bool null() { return one(); }
  bool boolean(bool) { return one(); }
  bool number_integer(Json::number_integer_t) { return one(); }
  bool number_unsigned(Json::number_unsigned_t) { return one(); }
  bool number_float(Json::number_float_t, const std::string&) { return one(); }
  bool string(std::string&) { return one(); }
  bool binary(Json::binary_t&) { return one(); }
  bool start_object(std::size_t) { return open(); }
  bool start_array(std::size_t) { return open(); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool key(std::string& name) {
    if (!keys_.back().insert(name).second) return stop("has the key \"" + name.substr(0, 40) + "\" twice");
    return one();
  }
  bool parse_error(std::size_t at, const std::string&, const nlohmann::detail::exception&) {
    return stop("is not as it should be from byte " + std::to_string(at) + " on");
  }
  [[nodiscard]] const std::string& wrong() const noexcept { return wrong_; }

 private:
  bool one() {
    if (++values_ <= limits_.most_values) return true;
    return stop("holds more than " + std::to_string(limits_.most_values) + " values");
  }
  bool open() {
    keys_.emplace_back();
    if (keys_.size() <= limits_.most_depth) return one();
    return stop("is nested more than " + std::to_string(limits_.most_depth) + " deep");
  }
  bool close() {
    keys_.pop_back();
    return true;
  }
  bool stop(std::string why) {
    if (wrong_.empty()) wrong_ = std::move(why);
    return false;
  }

  Limits limits_;
  std::size_t values_ = 0;
  std::vector<std::unordered_set<std::string>> keys_;  ///< of each object that is open
  std::string wrong_;
};

}  // namespace

std::string what_is_wrong(std::string_view text, const Limits& limits) {
  Counter counter(limits);
  const bool good = Json::sax_parse(text, &counter);
  return good ? std::string{} : counter.wrong().empty() ? "is no JSON" : counter.wrong();
}

std::string what_is_wrong_with_cbor(std::string_view bytes, const Limits& limits) {
  Counter counter(limits);
  const char* const begin = bytes.data();
  auto input = nlohmann::detail::input_adapter(begin, begin + bytes.size());
  nlohmann::detail::binary_reader<Json, decltype(input), Counter> reader(std::move(input));
  const bool good = reader.sax_parse(Json::input_format_t::cbor, &counter, true, Json::cbor_tag_handler_t::ignore);
  return good ? std::string{} : counter.wrong().empty() ? "is no CBOR" : counter.wrong();
}

void check(std::string_view text, const std::string& where, const std::string& mend, const Limits& limits) {
  const std::string wrong = what_is_wrong(text, limits);
  if (!wrong.empty()) throw InputError(where, wrong, mend);
}

}  // namespace stillheap::strict_json
