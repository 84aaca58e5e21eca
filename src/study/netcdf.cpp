#include <netcdf.h>

#include <filesystem>
#include <limits>

#include "base/error.hpp"
#include "study/columns.hpp"

namespace stillheap::study {
namespace {

namespace fs = std::filesystem;

/// A NetCDF file being written; closed whatever happens.
class Output {
 public:
  Output(const fs::path& aside, fs::path named) : named_(std::move(named)) {
    check(nc_create(aside.c_str(), NC_NETCDF4 | NC_CLOBBER, &id_));
    open_ = true;
  }
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;
  ~Output() {
    if (open_) (void)nc_close(id_);
  }

  void close() {
    open_ = false;
    check(nc_close(id_));
  }

  void check(int status) const {
    if (status == NC_NOERR) return;
    throw RunError(named_.string(), std::string("the results cannot be written: ") + nc_strerror(status),
                   "see that the folder is there, may be written to and has room");
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

void write(const std::vector<Column>& columns, const std::string& title, const fs::path& aside, const fs::path& file) {
  Output out(aside, file);
  add_text(out, NC_GLOBAL, "title", title);
  add_text(out, NC_GLOBAL, "source", "stillheap sweep: forecasts, not measurements");
  int dimension = 0;
  out.check(nc_def_dim(out.id(), "run", columns.front().numbers.size(), &dimension));
  std::vector<int> variables;
  for (const Column& column : columns) variables.push_back(define(out, column, dimension));
  out.check(nc_enddef(out.id()));
  for (std::size_t c = 0; c < columns.size(); ++c) fill(out, columns[c], variables[c]);
  out.close();
}

}  // namespace

void write_netcdf(const std::vector<Column>& columns, const std::string& title, const fs::path& file) {
  const fs::path aside = aside_of(file);
  try {
    write(columns, title, aside, file);
  } catch (const RunError&) {
    std::error_code ignored;
    fs::remove(aside, ignored);
    throw;
  }
  move_in_place(aside, file);
}

}  // namespace stillheap::study
