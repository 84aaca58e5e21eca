#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "yard/record/check.hpp"
#include "yard/record/load.hpp"

/// What an entry refers to, and how its fields become columns. Only the files of this folder include this.
namespace stillheap::record {

/// A visitor that passes over every field; others take what concerns them.
class IgnoreFields {
 public:
  template <class T>
  void text(const char*, const T&) {}
  template <class T>
  void instant(const char*, const T&) {}
  template <class T>
  void number(const char*, const T&) {}
  template <class T>
  void maybe(const char*, const T&) {}
  template <class T>
  void count(const char*, const T&) {}
  template <class T>
  void measure(const char*, const T&) {}
  template <class T>
  void event(const char*, const T&) {}
  template <class T>
  void named(const char*, const T&, const char*) {}
  template <class T>
  void refer(const char*, const T&, const char*, bool) {}
};

/// Turns the ids an entry refers to into those of first statements.
class Resolve : public IgnoreFields {
 public:
  Resolve(Store::Connection& connection, const char* word, Problems& problems)
      : connection_(connection), word_(word), problems_(problems) {}
  void refer(const char* column, std::string& id, const char* table, bool must) {
    const std::string where = std::string(word_) + ": " + column;
    if (id.empty()) {
      if (must) problems_.push_back({where, "is missing", "name the " + std::string(column) + " it belongs to"});
      return;
    }
    const Row thing = thing_of(connection_, table, id);
    if (thing == 0) {
      problems_.push_back(
          {where, "= \"" + id + "\" is not in the records", "note the " + std::string(column) + " first"});
      return;
    }
    Query first(connection_, "SELECT id FROM " + std::string(table) + " WHERE row = ?");
    first->bind(1, thing);
    (void)first->executeStep();
    id = id_of(first->getColumn(0));
  }

 private:
  Store::Connection& connection_;
  const char* word_;
  Problems& problems_;
};

/// Refuses references to what has been withdrawn.
class Standing : public IgnoreFields {
 public:
  Standing(Store::Connection& connection, const char* word, Problems& problems)
      : connection_(connection), word_(word), problems_(problems) {}
  void named(const char* column, const std::string& name, const char* table) {
    if (name.empty()) return;
    Query query(connection_, "SELECT 1 FROM current_" + std::string(table) + " WHERE name = ?");
    query->bind(1, name);
    if (!query->executeStep()) add(column, "= \"" + name + "\" is not in the records", "note it first");
  }
  void refer(const char* column, const std::string& id, const char* table, bool) {
    if (id.empty()) return;
    Query query(connection_, "SELECT 1 FROM current_" + std::string(table) + " WHERE row = ?1 OR revises = ?1");
    query->bind(1, thing_of(connection_, table, id));
    if (!query->executeStep()) add(column, "has been withdrawn", "name one that stands");
  }

 private:
  void add(const char* column, const std::string& what, const std::string& mend) {
    problems_.push_back({std::string(word_) + ": " + column, what, mend});
  }
  Store::Connection& connection_;
  const char* word_;
  Problems& problems_;
};

/// Names and values of an entry's own columns.
class Values {
 public:
  explicit Values(Store::Connection& connection) : connection_(connection) {}
  void text(const char* column, const std::string& value) {
    add(column, [=](auto& to, int at) { to.bind(at, value); });
  }
  void instant(const char* column, Instant value) { whole(column, value.time_since_epoch().count()); }
  void number(const char* column, double value) {
    add(column, [=](auto& to, int at) { to.bind(at, value); });
  }
  void maybe(const char* column, const std::optional<double>& value) {
    add(column, [=](auto& to, int at) {
      if (value) to.bind(at, *value);
    });
  }
  void count(const char* column, long long value) { whole(column, value); }
  void measure(const char* column, Measure value) { text(column, std::string(info(value).key)); }
  void event(const char* column, EventKind value) { text(column, std::string(info(value).key)); }
  void refer(const char* column, const std::string& id, const char* table, bool) {
    if (!id.empty()) whole(column, thing_of(connection_, table, id));
  }
  void named(const char* column, const std::string& name, const char* table) {
    if (name.empty()) return;
    Query query(connection_, "SELECT thing FROM current_" + std::string(table) + " WHERE name = ?");
    query->bind(1, name);
    if (query->executeStep()) whole(column, query->getColumn(0).getInt64());
  }
  void whole(const char* column, Row value) {
    add(column, [=](auto& to, int at) { to.bind(at, value); });
  }

  [[nodiscard]] const std::vector<std::string>& columns() const noexcept { return columns_; }
  void bind_all(SQLite::Statement& statement, int first) const {
    for (const auto& one : binds_) one(statement, first++);
  }

 private:
  void add(const char* column, std::function<void(SQLite::Statement&, int)> bind) {
    columns_.emplace_back(column);
    binds_.push_back(std::move(bind));
  }
  Store::Connection& connection_;
  std::vector<std::string> columns_;
  std::vector<std::function<void(SQLite::Statement&, int)>> binds_;
};

}  // namespace stillheap::record
