#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

/// Reading of delimited text: small pieces shared by the EPW and CSV readers.
namespace stillheap::weather {

/// Fields of one record after RFC 4180: quoted fields may hold the delimiter and doubled quotes. Quotes that never
/// close, and text after a closing quote, give nullopt. Blanks around unquoted fields are dropped.
[[nodiscard]] std::optional<std::vector<std::string>> split_record(std::string_view line, char delimiter);

/// The delimiter a header line uses outside quotes: the most frequent of comma, semicolon and tab (comma for none).
[[nodiscard]] char delimiter_of(std::string_view header);

/// A whole text as a decimal number (a leading + is allowed); nullopt for anything else, "nan" and "inf" included.
[[nodiscard]] std::optional<double> number_of(std::string_view text);

/// A moment of a year without zone.
struct Moment {
  int year = 0, month = 0, day = 0, hour = 0;  ///< month and day from 1
  bool operator==(const Moment&) const = default;
};

/// ISO 8601: 2023-07-05, 2023-07-05T14:00, 2023-07-05 14:00:00. nullopt when it is not one, has a zone, is not on the
/// hour, or names a day that does not exist. Hour 24 is refused: write 00 of the next day.
[[nodiscard]] std::optional<Moment> moment_of(std::string_view text);

/// Hours since 1 January 1970 00:00 in the proleptic Gregorian calendar.
[[nodiscard]] long hours_since_epoch(const Moment& moment);
[[nodiscard]] Moment moment_at(long hours_since_epoch);
/// "2023-07-05 14:00"
[[nodiscard]] std::string to_text(const Moment& moment);
/// Hour 0..8759 of a year without leap day; nullopt on 29 February.
[[nodiscard]] std::optional<int> hour_of_year(const Moment& moment);

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

/// A run of missing values, both ends counted, in steps.
struct Gap {
  std::size_t first = 0, last = 0;
  [[nodiscard]] std::size_t length() const noexcept { return last - first + 1; }
};

/// Runs of NaN; one over the end of the year counts as two.
[[nodiscard]] std::vector<Gap> gaps_of(const std::vector<double>& values);

/// Replaces NaN by straight lines between its neighbours, round the year's end. Does nothing if all are NaN.
void bridge(std::vector<double>& values);

}  // namespace stillheap::weather
