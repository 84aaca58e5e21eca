#pragma once
#include <stdexcept>
#include <string>
#include <vector>

namespace stillheap {

/// One thing that is wrong, in the words the user needs to mend it.
struct Problem {
  std::string where;  ///< file, line and key, for example "yard.toml:14: vessel.north.height"
  std::string what;   ///< what was found, with the value
  std::string mend;   ///< what is allowed, or what to do instead
};

/// Writes a problem as one line: `where: what; mend`. Without the colon when `what` starts with "= " or "is ",
/// so that a key and its value read as in the file.
[[nodiscard]] std::string to_line(const Problem& problem);

/// The one exception family that leaves the library. Carries every problem found, not only the first.
class Error : public std::runtime_error {
 public:
  explicit Error(std::vector<Problem> problems);
  [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return problems_; }

 private:
  std::vector<Problem> problems_;
};

/// The user's input is wrong; programs end with exit code 2 and write nothing.
class InputError : public Error {
 public:
  using Error::Error;
  InputError(std::string where, std::string what, std::string mend);
};

/// The run itself failed (a file could not be written, a balance did not close); exit code 1.
class RunError : public Error {
 public:
  using Error::Error;
  RunError(std::string where, std::string what, std::string mend);
};

}  // namespace stillheap
