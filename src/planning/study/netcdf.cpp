#include <netcdf.h>
// After netcdf.h, which it needs.
#include <netcdf_mem.h>

#include <cstdlib>
#include <filesystem>
#include <limits>
#include <memory>
#include <string>

#include "core/base/error.hpp"
#include "planning/study/columns.hpp"

namespace stillheap::study {
namespace {

namespace fs = std::filesystem;

/// A NetCDF file being made in memory: on a full disk HDF5 could not let go of a file of its own, and crashed at the
/// program's end. Let go of whatever happens.
class Output {
 public:
  explicit Output(fs::path named) : named_(std::move(named)) {
    check(nc_create_mem(named_.filename().c_str(), NC_NETCDF4, 0, &id_));
    open_ = true;
  }
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;
  ~Output() {
    if (open_) (void)nc_abort(id_);
  }

  /// All its bytes.
  std::string close() {
    open_ = false;
    NC_memio made{};
    check(nc_close_memio(id_, &made));
    const std::unique_ptr<void, void (*)(void*)> memory(made.memory, &std::free);
    return {static_cast<const char*>(made.memory), made.size};
  }

  void check(int status) const {
    if (status == NC_NOERR) return;
    throw RunError(named_.string(), std::string("the results cannot be made: ") + nc_strerror(status),
                   "see that there is memory enough");
  }

  [[nodiscard]] int id() const noexcept { return id_; }

 private:
  fs::path named_;
  int id_ = 0;
  bool open_ = false;
};

void add_text(const Output& out, int variable, const char* name, const std::string& text) {
  out.check(nc_put_att_text(out.id(), variable, name, text.size(), text.c_str()));
}

int define(const Output& out, const Column& column, int dimension) {
  int variable = 0;
  const nc_type type = column.is_text ? NC_STRING : NC_DOUBLE;
  out.check(nc_def_var(out.id(), column.name.c_str(), type, 1, &dimension, &variable));
  add_text(out, variable, "long_name", column.help);
  if (column.is_text) return variable;
  add_text(out, variable, "units", column.unit);
  const double unknown = std::numeric_limits<double>::quiet_NaN();
  out.check(nc_def_var_fill(out.id(), variable, NC_FILL, &unknown));
  return variable;
}

void fill(const Output& out, const Column& column, int variable) {
  if (!column.is_text) {
    out.check(nc_put_var_double(out.id(), variable, column.numbers.data()));
    return;
  }
  std::vector<const char*> words;
  for (const std::string& word : column.words) words.push_back(word.c_str());
  out.check(nc_put_var_string(out.id(), variable, words.data()));
}

std::string bytes_of(const std::vector<Column>& columns, const std::string& title, const fs::path& file) {
  Output out(file);
  add_text(out, NC_GLOBAL, "title", title);
  add_text(out, NC_GLOBAL, "source", "stillheap sweep: forecasts, not measurements");
  int dimension = 0;
  out.check(nc_def_dim(out.id(), "run", columns.front().numbers.size(), &dimension));
  std::vector<int> variables;
  variables.reserve(columns.size());
  for (const Column& column : columns) variables.push_back(define(out, column, dimension));
  out.check(nc_enddef(out.id()));
  for (std::size_t c = 0; c < columns.size(); ++c) fill(out, columns[c], variables[c]);
  return out.close();
}

}  // namespace

void write_netcdf(const std::vector<Column>& columns, const std::string& title, const fs::path& file) {
  put_in_place(file, bytes_of(columns, title, file));
}

}  // namespace stillheap::study
