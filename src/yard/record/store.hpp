#pragma once
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

/// The yard's one database file and the connection to it.
namespace stillheap::record {

/// "yard/site.toml" -> "yard/site.records.sqlite"
[[nodiscard]] std::filesystem::path store_path(const std::filesystem::path& site_file);

/// How much of the store is looked over when it is opened.
enum class Check {
  brief,  ///< everything but the readings, and those too while the file is under 32 MB: milliseconds
  whole   ///< integrity_check of all: most of a minute for five million readings
};

/// One connection. Not for two threads at once: each thread opens its own; they may write at the same time and wait
/// for each other up to `busy_timeout_ms`. Journal in WAL mode with synchronous = FULL: what was stored stays stored
/// when the program is killed or the power fails.
class Store {
 public:
  static constexpr int busy_timeout_ms = 5000;

  /// Opens the store, or makes it when `make` is set; brings an older one up to date (a copy of the old one is kept
  /// beside it as "<file>.v<version>"); checks it. Throws InputError when there is none and `make` is not set, or when
  /// the file is not a store or made by a newer program; RunError when it is damaged or cannot be written.
  [[nodiscard]] static Store open(const std::filesystem::path& file, bool make = true, Check check = Check::brief);

  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  [[nodiscard]] const std::filesystem::path& file() const noexcept;
  /// "yard/site.photos" for "yard/site.records.sqlite".
  [[nodiscard]] std::filesystem::path photo_folder() const;

  /// For the files of this folder only.
  struct Connection;
  [[nodiscard]] Connection& connection() const noexcept { return *connection_; }

 private:
  explicit Store(std::unique_ptr<Connection> connection);
  std::unique_ptr<Connection> connection_;
};

/// Several entries as one: all are stored by commit(), none when it is not reached.
class Transaction {
 public:
  explicit Transaction(Store& store);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  Store& store_;
  bool open_ = true;
};

/// A part of a Transaction that can be undone alone: all of it stays when keep() is reached, none of it otherwise.
class Savepoint {
 public:
  /// Only while a Transaction is open.
  explicit Savepoint(Store& store);
  Savepoint(const Savepoint&) = delete;
  Savepoint& operator=(const Savepoint&) = delete;
  ~Savepoint();
  void keep();

 private:
  Store& store_;
  bool open_ = true;
};

/// What is wrong with the store, by integrity_check and foreign_key_check; empty when it is whole.
[[nodiscard]] std::vector<std::string> find_damage(const Store& store, Check check = Check::whole);

/// Copies the store while others go on using it, and checks the copy. Never overwrites: throws InputError when
/// `target` is there already; RunError when it cannot be written.
void backup(const Store& store, const std::filesystem::path& target);

}  // namespace stillheap::record
