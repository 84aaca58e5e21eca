#include "core/optimise/integer_program.hpp"

#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include "core/base/error.hpp"

namespace stillheap::cut {
namespace {

struct DeleteProgram {
  void operator()(glp_prob* program) const noexcept { glp_delete_prob(program); }
};
using Program = std::unique_ptr<glp_prob, DeleteProgram>;

/// GLPK keeps its memory per thread: made for the time of a call, silent, and freed if it was not there before.
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

void load(glp_prob* to, const IntegerProgram& from) {
  glp_set_obj_dir(to, GLP_MIN);
  glp_add_cols(to, static_cast<int>(from.cost.size()));
  for (std::size_t j = 0; j < from.cost.size(); ++j) {
    const int column = static_cast<int>(j) + 1;  // GLPK counts from 1
    glp_set_col_bnds(to, column, GLP_LO, 0.0, 0.0);
    glp_set_col_kind(to, column, from.divisible.empty() || !from.divisible[j] ? GLP_IV : GLP_CV);
    glp_set_obj_coef(to, column, from.cost[j]);
  }
  for (const Row& row : from.rows) {
    std::vector<int> column{0};
    std::vector<double> weight{0.0};
    for (const Entry& entry : row.entries) {
      column.push_back(entry.column + 1);
      weight.push_back(entry.weight);
    }
    const int i = glp_add_rows(to, 1);
    glp_set_row_bnds(to, i, bound_kind(row.lower, row.upper), row.lower, row.upper);
    glp_set_mat_row(to, i, static_cast<int>(column.size()) - 1, column.data(), weight.data());
  }
}

/// Optimal, or without an answer; anything else is a failure of the solver.
bool simplex(glp_prob* program) {
  glp_smcp settings;
  glp_init_smcp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  const int failed = glp_simplex(program, &settings);
  const int status = glp_get_status(program);
  if (failed == 0 && status == GLP_OPT) return true;
  if (failed == 0 && status == GLP_NOFEAS) return false;
  throw RunError("cutting", "the linear programme ended without an answer (status " + std::to_string(status) + ")",
                 "check sizes of stock and pieces for extremes");
}

struct Watch {
  int nodes_left = 0;
  double bound = 0.0;  ///< of the best open node when the search was stopped
  bool stopped = false;
};

void watch(glp_tree* tree, void* info) {
  auto& state = *static_cast<Watch*>(info);
  if (glp_ios_reason(tree) != GLP_ISELECT || --state.nodes_left >= 0 || state.stopped) return;
  state.stopped = true;
  const int best = glp_ios_best_node(tree);
  if (best != 0) state.bound = std::max(state.bound, glp_ios_node_bound(tree, best));
  glp_ios_terminate(tree);
}

}  // namespace

std::optional<Relaxed> relax(const IntegerProgram& program) {
  if (program.cost.empty()) return std::nullopt;  // GLPK has no programmes without columns
  const Environment environment;                  // outlives the program below
  const Program loaded(glp_create_prob());
  load(loaded.get(), program);
  if (!simplex(loaded.get())) return std::nullopt;
  Relaxed answer;
  answer.cost = glp_get_obj_val(loaded.get());
  for (int i = 1; i <= static_cast<int>(program.rows.size()); ++i) {
    answer.row_price.push_back(glp_get_row_dual(loaded.get(), i));
  }
  return answer;
}

std::optional<IntegerAnswer> solve(const IntegerProgram& program) {
  if (program.cost.empty()) return std::nullopt;
  const Environment environment;
  const Program loaded(glp_create_prob());
  load(loaded.get(), program);
  if (!simplex(loaded.get())) return std::nullopt;
  Watch state{program.most_nodes, glp_get_obj_val(loaded.get()), false};
  glp_iocp settings;
  glp_init_iocp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  settings.cb_func = &watch;
  settings.cb_info = &state;
  settings.gmi_cuts = GLP_ON;
  const int failed = glp_intopt(loaded.get(), &settings);
  const int status = glp_mip_status(loaded.get());
  if (status == GLP_NOFEAS) return std::nullopt;
  if ((failed != 0 && failed != GLP_ESTOP) || (status != GLP_OPT && status != GLP_FEAS)) {
    throw RunError("cutting", "the integer programme ended without an answer (status " + std::to_string(status) + ")",
                   "name fewer kinds of stock, or cut the vessels in several lots");
  }
  IntegerAnswer answer;
  answer.cost = glp_mip_obj_val(loaded.get());
  answer.bound = status == GLP_OPT ? answer.cost : std::min(state.bound, answer.cost);
  for (int j = 1; j <= static_cast<int>(program.cost.size()); ++j) {
    answer.values.push_back(glp_mip_col_val(loaded.get(), j));
    answer.columns.push_back(static_cast<int>(std::lround(answer.values.back())));
  }
  return answer;
}

}  // namespace stillheap::cut
