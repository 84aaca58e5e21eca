#include "core/optimise/linear_program.hpp"

#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include "core/base/error.hpp"

namespace stillheap::material {
namespace {

struct DeleteProgram {
  void operator()(glp_prob* program) const noexcept { glp_delete_prob(program); }
};
using Program = std::unique_ptr<glp_prob, DeleteProgram>;

/// GLPK's environment of this thread, for the time of a call: silent, and freed again if it was not there before, so
/// that a thread that ends leaves nothing behind.
class Environment {
 public:
  Environment() : made_here_(glp_init_env() == 0), terminal_before_(glp_term_out(GLP_OFF)) {}
  ~Environment() {
    glp_term_out(terminal_before_);
    if (made_here_) glp_free_env();
  }
  Environment(const Environment&) = delete;
  Environment& operator=(const Environment&) = delete;
  Environment(Environment&&) = delete;
  Environment& operator=(Environment&&) = delete;

 private:
  bool made_here_;
  int terminal_before_;
};

int bound_kind(double lower, double upper) {
  if (std::isinf(lower)) return std::isinf(upper) ? GLP_FR : GLP_UP;
  if (std::isinf(upper)) return GLP_LO;
  return lower < upper ? GLP_DB : GLP_FX;
}

void add_columns(glp_prob* program, std::span<const double> objective) {
  glp_add_cols(program, static_cast<int>(objective.size()));
  for (int j = 1; j <= static_cast<int>(objective.size()); ++j) {
    glp_set_col_bnds(program, j, GLP_LO, 0.0, 0.0);
    glp_set_obj_coef(program, j, objective[j - 1]);
  }
}

void add_row(glp_prob* program, const ProgramRow& row) {
  double largest = 0.0;
  for (const double weight : row.weight) largest = std::max(largest, std::abs(weight));
  const double scale = largest > 0.0 ? 1.0 / largest : 1.0;
  std::vector<int> column{0};  // GLPK counts from 1
  std::vector<double> value{0.0};
  for (std::size_t j = 0; j < row.weight.size(); ++j) {
    if (row.weight[j] == 0.0) continue;
    column.push_back(static_cast<int>(j) + 1);
    value.push_back(scale * row.weight[j]);
  }
  const int i = glp_add_rows(program, 1);
  glp_set_row_bnds(program, i, bound_kind(row.lower, row.upper), scale * row.lower, scale * row.upper);
  glp_set_mat_row(program, i, static_cast<int>(column.size()) - 1, column.data(), value.data());
}

/// Floating-point simplex first; should it go round in circles, which ties among limits can bring about, the slower
/// exact one.
int solve(glp_prob* program) {
  glp_smcp settings;
  glp_init_smcp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  settings.it_lim = 1000;  // a dozen columns need a few dozen steps
  glp_scale_prob(program, GLP_SF_AUTO);
  glp_std_basis(program);
  const auto settled = [&](int failed) {
    const int status = glp_get_status(program);
    return failed == 0 && (status == GLP_OPT || status == GLP_NOFEAS || status == GLP_UNBND);
  };
  if (settled(glp_simplex(program, &settings))) return glp_get_status(program);
  glp_std_basis(program);
  settings.it_lim = 100000;
  return settled(glp_exact(program, &settings)) ? glp_get_status(program) : GLP_UNDEF;
}

}  // namespace

std::optional<std::vector<double>> minimise(std::span<const ProgramRow> rows, std::span<const double> objective) {
  const Environment environment;  // outlives the program below
  const Program program(glp_create_prob());
  glp_set_obj_dir(program.get(), GLP_MIN);
  add_columns(program.get(), objective);
  for (const ProgramRow& row : rows) add_row(program.get(), row);
  const int status = solve(program.get());
  if (status == GLP_NOFEAS) return std::nullopt;
  if (status != GLP_OPT) {
    throw RunError("blend finder",
                   "the linear programme ended without an answer (status " + std::to_string(status) + ")",
                   "check feedstock values and limits for extremes");
  }
  std::vector<double> columns(objective.size());
  for (std::size_t j = 0; j < columns.size(); ++j) {
    columns[j] = std::max(0.0, glp_get_col_prim(program.get(), static_cast<int>(j) + 1));
  }
  return columns;
}

}  // namespace stillheap::material
