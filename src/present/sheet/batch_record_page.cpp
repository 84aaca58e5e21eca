#include "present/sheet/batch_record_page.hpp"

#include <cairo-pdf.h>

#include <algorithm>
#include <map>

#include "core/base/error.hpp"
#include "present/draw/chart.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/batch_record.hpp"
#include "present/sheet/words.hpp"
#include "yard/record/batch.hpp"
#include "yard/record/read.hpp"

namespace stillheap::sheet {
namespace {

using record::Measure;
using record::Reading;

/// Everything about the batch, read once.
struct Batch {
  record::Fill fill;
  record::Vessel vessel;
  std::vector<Reading> readings;
  record::BatchDigest data;
  yard::VesselState state;  ///< as of the last reading, not of the clock: the same records give the same sheet
  BatchPrint print;
};

std::string time_text(const Batch& batch, record::Instant at) {
  std::string text = record::to_local_text(at, batch.print.zone).substr(0, 16);
  text[10] = ' ';
  return text;
}

std::string amount(const Batch& batch, const std::optional<double>& value, Dimension dimension) {
  return value ? quantity::format(*value, dimension, batch.print.units) : "not noted";
}

void draw_figures(Flow& flow, const Batch& batch) {
  draw_facts(flow, "",
             {{"Batch", batch.fill.batch},
              {"Vessel", batch.vessel.name},
              {"Filled", time_text(batch, batch.fill.filled_at)},
              {"Volume filled", amount(batch, batch.fill.volume_m3, Dimension::volume)},
              {"Moisture after soaking, wet basis", amount(batch, batch.fill.moisture_wet, Dimension::fraction)},
              {"C:N of the blend, from total carbon",
               batch.fill.carbon_to_nitrogen ? decimal(*batch.fill.carbon_to_nitrogen, 1) : "not noted"},
              {"Noted by", batch.fill.mark.by},
              {"Times are those of", batch.print.zone}});
  if (!batch.fill.note.empty()) flow.paragraph(batch.fill.note);
}

using Days = std::map<long, std::pair<double, int>>;  ///< day since filling -> sum and number of readings

/// The temperature readings of each place, those with most days first, as many as pens can tell apart.
std::vector<std::pair<std::string, Days>> days_by_place(const Batch& batch, std::size_t most) {
  std::map<std::string, Days> places;
  for (const Reading& one : batch.readings) {
    if (one.measure != Measure::temperature) continue;
    auto& [sum, count] = places[words(one.place, batch.print.units)][(one.at - batch.fill.filled_at).count() / 86400];
    sum += one.value;
    ++count;
  }
  std::vector<std::pair<std::string, Days>> sorted(places.begin(), places.end());
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& a, const auto& b) { return a.second.size() > b.second.size(); });
  sorted.resize(std::min(sorted.size(), most));
  return sorted;
}

/// Daily means: what hundreds of logger rows a day come down to on paper.
void draw_temperatures(Flow& flow, const Batch& batch) {
  const std::vector<Pen> pens{{accent, 1.6}, {ink, 0.8}, {soft, 0.8, {4.0, 2.0}}, {ink, 0.8, {1.0, 2.0}}};
  const auto places = days_by_place(batch, pens.size());
  if (places.empty() || places.front().second.size() < 2) return;
  const AxisUnit unit = axis_unit(Dimension::temperature, batch.print.units);
  Chart chart;
  chart.title = "Temperature, " + unit.label + ", daily means";
  chart.start = record::local_day(batch.fill.filled_at, batch.print.zone);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto& [place, days] = places[i];
    Curve curve{place, {}, {}, pens[i]};
    for (const auto& [day, total] : days) {
      curve.day.push_back(static_cast<double>(day) + 0.5);
      curve.value.push_back(unit.shown(total.first / total.second));
    }
    chart.days = std::max(chart.days, static_cast<double>(days.rbegin()->first + 1));
    chart.curves.push_back(std::move(curve));
  }
  flow.heading("Temperature", 180.0);
  draw_chart(flow.canvas(), flow.take(170.0), chart);
  flow.space(6.0);
}

void draw_readings(Flow& flow, const Batch& batch) {
  struct Summary {
    int count = 0;
    Reading least, most, last;
  };
  std::map<std::pair<Measure, std::string>, Summary> places;
  for (const Reading& one : batch.readings) {
    Summary& so_far = places[{one.measure, words(one.place, batch.print.units)}];
    if (so_far.count == 0 || one.value < so_far.least.value) so_far.least = one;
    if (so_far.count == 0 || one.value > so_far.most.value) so_far.most = one;
    so_far.last = one;
    ++so_far.count;
  }
  if (places.empty()) return flow.paragraph("No readings were noted.");
  Table table;
  table.heading = "Readings by place";
  table.columns = {{.head = "What"},   {.head = "Place"},   {.head = "Number", .align = Align::right},
                   {.head = "Lowest"}, {.head = "Highest"}, {.head = "Highest at"},
                   {.head = "Last"}};
  for (const auto& [key, one] : places) {
    const auto text = [&](const Reading& of) { return record::value_text(of.measure, of.value, batch.print.units); };
    std::string what(record::info(key.first).key);
    std::replace(what.begin(), what.end(), '_', ' ');
    table.rows.push_back({{what, key.second, std::to_string(one.count), text(one.least), text(one.most),
                           time_text(batch, one.most.at), text(one.last)}});
  }
  draw_table(flow, table);
}

Batch read_batch(const record::Store& store, const std::string& fill_id, const BatchPrint& print) {
  const auto fill = record::current<record::Fill>(store, fill_id);
  if (!fill) throw InputError("fill", "= \"" + fill_id + "\" is not in the records", "name a fill that stands");
  Batch batch{*fill, {}, record::of_fill<Reading>(store, fill_id), record::digest_batch(store, fill_id), {}, print};
  batch.vessel = record::history<record::Vessel>(store, fill->vessel_id).back();
  record::VesselGlance glance;
  glance.vessel = batch.vessel;
  glance.fill = batch.fill;
  const record::Instant last = batch.readings.empty() ? fill->filled_at : batch.readings.back().at;
  batch.state = yard::state_from(glance, batch.readings, {}, {}, print.design, last);
  return batch;
}

void draw_hash(Flow& flow, const Batch& batch) {
  flow.heading("Data");
  flow.paragraph("This sheet was made from the records alone. SHA-256 of batch.json, the same records as data:");
  flow.paragraph(batch.data.sha256, style::card);
  flow.paragraph(
      "A record is no permit and proves no standard: local codes say which rules bind and who may judge them.");
}

int draw(Canvas& canvas, const record::Store& store, const Batch& batch, int pages) {
  Flow flow(canvas, {batch.vessel.name, "batch " + batch.fill.batch, pages});
  flow.start_sheet("Batch record", batch.fill.batch + ", " + batch.vessel.name);
  draw_figures(flow, batch);
  draw_temperatures(flow, batch);
  draw_readings(flow, batch);
  const BatchTables tables{batch.print.units, batch.print.zone};
  draw_hygiene(flow, batch.state, tables);
  draw_lots(flow, store, batch.fill.mark.thing, tables);
  draw_events(flow, store, batch.fill.mark.thing, tables);
  draw_tests(flow, store, batch.fill.mark.thing, tables);
  draw_spreadings(flow, store, batch.fill.mark.thing, tables);
  draw_photos(flow, store, batch.fill.mark.thing, tables);
  draw_corrections(flow, batch.data.corrections);
  draw_hash(flow, batch);
  flow.close();
  return canvas.page();
}

}  // namespace

int write_batch_record(const record::Store& store, const std::string& fill_id, const std::filesystem::path& file,
                       const BatchPrint& print) {
  const Batch batch = read_batch(store, fill_id, print);
  Canvas counting = Canvas::blind(paper_for(print.units));
  const int pages = draw(counting, store, batch, 0);
  Canvas canvas = Canvas::pdf(file, paper_for(print.units));
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_TITLE,
                                 ("Batch record " + batch.fill.batch).c_str());
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_CREATOR, "stillheap");
  // The fill's time, not the clock: the same records must give the same file.
  const std::string date = record::to_utc_text(batch.fill.filled_at);
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_CREATE_DATE, date.c_str());
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_MOD_DATE, date.c_str());
  const int written = draw(canvas, store, batch, pages);
  canvas.finish();
  return written;
}

}  // namespace stillheap::sheet
