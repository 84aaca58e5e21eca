#include "yard/record/csv_import.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <map>
#include <thread>
#include <unordered_map>

#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "core/base/header_unit.hpp"
#include "core/base/printable.hpp"
#include "yard/record/check.hpp"
#include "yard/record/csv_time.hpp"
#include "yard/record/doubt_jump.hpp"
#include "yard/record/fill_span.hpp"
#include "yard/record/read.hpp"
#include "yard/record/series.hpp"
#include "yard/record/write.hpp"

namespace stillheap::record {
namespace {

constexpr std::size_t most_shown_byte = 200;  // chosen: of a cell that is refused

/// Where the wanted columns stand in a row.
struct Layout {
  char delimiter = ',';
  std::size_t time = 0;
  std::optional<std::size_t> date, probe;
  std::vector<std::size_t> probes;
};

/// A value that is known for a place, measure and time: from a line of the file, or (line 0) from the records.
struct Known {
  double value = 0.0;
  std::size_t line = 0;
};
using KnownValues = std::unordered_map<std::string, Known>;

std::string series_key(const Reading& one) { return place_key(one.place) + '\n' + std::string(info(one.measure).key); }

std::string key_of(const Reading& one) {
  return series_key(one) + '\n' + std::to_string(one.at.time_since_epoch().count());
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "\"" : ", \"") + name + "\"";
  return text;
}

/// The unit a column's header names when it is another than the mapping's; empty when it names none.
std::string other_unit(const CsvProbe& probe) {
  std::string named = header_unit(probe.column);
  if (named.starts_with("\u00b0")) named.replace(0, 2, "deg");
  if (named.empty()) return {};
  try {
    // Two points, since degrees differ in their zero too.
    for (const char* const number : {"10 ", "20 "}) {
      const double as_named = parse_value(probe.measure, number + named, "header");
      if (std::abs(as_named - parse_value(probe.measure, number + probe.unit, "header")) > 1e-6) return named;
    }
  } catch (const InputError&) {
    return {};  // what stands there is no unit
  }
  return {};
}

Layout find_layout(const std::vector<std::string>& lines, const CsvMapping& mapping, FileProblems& problems) {
  Layout layout;
  const auto header_line = static_cast<std::size_t>(mapping.header_line);
  if (lines.size() < header_line) {
    problems.add(0, "", "ends before its header line " + std::to_string(header_line), "give the right header line");
    return layout;
  }
  const std::string& header = lines[header_line - 1];
  layout.delimiter = mapping.delimiter.empty() ? delimiter_of(header) : mapping.delimiter.front();
  const auto names = split_record(header, layout.delimiter).value_or(std::vector<std::string>{});
  const auto find = [&](const std::string& name) {
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) {
      problems.add(header_line, "header", "has no column \"" + name + "\"", "it has " + listed(names));
      return std::size_t{0};
    }
    if (std::find(found + 1, names.end(), name) != names.end()) {
      problems.add(header_line, "header", "has the column \"" + name + "\" twice", "give each a name of its own");
    }
    return static_cast<std::size_t>(found - names.begin());
  };
  layout.time = find(mapping.time);
  if (!mapping.date.empty()) layout.date = find(mapping.date);
  if (!mapping.probe_column.empty()) layout.probe = find(mapping.probe_column);
  for (const CsvProbe& probe : mapping.probes) {
    layout.probes.push_back(find(probe.column));
    const std::string named = other_unit(probe);
    if (named.empty()) continue;
    problems.add(header_line, probe.column, "is in " + named + ", but the mapping reads it as " + probe.unit,
                 "give " + named + " as its unit");
  }
  return layout;
}

/// A number as the logger writes it, in the stored unit. Why not in `why`.
std::optional<double> value_of(const std::string& text, const CsvProbe& probe, bool decimal_comma, std::string& why) {
  std::string plain = text;
  if (decimal_comma && plain.find('.') == std::string::npos) std::replace(plain.begin(), plain.end(), ',', '.');
  const std::optional<double> number = decimal_comma && plain != text && std::count(plain.begin(), plain.end(), '.') > 1
                                           ? std::nullopt
                                           : number_of(plain);
  if (!number) {
    why = text.find(',') != std::string::npos && !decimal_comma ? "is no number; are its decimals set off by a comma?"
                                                                : "is no number";
    return std::nullopt;
  }
  char digits[400];
  const auto end = std::to_chars(digits, digits + sizeof digits, *number, std::chars_format::fixed);
  try {
    return parse_value(probe.measure, std::string(digits, end.ptr) + " " + probe.unit, "value");
  } catch (const InputError&) {
    why = "cannot be: " + allowed_text(probe.measure) + " can";
    return std::nullopt;
  }
}

/// Goes through the rows and sorts every cell.
class Sorter {
 public:
  /// `odd_places`: of each probe, why its place is unlikely; empty: it is not, or somebody is sure.
  Sorter(const Layout& layout, const FillSpan& span, CsvPreview& preview, std::vector<std::string> odd_places,
         const CsvRequest& request)
      : layout_(layout),
        span_(span),
        preview_(preview),
        clock_(preview.mapping),
        odd_places_(std::move(odd_places)),
        units_(request.facts.units),
        sure_(request.sure) {}

  void row(const std::string& line, std::size_t number) {
    if (trimmed(line).empty()) return;
    ++preview_.rows;
    const auto fields = split_record(line, layout_.delimiter);
    if (!fields) return refuse(number, "", line, "has quotes that do not close");
    const std::string probe = layout_.probe ? field(*fields, *layout_.probe) : std::string{};
    std::string time = field(*fields, layout_.time);
    if (layout_.date) time = field(*fields, *layout_.date) + " " + time;
    std::string why;
    const std::optional<Instant> at = clock_.read(time, probe, why);
    if (at) why = why_not_then(*at, span_, preview_.mapping.zone);
    if (!at || !why.empty()) return refuse(number, preview_.mapping.time, time, why);
    for (std::size_t i = 0; i < layout_.probes.size(); ++i) {
      const CsvProbe& wanted = preview_.mapping.probes[i];
      if (wanted.probe.empty() || wanted.probe == probe) cell(*fields, i, wanted, *at, number);
    }
  }

  void note_second_passes() {
    if (clock_.second_passes() == 0) return;
    preview_.notes.push_back(std::to_string(clock_.second_passes()) +
                             " rows fall into the second pass of an hour that came twice in " + preview_.mapping.zone +
                             "; they were taken in the order of the file");
  }

 private:
  static std::string field(const std::vector<std::string>& fields, std::size_t at) {
    return at < fields.size() ? fields[at] : std::string{};
  }
  void refuse(std::size_t line, const std::string& column, const std::string& value, const std::string& why) {
    preview_.refused.push_back({line, column, value, why});
  }
  /// Why a value or its place is unlikely; empty when it is not.
  std::string doubt(std::size_t which, Measure measure, double value) const {
    if (sure_) return {};
    if (!odd_places_[which].empty()) return odd_places_[which];
    const Doubts found = value_doubts(measure, value, units_);
    return found.empty() ? std::string{} : found.front().what;
  }
  void cell(const std::vector<std::string>& fields, std::size_t which, const CsvProbe& probe, Instant at,
            std::size_t line) {
    const std::string text = field(fields, layout_.probes[which]);
    const auto& nothing = preview_.mapping.no_value;
    if (text.empty() || std::find(nothing.begin(), nothing.end(), text) != nothing.end()) {
      ++preview_.nothing;
      return;
    }
    std::string why;
    const std::optional<double> value = value_of(text, probe, preview_.mapping.decimal_comma, why);
    if (!value) return refuse(line, probe.column, text, why);
    if (why = doubt(which, probe.measure, *value); !why.empty()) {
      preview_.held.push_back({line, probe.column, text, why});
      return;
    }
    Reading one;
    one.mark = preview_.mark;
    one.fill_id = span_.fill.mark.thing;
    one.measure = probe.measure;
    one.value = *value;
    one.at = at;
    one.place = probe.place;
    one.source = preview_.source;
    preview_.readings.push_back(std::move(one));
    cells_.push_back({line, probe.column, text, {}});
  }

  const Layout& layout_;
  const FillSpan& span_;
  CsvPreview& preview_;
  RowClock clock_;
  std::vector<std::string> odd_places_;
  UnitSystem units_ = UnitSystem::metric;
  bool sure_ = false;

 public:
  std::vector<Refusal> cells_;  ///< where each reading of the preview stands
};

bool in_fahrenheit(const CsvMapping& mapping, const Reading& reading) {
  const auto probe = std::find_if(mapping.probes.begin(), mapping.probes.end(), [&](const CsvProbe& one) {
    return one.measure == reading.measure && place_key(one.place) == place_key(reading.place);
  });
  return probe != mapping.probes.end() && probe->unit.ends_with('F');
}

/// Holds back a whole column whose unit is doubted: one row of it may look right by chance.
void hold_odd_columns(const Store& store, CsvPreview& preview, std::vector<Refusal>& cells, const FillSpan& span,
                      const CsvRequest& request) {
  if (request.sure) return;
  std::map<std::string, std::vector<Reading>> columns;
  for (const Reading& one : preview.readings) columns[series_key(one)].push_back(one);
  std::map<std::string, std::string> why;
  for (const auto& [key, column] : columns)
    why[key] =
        column_doubt(store, span.fill, column, in_fahrenheit(preview.mapping, column.front()), request.facts.units);
  std::vector<Reading> kept;
  std::vector<Refusal> kept_cells;
  for (std::size_t i = 0; i < preview.readings.size(); ++i) {
    cells[i].why = why[series_key(preview.readings[i])];
    if (!cells[i].why.empty()) {
      preview.held.push_back(cells[i]);
      continue;
    }
    kept.push_back(std::move(preview.readings[i]));
    kept_cells.push_back(std::move(cells[i]));
  }
  preview.readings = std::move(kept);
  cells = std::move(kept_cells);
}

KnownValues known_values(const Store& store, const CsvPreview& preview) {
  KnownValues known;
  if (preview.readings.empty()) return known;
  const auto [first, last] = std::minmax_element(preview.readings.begin(), preview.readings.end(),
                                                 [](const Reading& a, const Reading& b) { return a.at < b.at; });
  const std::string& fill_id = first->fill_id;
  for (const Reading& one : readings_between(store, fill_id, first->at, last->at + std::chrono::seconds{1})) {
    known.emplace(key_of(one), Known{one.value, 0});
  }
  return known;
}

/// Takes out what is known already, and second values for one place and time.
void refuse_doubles(const Store& store, CsvPreview& preview, const std::vector<Refusal>& cells, UnitSystem units) {
  KnownValues known = known_values(store, preview);
  std::vector<Reading> fresh;
  for (std::size_t i = 0; i < preview.readings.size(); ++i) {
    Reading& one = preview.readings[i];
    const auto [there, is_new] = known.emplace(key_of(one), Known{one.value, cells[i].line});
    if (is_new) {
      fresh.push_back(std::move(one));
      continue;
    }
    const bool same = there->second.value == one.value;
    if (same && there->second.line == 0) {
      ++preview.known;
      continue;
    }
    const std::string held = value_text(one.measure, there->second.value, units);
    const std::string from =
        there->second.line == 0 ? "the records hold " : "line " + std::to_string(there->second.line) + " gives ";
    Refusal refusal = cells[i];
    refusal.why = from + (same ? "the same" : held) + " for this place and time" +
                  (there->second.line == 0 ? "; correct that reading if it is wrong" : "");
    preview.refused.push_back(refusal);
  }
  preview.readings = std::move(fresh);
}

/// Newest first? Judged on the first and the last row whose time can be read.
bool runs_backwards(const std::vector<std::string>& rows, const Layout& layout, const CsvMapping& mapping) {
  std::optional<WallTime> first;
  std::optional<WallTime> last;
  for (const std::string& line : rows) {
    const auto fields = split_record(line, layout.delimiter);
    if (!fields || fields->size() <= std::max(layout.time, layout.date.value_or(0))) continue;
    const std::string time = (layout.date ? (*fields)[*layout.date] + " " : "") + (*fields)[layout.time];
    const std::optional<ReadTime> read = read_time(time, mapping.pattern);
    if (!read) continue;
    if (!first) first = read->wall;
    last = read->wall;
  }
  return first && *last < *first;
}

void keep_source(Store& store, const CsvPreview& preview) {
  Transaction together(store);
  CsvSource source;
  source.mark = preview.mark;
  source.name = preview.source;
  source.mapping = to_json(preview.mapping);
  std::optional<CsvSource> kept;
  for (CsvSource& one : all<CsvSource>(store)) {
    if (one.name == preview.source) kept = std::move(one);
  }
  if (kept && kept->mapping != source.mapping) {
    source.mark.corrects = kept->mark.id;
    source.mark.reason = "read in another way from " + preview.file.filename().string() + " on";
  }
  if (!kept || kept->mapping != source.mapping) (void)add(store, source);
  together.commit();
}

std::size_t import_part(Store& store, const CsvPreview& preview, std::size_t from) {
  Transaction together(store);
  if (from == 0) keep_source(store, preview);
  std::size_t stored = 0;
  const std::size_t to = std::min(preview.readings.size(), from + rows_at_once);
  for (std::size_t row = from; row < to; ++row) {
    if (add(store, preview.readings[row]).outcome == Outcome::stored) ++stored;
  }
  together.commit();
  return stored;
}

/// What cannot be of a probe's place is told before any row is read, what is unlikely beside each of its cells.
std::vector<std::string> odd_places(const Store& store, const CsvRequest& request, const CsvMapping& mapping) {
  std::vector<std::string> odd;
  Problems problems;
  for (const CsvProbe& probe : mapping.probes) {
    Reading any;
    any.measure = probe.measure;
    any.value = info(probe.measure).usual_least;
    any.at = now();
    any.place = probe.place;
    check(any, problems);
    const Doubts found = place_doubts(store, request.fill_id, probe.place, request.facts);
    odd.push_back(found.empty() ? std::string{} : found.front().where + " " + found.front().what);
  }
  if (!problems.empty()) throw InputError(problems);
  return odd;
}

}  // namespace

CsvPreview preview_csv(const Store& store, const CsvRequest& request) {
  CsvPreview preview;
  preview.file = request.file;
  preview.source = request.source;
  preview.mark = request.mark;
  const std::optional<CsvMapping> mapping = request.mapping ? request.mapping : kept_mapping(store, request.source);
  if (!mapping) {
    throw InputError("source", "= \"" + request.source + "\" is not known yet", "give its time column and its probes");
  }
  preview.mapping = *mapping;
  check(preview.mapping, "mapping");
  const FillSpan span = span_of(store, request.fill_id);
  std::vector<std::string> lines = lines_of(request.file);
  FileProblems problems(request.file.string());
  const Layout layout = find_layout(lines, preview.mapping, problems);
  problems.throw_if_any();
  const auto above = static_cast<std::size_t>(preview.mapping.header_line);
  lines.erase(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(above));
  const bool backwards = runs_backwards(lines, layout, preview.mapping);
  Sorter sorter(layout, span, preview, odd_places(store, request, preview.mapping), request);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t at = backwards ? lines.size() - 1 - i : i;
    sorter.row(lines[at], above + at + 1);
  }
  sorter.note_second_passes();
  hold_odd_columns(store, preview, sorter.cells_, span, request);
  refuse_doubles(store, preview, sorter.cells_, request.facts.units);
  std::stable_sort(preview.refused.begin(), preview.refused.end(),
                   [](const Refusal& a, const Refusal& b) { return a.line < b.line; });
  for (std::vector<Refusal>* const cells : {&preview.refused, &preview.held}) {
    for (Refusal& one : *cells) {
      one.column = printable(one.column, most_shown_byte);
      one.value = printable(one.value, most_shown_byte);
    }
  }
  return preview;
}

std::size_t import_csv(const CsvPreview& preview, const PartRunner& run) {
  std::size_t stored = 0;
  std::size_t from = 0;
  try {
    do {
      std::size_t of_part = 0;
      run([&](Store& store) { of_part = import_part(store, preview, from); });
      stored += of_part;
      from += rows_at_once;
    } while (from < preview.readings.size());
  } catch (const RunError& error) {
    if (stored == 0) throw;
    throw RunError(
        preview.file.filename().string(),
        std::to_string(stored) + " of " + std::to_string(preview.readings.size()) +
            " readings are stored, then: " + error.problems().front().what,
        error.problems().front().mend + "; then import the file again: what is stored is known and stands once");
  }
  return stored;
}

std::size_t import_csv(Store& store, const CsvPreview& preview) {
  constexpr std::chrono::milliseconds breath{30};  // chosen: others who wait for the store look again every 25 ms
  return import_csv(preview, [&](const ImportPart& part) {
    part(store);
    if (preview.readings.size() > rows_at_once) std::this_thread::sleep_for(breath);
  });
}

std::optional<CsvMapping> kept_mapping(const Store& store, const std::string& source) {
  for (const CsvSource& one : all<CsvSource>(store)) {
    if (one.name == source) return mapping_from_json(one.mapping, "source " + source);
  }
  return std::nullopt;
}

}  // namespace stillheap::record
