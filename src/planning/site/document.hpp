#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/note.hpp"
#include "planning/site/setting.hpp"

/// A site file as read: every value beside its row of the table and its line, before it means anything.
namespace stillheap::site {

/// Collects what is wrong, so that everything is told at once.
struct Report {
  std::filesystem::path file;
  std::vector<Problem> problems;
  std::optional<std::string> text{};          ///< of the file, when it was read before
  std::vector<Setting> settings;              ///< put in place of the file's own values
  std::map<std::string, std::string> put_in;  ///< path of a value that was put in -> where it stands
};

/// Adds "file:line: path" with what was found and how to mend it.
void add(Report& report, int line, const std::string& path, std::string what, std::string mend);

/// One value, given or by default.
struct Value {
  const Key* key = nullptr;
  int line = 0;
  bool given = false;
  bool good = false;               ///< false when left out without default, or when something was wrong with it
  std::string written;             ///< as in the file, for messages: "\"24 in\""
  std::vector<double> numbers;     ///< SI
  std::vector<std::string> words;  ///< ids of shares; else the one text
  std::vector<int> lines;          ///< of the single shares
  bool by_volume = false;          ///< given by volume where mass is usual
};

/// The values of one section of the file, whether the file has it or not. Every key of the table is there.
struct Section {
  std::string schema;  ///< "vessel.channels"
  std::string path;    ///< "vessel.north.channels"
  int line = 1;
  bool present = false;
  std::map<std::string, Value, std::less<>> values;
};

/// A section with the ones below it (by their schema path).
struct Block {
  Section own;
  std::map<std::string, Section, std::less<>> parts;
};

/// Blocks by the schema path of their top section; those that are not repeated have exactly one.
struct Document {
  std::map<std::string, std::vector<Block>, std::less<>> blocks;
};

/// Reads the TOML and checks each value against its row; problems go to the report.
/// Throws InputError when the file cannot be read or is not TOML.
[[nodiscard]] Document read_document(Report& report);

/// The one of the words closest to a mistyped one; empty when none is close.
[[nodiscard]] std::string nearest(std::string_view mistyped, const std::vector<std::string>& known);

}  // namespace stillheap::site
