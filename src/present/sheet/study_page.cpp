#include "present/sheet/study_page.hpp"

#include <cairo-pdf.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "present/draw/scatter.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using study::CaseRow;
using study::Findings;
using study::Measure;

constexpr std::size_t most_rows = 24;  // chosen: about a page

struct Pair {
  std::string_view x, y;
};

constexpr std::array pairs{
    Pair{"volume_m3", "share_3_days_above_55"},          Pair{"volume_m3", "cool_day"},
    Pair{"longest_air_path_m", "share_3_days_above_55"}, Pair{"channels", "longest_air_path_m"},
    Pair{"water_put_on_kg_m3", "share_3_days_above_55"}, Pair{"share_3_days_above_55", "cool_day"}};

/// What the plots and the table call a measure; the table has little room.
struct Name {
  std::string_view measure, plot, table;
  std::string_view best;  ///< of goals: what the best case is praised for
};

constexpr std::array names{Name{"volume_m3", "Volume filled", "Filled", ""},
                           Name{"channels", "Air channels", "Channels", ""},
                           Name{"longest_air_path_m", "Longest air path", "Air path", "Shortest air path"},
                           Name{"share_3_days_above_55", "Hot mass: 3 days at 55 degC", "Hot mass", "Most hot mass"},
                           Name{"lowest_oxygen", "Lowest oxygen", "Oxygen", ""},
                           Name{"water_put_on_kg_m3", "Water by volume filled", "Water", "Least water"},
                           Name{"cool_day", "Day of cooling", "Cool day", "Cools first"}};

const Name& name_of(std::string_view measure) {
  return *std::find_if(names.begin(), names.end(), [&](const Name& one) { return one.measure == measure; });
}

const Measure& measure_named(std::string_view name) { return study::measures()[study::measure_index(name)]; }

AxisUnit unit_for(const Measure& measure, UnitSystem units) {
  return measure.shown ? axis_unit(*measure.shown, units) : AxisUnit{};
}

/// "Filled, m3"
std::string with_unit(std::string_view words, std::string_view measure, UnitSystem units) {
  const std::string unit = unit_for(measure_named(measure), units).label;
  return std::string(words) + (unit.empty() ? "" : ", " + unit);
}

std::string title_for(std::string_view measure, UnitSystem units) {
  return with_unit(name_of(measure).plot, measure, units);
}

Scatter scatter_of(const Findings& findings, const Pair& pair) {
  Scatter scatter{.x_title = title_for(pair.x, findings.units),
                  .y_title = title_for(pair.y, findings.units),
                  .whole_x = pair.x == "channels"};
  const AxisUnit x = unit_for(measure_named(pair.x), findings.units);
  const AxisUnit y = unit_for(measure_named(pair.y), findings.units);
  const std::set<std::size_t> best(findings.front.begin(), findings.front.end());
  for (std::size_t i = 0; i < findings.rows.size(); ++i) {
    const CaseRow& row = findings.rows[i];
    if (row.state != study::State::done) continue;
    scatter.points.push_back({x.shown(row.numbers[study::measure_index(pair.x)].middle),
                              y.shown(row.numbers[study::measure_index(pair.y)].middle),
                              best.count(i) > 0 ? std::to_string(row.number) : ""});
  }
  return scatter;
}

void draw_plots(Canvas& canvas, const Box& box, const Findings& findings) {
  constexpr double gap = 18.0;
  constexpr std::size_t columns = 2;
  const double wide = (box.width - gap) / columns;
  const double rows = static_cast<double>(pairs.size()) / columns;
  const double tall = (box.height - gap * (rows - 1.0)) / rows;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const double column = static_cast<double>(i % columns);
    const std::size_t rows_above = i / columns;
    const auto row = static_cast<double>(rows_above);
    draw_scatter(canvas, {box.x + column * (wide + gap), box.y + row * (tall + gap), wide, tall},
                 scatter_of(findings, pairs[i]));
  }
}

std::string plain(std::string value) {
  std::erase(value, '"');
  return value;
}

/// "12 ft, 15 ft, 20 ft", "60 % to 70 %".
std::string values_words(const Findings& findings, std::size_t a) {
  const study::Axis& axis = findings.study.axes[a];
  if (axis.values.empty() && axis.range) return plain(study::range_words(*axis.range));
  constexpr std::size_t most = 6;
  std::string words;
  for (std::size_t i = 0; i < std::min(most, axis.values.size()); ++i)
    words += (i == 0 ? "" : ", ") + plain(axis.values[i]);
  if (axis.values.size() <= most) return words;
  const std::string count = " (" + std::to_string(axis.values.size()) + " values)";
  return axis.range ? plain(study::range_words(*axis.range)) + count : words + ", ..." + count;
}

void draw_study_facts(Flow& flow, const Findings& findings) {
  std::vector<std::pair<std::string, std::string>> facts;
  for (std::size_t a = 0; a < findings.study.axes.size(); ++a)
    facts.emplace_back(findings.study.axes[a].key, values_words(findings, a));
  std::string cases = std::to_string(findings.cases) + ", " + std::to_string(findings.done) + " done";
  if (findings.impossible > 0) cases += ", " + std::to_string(findings.impossible) + " impossible";
  if (findings.failed > 0) cases += ", " + std::to_string(findings.failed) + " failed";
  facts.emplace_back("Cases (" + std::string(study::name_of(findings.study.way)) + ")", cases);
  facts.emplace_back("Forecast", counted_days(findings.days) +
                                     (findings.members > 1 ? ", " + std::to_string(findings.members) + " runs a band"
                                                           : ", without a band"));
  draw_facts(flow, "", facts, 9.0);
}

/// A number for a column whose head has the unit.
std::string cell_words(const Measure& measure, double value, UnitSystem units) {
  if (!std::isfinite(value)) return "none";
  if (measure.shown == Dimension::fraction) return decimal(100.0 * value, measure.name == "lowest_oxygen" ? 1 : 0);
  const double shown = unit_for(measure, units).shown(value);
  return decimal(shown, !measure.shown || std::abs(shown) >= 100.0 ? 0 : std::abs(shown) < 1.0 ? 2 : 1);
}

std::string number_words(const Findings& findings, const CaseRow& row, std::string_view name) {
  const forecast::Banded& one = row.numbers[study::measure_index(name)];
  const auto words = [&](double value) { return cell_words(measure_named(name), value, findings.units); };
  const bool banded = one.low < one.middle || one.high > one.middle;
  return words(one.middle) + (banded ? " (" + span_of(words(one.low), words(one.high)) + ")" : "");
}

/// A key in few words, for a narrow column: "panel length", "channels count".
std::string short_key(const std::string& key) {
  const std::size_t last = key.rfind('.');
  const std::size_t before = last == 0 || last == std::string::npos ? std::string::npos : key.rfind('.', last - 1);
  std::string words = key.substr(before != std::string::npos ? before + 1 : last == std::string::npos ? 0 : last + 1);
  std::replace(words.begin(), words.end(), '_', ' ');
  std::replace(words.begin(), words.end(), '.', ' ');
  return words;
}

bool many_kinds(const Findings& findings) {
  std::set<std::string> kinds;
  for (const CaseRow& row : findings.rows) kinds.insert(row.vessel);
  return kinds.size() > 1;
}

/// The best case in a goal; of equals the one that stands first on the front. Null when none is known.
const CaseRow* best_in(const Findings& findings, const study::Goal& goal) {
  const std::size_t m = study::measure_index(goal.measure);
  const double sign = goal.more_is_better ? -1.0 : 1.0;
  const CaseRow* best = nullptr;
  for (const std::size_t i : findings.front) {
    const CaseRow& row = findings.rows[i];
    const double value = sign * row.numbers[m].middle;
    if (std::isfinite(value) && (best == nullptr || value < sign * best->numbers[m].middle)) best = &row;
  }
  return best;
}

/// "13 %", "day 105"
std::string answer_words(const Findings& findings, const CaseRow& row, std::string_view measure) {
  const std::string number = number_words(findings, row, measure);
  if (measure == "cool_day") return "day " + number;
  const std::string unit = unit_for(measure_named(measure), findings.units).label;
  return unit.empty() ? number : number + ' ' + unit;
}

void draw_answer(Flow& flow, const Findings& findings) {
  Table table{.columns = {{.head = "Best in"}, {.head = "at", .strong = true}, {.head = "Case", .strong = true}},
              .rows = {},
              .size_pt = 9.0};
  for (const study::Axis& axis : findings.study.axes) table.columns.push_back({.head = short_key(axis.key)});
  for (const study::Goal& goal : study::goals()) {
    const CaseRow* best = best_in(findings, goal);
    if (best == nullptr) continue;
    table.rows.push_back({{std::string(name_of(goal.measure).best), answer_words(findings, *best, goal.measure),
                           std::to_string(best->number)}});
    for (const std::string& value : best->values) table.rows.back().cells.push_back(plain(value));
  }
  if (table.rows.empty()) return;
  draw_table(flow, table);
  flow.space(6.0);
}

void draw_front(Flow& flow, const Findings& findings) {
  const bool kinds = many_kinds(findings);
  Table table{.heading = "Cases that no other beats in air path, hot mass, water and cooling at once",
              .columns = {},
              .rows = {},
              .size_pt = 8.0};
  table.columns.push_back({.head = "Case", .strong = true});
  if (kinds) table.columns.push_back({.head = "Vessel"});
  for (const study::Axis& axis : findings.study.axes) table.columns.push_back({.head = short_key(axis.key)});
  for (const Name& name : names)
    table.columns.push_back({.head = with_unit(name.table, name.measure, findings.units), .align = Align::right});
  for (std::size_t i = 0; i < std::min(most_rows, findings.front.size()); ++i) {
    const CaseRow& row = findings.rows[findings.front[i]];
    std::vector<std::string> cells{std::to_string(row.number)};
    if (kinds) cells.push_back(row.vessel);
    for (const std::string& value : row.values) cells.push_back(plain(value));
    for (const Name& name : names) cells.push_back(number_words(findings, row, name.measure));
    table.rows.push_back({cells});
  }
  if (table.rows.empty()) return flow.paragraph("No case came to its end.");
  draw_table(flow, table);
  flow.paragraph(
      "Filled: one vessel. Channels: with the one in the middle. Hot mass: the share that stood 3 days running at 55 "
      "degC "
      "(131 degF) or above. Oxygen: the lowest anywhere at any time. Water: sprinkled and rained on it, by volume "
      "filled. Cool day: core below 26.7 degC (80 degF) for good from then on.",
      style::note);
  if (findings.front.size() > most_rows)
    flow.paragraph(std::to_string(findings.front.size() - most_rows) + " more stand in runs.csv.", style::note);
}

PackLayout draw_sheet(Canvas& canvas, const Findings& findings, int pages) {
  const std::string name = findings.site_name.empty() ? "Study" : findings.site_name;
  Flow flow(canvas, {name, findings.study.file.filename().string(), pages});
  flow.start_sheet("Cases to choose from", name);
  draw_answer(flow, findings);
  draw_front(flow, findings);
  flow.space(6.0);
  flow.caution_box("Before you build",
                   {"A forecast is no proof. Build one of these, measure it, and let the forecast learn "
                    "from the readings before you build many.",
                    "Whether the heat kills germs and seeds is judged by measured temperatures under "
                    "your local code, not by this table."});
  flow.start_sheet("Trade-offs", name);
  draw_study_facts(flow, findings);
  flow.paragraph(
      "Each point is a case. Numbered ones no other case beats in air path, hot mass, water and cooling at "
      "once. A cross on the upper edge: not cool within the forecast.",
      style::note);
  flow.space(4.0);
  constexpr double least_plots_pt = 380.0;
  flow.need(least_plots_pt);
  draw_plots(canvas, flow.take(std::min(flow.room(), 620.0)), findings);
  flow.close();
  return {canvas.page(), canvas.paper(), flow.sheets(), canvas.texts(), canvas.lines(), flow.page_uses()};
}

void date_it(Canvas& canvas, const Findings& findings) {
  // The first fill's date, not the clock: the same study must give the same file.
  const std::string date = findings.start_date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_TITLE,
                                 (findings.site_name + ": trade-offs").c_str());
  for (const auto which : {CAIRO_PDF_METADATA_CREATE_DATE, CAIRO_PDF_METADATA_MOD_DATE})
    cairo_pdf_surface_set_metadata(canvas.surface(), which, date.c_str());
}

void draw_alone(Canvas canvas, const Findings& findings) {
  const Paper paper = canvas.paper();
  draw_plots(canvas, shrink({0.0, 0.0, paper.width_pt, paper.height_pt}, 14.0), findings);
  canvas.finish();
}

}  // namespace

PackLayout lay_out_study_sheet(const Findings& findings) {
  Canvas counting = Canvas::blind(paper_for(findings.units));
  const int pages = draw_sheet(counting, findings, 0).pages;
  Canvas canvas = Canvas::blind(paper_for(findings.units));
  return draw_sheet(canvas, findings, pages);
}

std::vector<std::filesystem::path> write_study_sheet(const Findings& findings, const std::filesystem::path& folder) {
  const std::filesystem::path stem = folder / "tradeoffs";
  std::vector<std::filesystem::path> files{stem.string() + ".pdf", stem.string() + ".svg", stem.string() + ".png"};
  Canvas canvas = Canvas::pdf(files[0], paper_for(findings.units));
  date_it(canvas, findings);
  (void)draw_sheet(canvas, findings, lay_out_study_sheet(findings).pages);
  canvas.finish();
  const Paper alone{560.0, 620.0, "tradeoffs"};
  draw_alone(Canvas::svg(files[1], alone), findings);
  draw_alone(Canvas::png(files[2], alone, 2.0), findings);
  return files;
}

}  // namespace stillheap::sheet
