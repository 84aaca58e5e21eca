#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/base/error.hpp"
#include "yard/record/connection.hpp"
#include "yard/record/fields.hpp"
#include "yard/record/ident.hpp"

/// From rows of the store to entries. Only the files of this folder include this.
namespace stillheap::record {

/// The expressions that a kind of entry is selected with, in the order Loader reads them.
class SelectList {
 public:
  template <class T>
  void text(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void instant(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void number(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void maybe(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void count(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void measure(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void event(const char* column, T&) {
    names.emplace_back(column);
  }
  template <class T>
  void refer(const char* column, T&, const char* table, bool) {
    names.push_back("(SELECT id FROM " + std::string(table) + " AS f WHERE f.row = " + column + ")");
  }
  template <class T>
  void named(const char* column, T&, const char* table) {
    names.push_back("(SELECT name FROM " + std::string(table) + " AS f WHERE f.row = " + column + ")");
  }
  std::vector<std::string> names;
};

/// Reads the columns after those of the EntryMetadata.
class Loader {
 public:
  Loader(SQLite::Statement& statement, int first) : statement_(statement), at_(first) {}
  void text(const char*, std::string& value) { value = next().getString(); }
  void instant(const char*, Instant& value) { value = Instant{std::chrono::seconds{next().getInt64()}}; }
  void number(const char*, double& value) { value = next().getDouble(); }
  void maybe(const char*, std::optional<double>& value) {
    const SQLite::Column column = next();
    value = column.isNull() ? std::nullopt : std::optional<double>{column.getDouble()};
  }
  void count(const char*, long long& value) { value = next().getInt64(); }
  void measure(const char*, Measure& value) { value = measure_of(next().getString()).value(); }
  void event(const char*, EventKind& value) { value = event_kind_of(next().getString()).value(); }
  void refer(const char*, std::string& id, const char*, bool);
  void named(const char*, std::string& name, const char*) { name = next().getString(); }

 private:
  SQLite::Column next() { return statement_.getColumn(at_++); }
  SQLite::Statement& statement_;
  int at_;
};

/// "018f..." of a blob column; empty for NULL.
[[nodiscard]] std::string id_of(const SQLite::Column& column);

/// Reads the EntryMetadata from the first columns of mark_columns().
void load_mark(SQLite::Statement& statement, EntryMetadata& mark);
[[nodiscard]] std::string mark_columns(const std::string& table);
inline constexpr int mark_column_count = 9;

/// SELECT ... FROM `rows` AS t, where `rows` is the table itself or its view of what stands now. `tail` is SQL from
/// WHERE on; it may name columns of t, and of the series s for readings.
template <class Entry>
std::string select(bool current, const std::string& tail) {
  const std::string table = Kind<Entry>::table;
  SelectList list;
  Entry sample;
  visit(sample, list);
  std::string sql = "SELECT " + mark_columns(table);
  for (const std::string& name : list.names) sql += ", " + name;
  sql += " FROM " + (current ? "current_" + table : table) + " AS t";
  if constexpr (std::same_as<Entry, Reading>) sql += " JOIN series AS s ON s.row = t.series";
  return sql + " " + tail;
}

template <class Entry>
Entry load(SQLite::Statement& statement) {
  Entry one;
  load_mark(statement, one.mark);
  visit(one, Loader(statement, mark_column_count));
  return one;
}

/// All rows of a select, with up to three whole numbers bound.
template <class Entry>
std::vector<Entry> load_all(Store::Connection& connection, const std::string& sql,
                            std::initializer_list<Row> bound = {}) {
  Query query(connection, sql);
  int at = 0;
  for (const Row value : bound) query->bind(++at, value);
  std::vector<Entry> found;
  while (query->executeStep()) found.push_back(load<Entry>(*query));
  return found;
}

/// The kinds of event that end a fill, as SQL lists them: "('harvested', 'emptied')".
[[nodiscard]] const std::string& kinds_that_end_a_fill();

/// Row of the first statement about the thing whose statement has this id. 0: there is none.
[[nodiscard]] Row thing_of(Store::Connection& connection, const char* table, const std::string& id);

}  // namespace stillheap::record
