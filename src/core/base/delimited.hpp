#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/error.hpp"

/// Reading of delimited text: the pieces that every reader of CSV files shares.
namespace stillheap {

/// The text without blanks, tabs and carriage returns at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// Fields of one record after RFC 4180: quoted fields may hold the delimiter and doubled quotes. Quotes that never
/// close, and text after a closing quote, give nullopt. Blanks around unquoted fields are dropped.
[[nodiscard]] std::optional<std::vector<std::string>> split_record(std::string_view line, char delimiter);

/// The delimiter a header line uses outside quotes: the most frequent of comma, semicolon and tab (comma for none).
[[nodiscard]] char delimiter_of(std::string_view header);

/// A whole text as a decimal number (a leading + is allowed); nullopt for anything else, "nan" and "inf" included.
[[nodiscard]] std::optional<double> number_of(std::string_view text);

/// Lines of a text file without their ends (LF or CRLF), a byte-order mark dropped.
/// Throws InputError when the file cannot be read.
[[nodiscard]] std::vector<std::string> lines_of(const std::filesystem::path& file);

/// Problems of one file, at most `most` of them kept so that a wrong file does not fill the screen.
class FileProblems {
 public:
  explicit FileProblems(std::string file) : file_(std::move(file)) {}
  /// `line` from 1, 0 for the whole file; `field` may be empty.
  void add(std::size_t line, std::string_view field, std::string what, std::string mend);
  [[nodiscard]] bool any() const noexcept { return count_ > 0; }
  /// Throws InputError with all of them if there are any.
  void throw_if_any() const;

 private:
  static constexpr std::size_t most = 20;
  std::string file_;
  std::vector<Problem> kept_;
  std::size_t count_ = 0;
};

}  // namespace stillheap
