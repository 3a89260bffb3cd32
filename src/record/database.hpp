// Internal: SQLite as objects that close themselves, its errors as one line each.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sunstrain::record {

class Database {
 public:
  // `flags` of sqlite3_open_v2. Throws BadInput.
  Database(std::string path, int flags, int wait_ms);
  ~Database();
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  // Statements without answers. Throws BadInput.
  void run(const char* sql);
  bool read_only() const;
  // Throws BadInput: what went wrong just now, in words a user can act on.
  [[noreturn]] void refuse() const;

  sqlite3* handle() const { return handle_; }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
  sqlite3* handle_ = nullptr;
};

// One statement with its values. Texts that it is given must live as long as it does.
class Statement {
 public:
  Statement(Database& database, const char* sql);
  ~Statement();
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  Statement& text(std::string_view value);
  Statement& perhaps_text(const std::optional<std::string>& value);
  Statement& bytes(std::string_view value);
  Statement& number(std::int64_t value);
  Statement& perhaps_number(const std::optional<std::int64_t>& value);
  Statement& nothing();

  // Whether there is a (further) row. Throws BadInput.
  bool row();
  // For a statement without rows; it can then be given other values.
  void run();
  void again();

  std::string text_at(int column) const;  // and bytes
  std::optional<std::string> perhaps_text_at(int column) const;
  std::int64_t number_at(int column) const;
  std::optional<std::int64_t> perhaps_number_at(int column) const;

 private:
  void check(int code) const;
  Database& database_;
  sqlite3_stmt* handle_ = nullptr;
  int given_ = 0;
};

// All of it or nothing: undone unless committed.
class Transaction {
 public:
  Transaction(Database& database, const char* begin);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace sunstrain::record
