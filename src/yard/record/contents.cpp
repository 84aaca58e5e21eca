#include "yard/record/contents.hpp"

#include <charconv>

#include "yard/record/fields.hpp"

namespace stillheap::record {
namespace {

/// The shortest text that reads back as the same number.
std::string exact(double value) {
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value);
  return {text, end.ptr};
}

class Texts {
 public:
  explicit Texts(Contents& to) : to_(to) {}
  void text(const char* column, const std::string& value) { to_.emplace_back(column, value); }
  void instant(const char* column, Instant value) { to_.emplace_back(column, to_utc_text(value)); }
  void number(const char* column, double value) { to_.emplace_back(column, exact(value)); }
  void maybe(const char* column, const std::optional<double>& value) {
    to_.emplace_back(column, value ? exact(*value) : std::string{});
  }
  void count(const char* column, long long value) { to_.emplace_back(column, std::to_string(value)); }
  void measure(const char* column, Measure value) { to_.emplace_back(column, info(value).key); }
  void event(const char* column, EventKind value) { to_.emplace_back(column, info(value).key); }
  void refer(const char* column, const std::string& id, const char*, bool) { to_.emplace_back(column, id); }
  void named(const char* column, const std::string& name, const char*) { to_.emplace_back(column, name); }

 private:
  Contents& to_;
};

}  // namespace

template <class Entry>
Contents contents(const Entry& entry) {
  Contents found;
  visit(entry, Texts(found));
  return found;
}

template Contents contents<Person>(const Person&);
template Contents contents<Vessel>(const Vessel&);
template Contents contents<Lot>(const Lot&);
template Contents contents<Fill>(const Fill&);
template Contents contents<LotUse>(const LotUse&);
template Contents contents<Reading>(const Reading&);
template Contents contents<Event>(const Event&);
template Contents contents<LabTest>(const LabTest&);
template Contents contents<Spreading>(const Spreading&);
template Contents contents<Photo>(const Photo&);
template Contents contents<CsvSource>(const CsvSource&);
template Contents contents<DueDay>(const DueDay&);

}  // namespace stillheap::record
