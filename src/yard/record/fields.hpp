#pragma once
#include <concepts>
#include <type_traits>

#include "yard/record/entries.hpp"

/// One function a kind of entry names its fields once, in the order of the columns; binding, loading, comparing and
/// exporting all follow it. A visitor has: text, instant, number, maybe, count, refer(column, id, table, needed),
/// event and measure.
namespace stillheap::record {

template <class Entry, class Of>
concept entry_of = std::same_as<std::remove_cvref_t<Entry>, Of>;

/// Names of a kind: its table, and the word for one entry.
template <class Entry>
struct Kind;
// clang-format off
template <> struct Kind<Person>    { static constexpr const char *table = "people",      *word = "person"; };
template <> struct Kind<Vessel>    { static constexpr const char *table = "vessels",     *word = "vessel"; };
template <> struct Kind<Lot>       { static constexpr const char *table = "lots",        *word = "lot"; };
template <> struct Kind<Fill>      { static constexpr const char *table = "fills",       *word = "fill"; };
template <> struct Kind<LotUse>    { static constexpr const char *table = "lot_uses",    *word = "use of a lot"; };
template <> struct Kind<Reading>   { static constexpr const char *table = "readings",    *word = "reading"; };
template <> struct Kind<Event>     { static constexpr const char *table = "events",      *word = "event"; };
template <> struct Kind<LabTest>   { static constexpr const char *table = "lab_tests",   *word = "laboratory test"; };
template <> struct Kind<Spreading> { static constexpr const char *table = "spreadings",  *word = "spreading"; };
template <> struct Kind<Photo>     { static constexpr const char *table = "photos",      *word = "photo"; };
template <> struct Kind<CsvSource> { static constexpr const char *table = "csv_sources", *word = "source"; };
template <> struct Kind<DueDay>    { static constexpr const char *table = "due_days",    *word = "due day"; };
// clang-format on

constexpr bool needed = true;

template <entry_of<Person> E, class V>
void visit(E& one, V&& v) {
  v.text("initials", one.initials);
  v.text("name", one.name);
}

template <entry_of<Vessel> E, class V>
void visit(E& one, V&& v) {
  v.text("name", one.name);
  v.text("design", one.design);
  v.text("note", one.note);
}

template <entry_of<Lot> E, class V>
void visit(E& one, V&& v) {
  v.text("name", one.name);
  v.text("feedstock", one.feedstock);
  v.text("supplier", one.supplier);
  v.instant("received_s", one.received_at);
  v.maybe("mass_wet_kg", one.mass_wet_kg);
  v.text("note", one.note);
}

template <entry_of<Fill> E, class V>
void visit(E& one, V&& v) {
  v.refer("vessel", one.vessel_id, "vessels", needed);
  v.text("batch", one.batch);
  v.instant("filled_s", one.filled_at);
  v.maybe("volume_m3", one.volume_m3);
  v.maybe("moisture_wet", one.moisture_wet);
  v.maybe("carbon_to_nitrogen", one.carbon_to_nitrogen);
  v.text("note", one.note);
}

template <entry_of<LotUse> E, class V>
void visit(E& one, V&& v) {
  v.refer("fill", one.fill_id, "fills", needed);
  v.refer("lot", one.lot_id, "lots", needed);
  v.number("mass_wet_kg", one.mass_wet_kg);
}

/// Fill, measure and place stand in the series of a reading; see write.cpp and read.cpp.
template <entry_of<Reading> E, class V>
void visit(E& one, V&& v) {
  v.refer("fill", one.fill_id, "fills", needed);
  v.measure("measure", one.measure);
  v.text("place", one.place.name);
  v.maybe("angle_rad", one.place.angle_rad);
  v.maybe("radius_m", one.place.radius_m);
  v.maybe("depth_m", one.place.depth_m);
  v.maybe("height_m", one.place.height_m);
  v.instant("at_s", one.at);
  v.number("value", one.value);
  v.named("source", one.source, "csv_sources");
  v.text("written", one.written);
}

template <entry_of<Event> E, class V>
void visit(E& one, V&& v) {
  v.refer("fill", one.fill_id, "fills", needed);
  v.event("kind", one.kind);
  v.instant("at_s", one.at);
  v.maybe("volume_m3", one.volume_m3);
  v.maybe("mass_kg", one.mass_kg);
  v.maybe("duration_s", one.duration_s);
  v.text("note", one.note);
}

template <entry_of<LabTest> E, class V>
void visit(E& one, V&& v) {
  v.refer("fill", one.fill_id, "fills", !needed);
  v.refer("lot", one.lot_id, "lots", !needed);
  v.text("key", one.key);
  v.number("value", one.value);
  v.text("unit", one.unit);
  v.text("laboratory", one.laboratory);
  v.text("method", one.method);
  v.instant("sampled_s", one.sampled_at);
  v.text("note", one.note);
}

template <entry_of<Spreading> E, class V>
void visit(E& one, V&& v) {
  v.refer("fill", one.fill_id, "fills", needed);
  v.instant("at_s", one.at);
  v.text("place", one.where);
  v.maybe("volume_m3", one.volume_m3);
  v.maybe("area_m2", one.area_m2);
  v.text("note", one.note);
}

template <entry_of<Photo> E, class V>
void visit(E& one, V&& v) {
  v.refer("fill", one.fill_id, "fills", needed);
  v.instant("taken_s", one.taken_at);
  v.text("sha256", one.sha256);
  v.text("media_type", one.media_type);
  v.count("bytes", one.bytes);
  v.text("note", one.note);
}

template <entry_of<CsvSource> E, class V>
void visit(E& one, V&& v) {
  v.text("name", one.name);
  v.text("mapping", one.mapping);
}

template <entry_of<DueDay> E, class V>
void visit(E& one, V&& v) {
  v.text("vessel", one.vessel);
  v.text("date", one.date);
  v.text("latest_date", one.latest_date);
  v.text("what", one.what);
}

}  // namespace stillheap::record
