#include "database.hpp"

#include <cstring>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::record {
namespace {

// Nothing for what has no words of its own.
std::optional<Saying> reason(int code, int system_error) {
  const char* system = system_error != 0 ? std::strerror(system_error) : "-";
  switch (code) {
    case SQLITE_FULL:
      return saying("the disk is full; nothing was changed");
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return saying("another program holds it and did not let go; nothing was changed, try again");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return saying("it, or its directory, is read-only; nothing was changed");
    case SQLITE_CANTOPEN:
      return saying("it, or the journal beside it, cannot be opened or written ({}); nothing was changed", system);
    case SQLITE_AUTH:
      return saying("not allowed");
    case SQLITE_NOTADB:
      return saying("is no record");
    case SQLITE_CORRUPT:
      return saying("the file is damaged");
    case SQLITE_IOERR:
      return saying("the disk failed ({}); sunstrain record list shows what is there", system);
    case SQLITE_TOOBIG:
      return saying("more than fits into one entry; nothing was changed");
    default:
      return std::nullopt;
  }
}

}  // namespace

Database::Database(std::string path, int flags, int wait_ms) : path_(std::move(path)) {
  const int code = sqlite3_open_v2(path_.c_str(), &handle_, flags, nullptr);
  if (handle_ == nullptr) throw std::bad_alloc();
  if (code != SQLITE_OK) {
    try {
      refuse();
    } catch (...) {
      sqlite3_close(handle_);
      throw;
    }
  }
  sqlite3_busy_timeout(handle_, wait_ms);
}

Database::~Database() { sqlite3_close(handle_); }

void Database::run(const char* sql) {
  if (sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr) != SQLITE_OK) refuse();
}

bool Database::read_only() const { return sqlite3_db_readonly(handle_, "main") == 1; }

void Database::refuse() const {
  const auto known = reason(sqlite3_errcode(handle_) & 0xFF, sqlite3_system_errno(handle_));
  throw BadInput(say("{}: {}", shown(path_, longest_path), known ? *known : part_of_saying(sqlite3_errmsg(handle_))));
}

Statement::Statement(Database& database, const char* sql) : database_(database) {
  check(sqlite3_prepare_v2(database.handle(), sql, -1, &handle_, nullptr));
}

Statement::~Statement() { sqlite3_finalize(handle_); }

void Statement::check(int code) const {
  if (code != SQLITE_OK) database_.refuse();
}

Statement& Statement::text(std::string_view value) {
  check(sqlite3_bind_text64(handle_, ++given_, value.data(), value.size(), SQLITE_STATIC, SQLITE_UTF8));
  return *this;
}

Statement& Statement::perhaps_text(const std::optional<std::string>& value) { return value ? text(*value) : nothing(); }

Statement& Statement::bytes(std::string_view value) {
  check(sqlite3_bind_blob64(handle_, ++given_, value.data(), value.size(), SQLITE_STATIC));
  return *this;
}

Statement& Statement::number(std::int64_t value) {
  check(sqlite3_bind_int64(handle_, ++given_, value));
  return *this;
}

Statement& Statement::perhaps_number(const std::optional<std::int64_t>& value) {
  return value ? number(*value) : nothing();
}

Statement& Statement::nothing() {
  check(sqlite3_bind_null(handle_, ++given_));
  return *this;
}

bool Statement::row() {
  const int code = sqlite3_step(handle_);
  if (code != SQLITE_ROW && code != SQLITE_DONE) database_.refuse();
  return code == SQLITE_ROW;
}

void Statement::run() {
  row();
  again();
}

void Statement::again() {
  sqlite3_reset(handle_);
  sqlite3_clear_bindings(handle_);
  given_ = 0;
}

std::string Statement::text_at(int column) const {
  const void* bytes = sqlite3_column_blob(handle_, column);
  const int size = sqlite3_column_bytes(handle_, column);
  return bytes == nullptr ? std::string()
                          : std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

std::optional<std::string> Statement::perhaps_text_at(int column) const {
  if (sqlite3_column_type(handle_, column) == SQLITE_NULL) return std::nullopt;
  return text_at(column);
}

std::int64_t Statement::number_at(int column) const { return sqlite3_column_int64(handle_, column); }

std::optional<std::int64_t> Statement::perhaps_number_at(int column) const {
  if (sqlite3_column_type(handle_, column) == SQLITE_NULL) return std::nullopt;
  return number_at(column);
}

Transaction::Transaction(Database& database, const char* begin) : database_(database) { database_.run(begin); }

Transaction::~Transaction() {
  if (open_ && sqlite3_get_autocommit(database_.handle()) == 0)
    sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  database_.run("COMMIT");
  open_ = false;
}

}  // namespace sunstrain::record
