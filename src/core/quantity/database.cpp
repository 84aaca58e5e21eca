#include "core/quantity/database.hpp"

#include <udunits2.h>

#include <memory>
#include <mutex>

#include "core/base/error.hpp"

namespace stillheap::quantity {
namespace {

struct FreeSystem {
  void operator()(ut_system* system) const noexcept { ut_free_system(system); }
};
struct FreeUnit {
  void operator()(ut_unit* unit) const noexcept { ut_free(unit); }
};
struct FreeConverter {
  void operator()(cv_converter* converter) const noexcept { cv_free(converter); }
};
using System = std::unique_ptr<ut_system, FreeSystem>;
using UnitPointer = std::unique_ptr<ut_unit, FreeUnit>;
using Converter = std::unique_ptr<cv_converter, FreeConverter>;

/// UDUNITS-2 keeps its status and its parser in statics, so every call stands behind one lock.
class Database {
 public:
  Database() {
    ut_set_error_message_handler(ut_ignore);  // its own messages would land between ours
    system_.reset(ut_read_xml(nullptr));
    if (system_ == nullptr) {
      throw RunError("units", "the unit database of UDUNITS-2 cannot be read",
                     "install the package libudunits2-data, or let UDUNITS2_XML_PATH name its udunits2.xml");
    }
  }

  std::optional<Conversion> convert(const std::string& unit, const std::string& si) {
    const std::lock_guard lock(mutex_);
    const UnitPointer from = parse(unit);
    const UnitPointer to = parse(si);
    if (from == nullptr || to == nullptr) return std::nullopt;
    const Converter converter(ut_get_converter(from.get(), to.get()));
    if (converter == nullptr) return std::nullopt;
    const double offset = cv_convert_double(converter.get(), 0.0);
    return Conversion{cv_convert_double(converter.get(), 1.0) - offset, offset};
  }

  bool knows(const std::string& unit) {
    const std::lock_guard lock(mutex_);
    return parse(unit) != nullptr;
  }

 private:
  UnitPointer parse(const std::string& unit) { return UnitPointer(ut_parse(system_.get(), unit.c_str(), UT_UTF8)); }

  std::mutex mutex_;
  System system_;
};

Database& database() {
  static Database the_database;  // reading the XML takes milliseconds: once is enough
  return the_database;
}

}  // namespace

std::optional<Conversion> ask_database(const std::string& unit, const std::string& si) {
  return database().convert(unit, si);
}

bool database_knows(const std::string& unit) { return database().knows(unit); }

}  // namespace stillheap::quantity
