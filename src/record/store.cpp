// Opening a record, and what adds to it.
#include "sunstrain/record/store.hpp"

#include <fmt/format.h>
#include <openssl/rand.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <stdexcept>
#include <tuple>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "database.hpp"
#include "schema.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::record {
namespace {

namespace fs = std::filesystem;

void require_file(const std::string& path, bool may_begin) {
  if (path.empty() || path.find('\0') != std::string::npos) throw BadInput("no record was named");
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  const bool missing = status.type() == fs::file_type::not_found;
  if (missing && !may_begin) refuse_file(path, "no such record; sunstrain record add --begin starts one");
  if (!missing && !fs::exists(status)) refuse_file(path, error.message());
  if (!missing && status.type() != fs::file_type::regular) refuse_file(path, "is no ordinary file; name another");
}

std::string by_chance(std::size_t size) {
  std::string bytes(size, '\0');
  if (RAND_bytes(reinterpret_cast<unsigned char*>(bytes.data()), static_cast<int>(size)) != 1)
    throw std::runtime_error("no random bytes are to be had");
  return bytes;
}

std::int64_t pragma(Database& database, const char* sql) {
  Statement statement(database, sql);
  return statement.row() ? statement.number_at(0) : 0;
}

bool has_no_tables(Database& database) {
  return pragma(database, "SELECT count(*) FROM sqlite_schema") == 0 && pragma(database, "PRAGMA user_version") == 0;
}

void require_form(Database& database) {
  const std::string& path = database.path();
  if (has_no_tables(database) && fs::file_size(path) == 0)
    refuse_file(path, "is an empty file, no record yet; sunstrain record add --begin starts one");
  if (pragma(database, "PRAGMA application_id") != application_id) refuse_file(path, "is no record");
  const std::int64_t found = pragma(database, "PRAGMA user_version");
  if (found > form)
    refuse_file(path, saying("is of form {}, made by a newer sunstrain; this one knows form {}", found, form));
  if (found != form) refuse_file(path, saying("says form {}, which there never was; this is form {}", found, form));
}

// Where two begin a record at once the second finds the first's.
void make_tables(Database& database) {
  Transaction whole(database, "BEGIN IMMEDIATE");
  if (!has_no_tables(database)) return;
  if (fs::file_size(database.path()) > 0)
    refuse_file(database.path(), "is no record");  // a few bytes of something else
  for (const TableText& one : table_texts()) database.run(one.sql);
  database.run(fmt::format("PRAGMA application_id = {}", application_id).c_str());
  database.run(fmt::format("PRAGMA user_version = {}", form).c_str());
  Statement(database, "INSERT INTO record VALUES (?)").text(sha256_hex(by_chance(32))).run();
  whole.commit();
}

void insert(Database& database, const Entry& entry) {
  Statement row(database, "INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  row.number(entry.number).text(entry.kind).text(entry.made_utc).perhaps_number(entry.corrects);
  for (const EntryText& one : entry_texts()) row.perhaps_text(entry.*one.text);
  row.text(entry.previous).text(entry.hash).run();
  Statement file(database, "INSERT INTO attachments VALUES (?, ?, ?, ?)");
  for (const Attachment& one : entry.attachments)
    file.number(entry.number).number(one.place).text(one.sha256).number(one.bytes).run();
  Statement seal(database, "INSERT INTO sealed VALUES (?, ?, ?)");
  for (const Sealed& one : entry.sealed) seal.number(entry.number).text(one.field).text(one.seal).run();
  Statement erased(database, "INSERT INTO erased VALUES (?, ?, ?)");
  for (const Erased& one : entry.erased) erased.number(entry.number).number(one.entry).text(one.field).run();
}

}  // namespace

Store::Store(std::string path, Access access, int wait_ms) : path_(std::move(path)) {
  require_file(path_, access == Access::begin);
  // Reading opens for writing as well: what a process that was killed had not finished is undone by the next to open.
  const int create = access == Access::begin ? SQLITE_OPEN_CREATE : 0;
  database_ = std::make_unique<Database>(path_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE | create, wait_ms);
  const bool writes = access == Access::add || access == Access::begin;
  if (writes && database_->read_only()) refuse_file(path_, "it is read-only; nothing was changed");
  sqlite3_db_config(database_->handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(database_->handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  database_->run("PRAGMA cell_size_check = ON");
  if (!writes) database_->run("PRAGMA query_only = ON");
  // One file on the disk, whatever is copied; synced with its directory before an entry is acknowledged; what is
  // erased is written over.
  if (writes) database_->run("PRAGMA journal_mode = DELETE; PRAGMA synchronous = EXTRA; PRAGMA secure_delete = ON");
  if (access == Access::begin && has_no_tables(*database_)) make_tables(*database_);
  require_form(*database_);
  if (access == Access::check) return;
  if (const auto odd = odd_tables())
    refuse_file(path_, saying("its tables were changed ({}); sunstrain record verify says what holds", *odd));
}

Store::~Store() = default;

Head Store::add_within(NewEntry& fresh) {
  Entry& entry = fresh.entry;
  const Head last = head();
  entry.number = last.entries + 1;
  entry.previous = last.hash;
  if (entry.corrects && (*entry.corrects < 1 || *entry.corrects > last.entries))
    refuse_file(path_, saying("there is no entry {} to correct; it has {}", *entry.corrects, last.entries));
  std::sort(fresh.apart.begin(), fresh.apart.end(), [](const Apart& a, const Apart& b) { return a.field < b.field; });
  std::vector<std::string> salts;
  for (const Apart& one : fresh.apart) {
    salts.push_back(by_chance(32));
    entry.sealed.push_back({one.field, seal_of(salts.back(), one.field, one.text)});
  }
  entry.hash = entry_hash(entry);
  insert(*database_, entry);
  Statement apart(*database_, "INSERT INTO apart VALUES (?, ?, ?, ?)");
  for (std::size_t i = 0; i < salts.size(); ++i)
    apart.number(entry.number).text(fresh.apart[i].field).bytes(salts[i]).bytes(fresh.apart[i].text).run();
  return {entry.number, entry.hash};
}

Head Store::add(NewEntry entry) {
  Transaction whole(*database_, "BEGIN IMMEDIATE");
  const Head head = add_within(entry);
  whole.commit();
  return head;
}

Head Store::erase(NewEntry erasure) {
  std::vector<Erased>& fields = erasure.entry.erased;
  std::sort(fields.begin(), fields.end(),
            [](const Erased& a, const Erased& b) { return std::tie(a.entry, a.field) < std::tie(b.entry, b.field); });
  const std::vector<Erased> gone = fields;
  Transaction whole(*database_, "BEGIN IMMEDIATE");
  const Head head = add_within(erasure);
  Statement out(*database_, "DELETE FROM apart WHERE entry = ? AND field = ?");
  for (const Erased& one : gone) {
    out.number(one.entry).text(one.field).run();
    if (sqlite3_changes(database_->handle()) != 1)
      refuse_file(path_, saying("entry {} has no {} to erase", one.entry, one.field));
  }
  whole.commit();
  return head;
}

std::string Store::mark() const {
  Statement mark(*database_, "SELECT mark FROM record");
  return mark.row() ? mark.text_at(0) : std::string();
}

Head Store::head() const {
  Statement last(*database_, "SELECT number, hash FROM entries ORDER BY number DESC LIMIT 1");
  return last.row() ? Head{last.number_at(0), last.text_at(1)} : Head{0, beginning_of(mark())};
}

}  // namespace sunstrain::record
