#include "core/base/error.hpp"

#include <utility>

namespace stillheap {
namespace {

std::string join(const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    if (!text.empty()) text += '\n';
    text += to_line(problem);
  }
  return text;
}

}  // namespace

std::string to_line(const Problem& problem) {
  std::string line = problem.where;
  // A key and what is said of it read as one sentence: `yard.toml:14: vessel.north.height = "9 m" is too large`.
  const bool runs_on = problem.what.starts_with("= ") || problem.what.starts_with("is ");
  if (!line.empty()) line += runs_on ? " " : ": ";
  line += problem.what;
  if (!problem.mend.empty()) line += "; " + problem.mend;
  return line;
}

Error::Error(std::vector<Problem> problems) : std::runtime_error(join(problems)), problems_(std::move(problems)) {}

InputError::InputError(std::string where, std::string what, std::string mend)
    : Error({Problem{std::move(where), std::move(what), std::move(mend)}}) {}

RunError::RunError(std::string where, std::string what, std::string mend)
    : Error({Problem{std::move(where), std::move(what), std::move(mend)}}) {}

}  // namespace stillheap
