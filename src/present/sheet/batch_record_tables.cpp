#include <algorithm>
#include <nlohmann/json.hpp>

#include "core/quantity/rounding.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/batch_record.hpp"
#include "present/sheet/words.hpp"
#include "yard/record/read.hpp"

namespace stillheap::sheet {
namespace {

using nlohmann::ordered_json;

std::string time_text(const BatchTables& tables, record::Instant at) {
  std::string text = record::to_local_text(at, tables.zone).substr(0, 16);
  text[10] = ' ';
  return text;
}

/// Amounts that were noted, each with its unit; empty when none was.
class Amounts {
 public:
  explicit Amounts(UnitSystem units) : units_(units) {}
  Amounts& add(const std::optional<double>& value, Dimension dimension) {
    if (value) text_ += (text_.empty() ? "" : ", ") + quantity::format(*value, dimension, units_);
    return *this;
  }
  [[nodiscard]] const std::string& text() const noexcept { return text_; }

 private:
  UnitSystem units_;
  std::string text_;
};

void draw_unless_empty(Flow& flow, const Table& table) {
  if (table.rows.empty()) return;
  draw_table(flow, table);
}

/// What differs between two statements about one thing: "value 77.5 -> 55".
std::string difference(const ordered_json& before, const ordered_json& after) {
  static const std::vector<std::string> of_the_mark{"id",        "thing",    "stands", "corrects", "reason",
                                                    "withdrawn", "noted_by", "noted",  "zone",     "stored"};
  std::string text;
  for (const auto& [name, value] : before.items()) {
    if (std::find(of_the_mark.begin(), of_the_mark.end(), name) != of_the_mark.end()) continue;
    if (after.at(name) == value) continue;
    const auto shown = [](const ordered_json& one) { return one.is_string() ? one.get<std::string>() : one.dump(); };
    text += (text.empty() ? "" : "; ") + name + " " + shown(value) + " to " + shown(after.at(name));
  }
  return text.empty() ? "nothing but the note" : text;
}

}  // namespace

void draw_lots(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables) {
  Table table;
  table.heading = "Feedstock";
  table.columns = {{.head = "Lot", .strong = true},
                   {.head = "Feedstock"},
                   {.head = "From"},
                   {.head = "Received"},
                   {.head = "Used as delivered", .align = Align::right}};
  for (const record::LotUse& use : record::of_fill<record::LotUse>(store, fill_id)) {
    const record::Lot lot = record::history<record::Lot>(store, use.lot_id).back();
    table.rows.push_back({{lot.name, lot.feedstock, lot.supplier, time_text(tables, lot.received_at),
                           quantity::format(use.mass_wet_kg, Dimension::mass, tables.units)}});
  }
  draw_unless_empty(flow, table);
}

void draw_events(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables) {
  Table table;
  table.heading = "Events";
  table.columns = {
      {.head = "When"}, {.head = "What", .strong = true}, {.head = "How much"}, {.head = "Note"}, {.head = "By"}};
  for (const record::Event& one : record::of_fill<record::Event>(store, fill_id)) {
    const std::string much = Amounts(tables.units)
                                 .add(one.volume_m3, Dimension::volume)
                                 .add(one.mass_kg, Dimension::mass)
                                 .add(one.duration_s, Dimension::duration)
                                 .text();
    table.rows.push_back(
        {{time_text(tables, one.at), std::string(record::info(one.kind).words), much, one.note, one.mark.by}});
  }
  draw_unless_empty(flow, table);
}

void draw_tests(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables) {
  Table table;
  table.heading = "Laboratory tests";
  table.columns = {{.head = "Sampled"},
                   {.head = "What", .strong = true},
                   {.head = "Value"},
                   {.head = "Laboratory"},
                   {.head = "Method"}};
  for (const record::LabTest& one : record::of_fill<record::LabTest>(store, fill_id)) {
    table.rows.push_back({{time_text(tables, one.sampled_at), one.key, quantity::to_text(one.value, 6) + " " + one.unit,
                           one.laboratory, one.method}});
  }
  draw_unless_empty(flow, table);
}

void draw_spreadings(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables) {
  Table table;
  table.heading = "Spread";
  table.columns = {{.head = "When"}, {.head = "Where", .strong = true}, {.head = "How much"}, {.head = "Note"}};
  for (const record::Spreading& one : record::of_fill<record::Spreading>(store, fill_id)) {
    const std::string much =
        Amounts(tables.units).add(one.volume_m3, Dimension::volume).add(one.area_m2, Dimension::area).text();
    table.rows.push_back({{time_text(tables, one.at), one.where, much, one.note}});
  }
  draw_unless_empty(flow, table);
}

void draw_photos(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables) {
  Table table;
  table.heading = "Photos";
  table.size_pt = 8.5;
  table.columns = {{.head = "Taken"}, {.head = "What it shows"}, {.head = "SHA-256"}};
  for (const record::Photo& one : record::of_fill<record::Photo>(store, fill_id)) {
    table.rows.push_back({{time_text(tables, one.taken_at), one.note, one.sha256}});
  }
  draw_unless_empty(flow, table);
}

void draw_corrections(Flow& flow, const std::vector<record::BatchCorrection>& corrections) {
  Table table;
  table.heading = "Corrections: the old value stays in the records";
  table.size_pt = 8.5;
  table.columns = {{.head = "Of"}, {.head = "What"}, {.head = "Why"}, {.head = "By"}, {.head = "Stored (UTC)"}};
  for (const record::BatchCorrection& correction : corrections) {
    const ordered_json one = ordered_json::parse(correction.after);
    const bool withdrawn = one.at("withdrawn").get<bool>();
    table.rows.push_back(
        {{correction.kind, withdrawn ? "withdrawn" : difference(ordered_json::parse(correction.before), one),
          one.at("reason").get<std::string>(), one.at("noted_by").get<std::string>(),
          one.at("stored").get<std::string>()}});
  }
  draw_unless_empty(flow, table);
}

}  // namespace stillheap::sheet
