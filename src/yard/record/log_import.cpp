#include "yard/record/log_import.hpp"

#include <algorithm>
#include <cctype>
#include <chrono>
#include <map>

#include "core/base/date.hpp"
#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "core/base/printable.hpp"
#include "yard/record/check.hpp"
#include "yard/record/fill_span.hpp"
#include "yard/record/log_sheet.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"

namespace stillheap::record {
namespace {

constexpr std::size_t most_shown_byte = 200;  // chosen: of a cell that is refused
constexpr long longest_log_day = 3660;        // chosen: no heap is logged for ten years
constexpr const char* squeeze_note = "squeezed handful: ";

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](unsigned char x, unsigned char y) { return std::tolower(x) == std::tolower(y); });
}

std::string fit_to_show(const std::string& text) { return printable(text, most_shown_byte); }

/// Where a column stands, and the unit in its head.
struct Found {
  std::size_t at = 0;
  std::string head, unit;
};

struct Layout {
  char delimiter = ',';
  std::array<Found, log_columns.size()> columns;
};

/// "Core (degC)" is the column Core in degC.
bool is_head_of(const LogColumnInfo& column, const std::string& head, std::string& unit) {
  const std::size_t open = head.find('(');
  if (!same_word(trimmed(std::string_view(head).substr(0, open)), column.name)) return false;
  if (open == std::string::npos) return true;
  const std::size_t close = head.find(')', open);
  unit = trimmed(std::string_view(head).substr(open + 1, close == std::string::npos ? close : close - open - 1));
  return true;
}

Found find_column(const std::vector<std::string>& heads, const LogColumnInfo& column, FileProblems& problems) {
  for (std::size_t i = 0; i < heads.size(); ++i) {
    Found found{i, heads[i], std::string(column.metric_unit)};
    if (!is_head_of(column, heads[i], found.unit)) continue;
    if (column.metric_unit.empty()) return found;
    try {
      (void)quantity::parse("1 " + found.unit, column.dimension, "unit");
      if (heads[i].find('(') != std::string::npos) return found;
      problems.add(1, heads[i], "names no unit",
                   "write it as \"" + std::string(column.name) + " (" + std::string(column.metric_unit) + ")\" or \"(" +
                       std::string(column.us_unit) + ")\"");
    } catch (const InputError& error) {
      problems.add(1, heads[i], error.problems().front().what, error.problems().front().mend);
    }
    return found;
  }
  problems.add(1, "header", "has no column \"" + std::string(column.name) + "\"",
               "use the file log.csv that the plan wrote, and keep its first line");
  return {};
}

Layout find_layout(const std::vector<std::string>& lines, FileProblems& problems) {
  Layout layout;
  if (lines.empty()) {
    problems.add(0, "", "is empty", "use the file log.csv that the plan wrote");
    return layout;
  }
  layout.delimiter = delimiter_of(lines.front());
  const auto heads = split_record(lines.front(), layout.delimiter).value_or(std::vector<std::string>{});
  for (std::size_t i = 0; i < log_columns.size(); ++i) {
    layout.columns[i] = find_column(heads, log_columns[i], problems);
  }
  return layout;
}

bool is_nothing(const std::string& text) {
  const std::vector<std::string> nothing = CsvMapping{}.no_value;
  return std::find(nothing.begin(), nothing.end(), text) != nothing.end();
}

/// An amount as the hand wrote it: with its own unit, or a bare number in that of the column. Decimals behind a point
/// or a comma.
std::string with_unit(std::string text, const std::string& unit) {
  if (text.find('.') == std::string::npos && std::count(text.begin(), text.end(), ',') == 1) {
    std::replace(text.begin(), text.end(), ',', '.');
  }
  return number_of(text) ? text + " " + unit : text;
}

/// The same thing said of the same moment: what a second import of the sheet finds.
bool says_same(const Reading& a, const Reading& b) { return a.value == b.value; }
bool says_same(const Event& a, const Event& b) {
  return a.volume_m3 == b.volume_m3 && a.duration_s == b.duration_s && a.note == b.note;
}
bool of_same_moment(const Reading& a, const Reading& b) {
  return a.at == b.at && a.measure == b.measure && a.place == b.place;
}
bool of_same_moment(const Event& a, const Event& b) {
  return a.at == b.at && a.kind == b.kind && (a.kind != EventKind::other || b.note.starts_with(squeeze_note));
}
std::string held_text(const Reading& one, UnitSystem units) { return value_text(one.measure, one.value, units); }
std::string held_text(const Event& one, UnitSystem units) {
  if (one.volume_m3) return quantity::format(*one.volume_m3, Dimension::volume, units);
  if (one.duration_s) return quantity::format(*one.duration_s, Dimension::duration, units);
  return one.note.empty() ? "water of no amount" : one.note;
}

/// Goes through the rows and sorts every cell.
class Sheet {
 public:
  Sheet(const Store& store, const LogRequest& request, const Layout& layout, LogPreview& preview)
      : store_(store),
        request_(request),
        layout_(layout),
        preview_(preview),
        span_(span_of(store, request.fill_id)),
        known_events_(of_fill<Event>(store, request.fill_id)) {}

  void row(const std::string& line, std::size_t number) {
    if (trimmed(line).empty()) return;
    line_ = number;
    const auto fields = split_record(line, layout_.delimiter);
    if (!fields) return refuse("", line, "has quotes that do not close");
    fields_ = *fields;
    constexpr LogColumn read[] = {LogColumn::core, LogColumn::side, LogColumn::moisture, LogColumn::water};
    if (std::all_of(std::begin(read), std::end(read), [&](LogColumn one) { return is_nothing(cell(one)); })) return;
    ++preview_.rows;
    const std::optional<Instant> at = moment();
    if (!at || !set_mark()) return;
    temperature(LogColumn::core, *at);
    temperature(LogColumn::side, *at);
    squeezed(*at);
    watered(*at);
  }

 private:
  [[nodiscard]] std::string cell(LogColumn column) const {
    const std::size_t at = layout_.columns[static_cast<std::size_t>(column)].at;
    return at < fields_.size() ? fields_[at] : std::string{};
  }
  [[nodiscard]] const Found& found(LogColumn column) const { return layout_.columns[static_cast<std::size_t>(column)]; }
  void refuse(const std::string& column, const std::string& value, const std::string& why) {
    preview_.refused.push_back({line_, fit_to_show(column), fit_to_show(value), why});
  }
  void refuse(LogColumn column, const std::string& why) { refuse(found(column).head, cell(column), why); }

  /// When the row was read.
  std::optional<Instant> moment() {
    const std::optional<double> day = number_of(cell(LogColumn::day));
    const bool whole = day && *day >= 0.0 && *day <= longest_log_day && *day == static_cast<double>(long(*day));
    if (!whole) {
      refuse(LogColumn::day, "is no day; count them from the filling: 1 is the day after");
      return std::nullopt;
    }
    const auto filled = local_day(span_.fill.filled_at, request_.mark.zone);
    const std::string date = date::to_iso(filled + std::chrono::days{static_cast<long>(*day)});
    std::optional<ReadTime> read = read_time(date + " " + cell(LogColumn::time), "%Y-%m-%d %H:%M");
    if (!read) read = read_time(date + " " + cell(LogColumn::time), "%Y-%m-%d %H:%M:%S");
    const auto candidates = read ? instants_of(read->wall, request_.mark.zone) : std::vector<Instant>{};
    if (candidates.empty()) {
      refuse(LogColumn::time, read ? "does not exist on " + date + ": the clocks jumped over that hour"
                                   : "is no time of day; write it as " + std::string(usual_hour));
      return std::nullopt;
    }
    const Instant at = candidates.front();
    const std::string why = at > now() ? "is still to come: " + date : why_not_then(at, span_, request_.mark.zone);
    if (why.empty()) return at;
    refuse(LogColumn::day, why);
    return std::nullopt;
  }

  /// Who wrote the row; whoever types it in where the row does not say.
  bool set_mark() {
    mark_ = request_.mark;
    const std::string who = cell(LogColumn::who);
    if (!is_nothing(who)) mark_.by = who;
    EntryMetadata judged = mark_;
    judged.id = "00000000-0000-0000-0000-000000000000";
    judged.noted_at = now();
    Problems problems;
    check(judged, "log", problems);
    if (problems.empty()) return true;
    refuse(LogColumn::who, problems.front().what + "; " + problems.front().mend);
    return false;
  }

  void temperature(LogColumn column, Instant at) {
    if (is_nothing(cell(column))) return;
    Reading one;
    one.mark = mark_;
    one.fill_id = span_.fill.mark.thing;
    one.at = at;
    one.place.name = column == LogColumn::core ? "core" : "side";
    one.written = with_unit(cell(column), found(column).unit);
    try {
      one.value = parse_value(Measure::temperature, one.written, "cell");
    } catch (const InputError& error) {
      return refuse(column, error.problems().front().what + "; " + error.problems().front().mend);
    }
    const auto known = readings_between(store_, request_.fill_id, at, at + std::chrono::seconds{1});
    take(column, one, known, preview_.readings);
  }

  void squeezed(Instant at) {
    const std::string text = cell(LogColumn::moisture);
    if (is_nothing(text)) return;
    const auto word =
        std::find_if(squeezes.begin(), squeezes.end(), [&](const Squeeze& one) { return same_word(one.word, text); });
    if (word == squeezes.end()) {
      return refuse(LogColumn::moisture,
                    "is none of dry, right, wet; a moisture that was measured goes in with stillheap record reading");
    }
    Event one = event(EventKind::other, at);
    one.note = squeeze_note + std::string(word->word);
    take(LogColumn::moisture, one, known_events_, preview_.events);
  }

  void watered(Instant at) {
    const std::string text = cell(LogColumn::water);
    if (is_nothing(text)) return;
    Event one = event(EventKind::sprinkled, at);
    try {
      one.volume_m3 = quantity::parse(with_unit(text, found(LogColumn::water).unit), Dimension::volume, "cell");
      if (*one.volume_m3 == 0.0) return;  // none was given that day
    } catch (const InputError& no_volume) {
      try {
        one.duration_s = quantity::parse(text, Dimension::duration, "cell");
      } catch (const InputError&) {
        return refuse(LogColumn::water, "is no amount of water; write 12, \"12 L\", \"3 gal\" or \"10 min\"");
      }
    }
    take(LogColumn::water, one, known_events_, preview_.events);
  }

  [[nodiscard]] Event event(EventKind kind, Instant at) const {
    Event one;
    one.mark = mark_;
    one.fill_id = span_.fill.mark.thing;
    one.kind = kind;
    one.at = at;
    return one;
  }

  /// Takes the entry in unless the records or an earlier row say something of its moment, or it cannot be.
  template <class Entry>
  void take(LogColumn column, const Entry& one, const std::vector<Entry>& known, std::vector<Entry>& taken) {
    for (const Entry& other : known) {
      if (!of_same_moment(one, other)) continue;
      if (says_same(one, other)) {
        ++preview_.known;
        return;
      }
      return refuse(column, "the records hold " + held_text(other, request_.facts.units) +
                                " for this day and hour; correct that entry if it is wrong");
    }
    for (const Entry& other : taken) {
      if (of_same_moment(one, other)) return refuse(column, "stands twice for this day and hour");
    }
    Problems problems;
    check(one, problems);
    if (!problems.empty()) return refuse(column, problems.front().what + "; " + problems.front().mend);
    const Doubts odd = request_.sure ? Doubts{} : doubts(store_, one, request_.facts);
    if (odd.empty()) {
      taken.push_back(one);
    } else {
      preview_.held.push_back({line_, fit_to_show(found(column).head), fit_to_show(cell(column)), odd.front().what});
    }
  }

  const Store& store_;
  const LogRequest& request_;
  const Layout& layout_;
  LogPreview& preview_;
  FillSpan span_;
  std::vector<Event> known_events_;
  std::vector<std::string> fields_;
  std::size_t line_ = 0;
  EntryMetadata mark_;
};

}  // namespace

LogPreview preview_log(const Store& store, const LogRequest& request) {
  LogPreview preview;
  preview.file = request.file;
  const std::vector<std::string> lines = lines_of(request.file);
  FileProblems problems(request.file.string());
  const Layout layout = find_layout(lines, problems);
  problems.throw_if_any();
  Sheet sheet(store, request, layout, preview);
  for (std::size_t i = 1; i < lines.size(); ++i) sheet.row(lines[i], i + 1);
  return preview;
}

std::size_t import_log(Store& store, const LogPreview& preview) {
  Transaction together(store);
  std::size_t stored = 0;
  const auto put = [&](const auto& entries) {
    for (const auto& one : entries) stored += add(store, one).outcome == Outcome::stored ? 1U : 0U;
  };
  put(preview.readings);
  put(preview.events);
  together.commit();
  return stored;
}

}  // namespace stillheap::record
