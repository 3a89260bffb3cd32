#include "schema.hpp"

namespace sunstrain::record {
namespace {

// STRICT: a text cannot become a number that reads the same.
constexpr const char* entries_sql =
    "CREATE TABLE entries(number INTEGER PRIMARY KEY CHECK(number >= 1), kind TEXT NOT NULL, made_utc TEXT NOT NULL, "
    "corrects INTEGER, pane TEXT, lot TEXT, looked_on TEXT, program TEXT, tables TEXT, job TEXT, own_rules TEXT, "
    "weather TEXT, result TEXT, previous TEXT NOT NULL, hash TEXT NOT NULL) STRICT";

}  // namespace

const std::vector<TableText>& table_texts() {
  // What is in the chain is neither changed nor taken out; an entry comes after the last one, its rows with it. What
  // stands apart goes only where an entry says that it went.
  static const std::vector<TableText> texts{
      {"record", "CREATE TABLE record(mark TEXT NOT NULL) STRICT"},
      {"entries", entries_sql},
      {"attachments",
       "CREATE TABLE attachments(entry INTEGER NOT NULL, place INTEGER NOT NULL, sha256 TEXT NOT NULL, bytes INTEGER "
       "NOT NULL, PRIMARY KEY(entry, place)) STRICT, WITHOUT ROWID"},
      {"sealed",
       "CREATE TABLE sealed(entry INTEGER NOT NULL, field TEXT NOT NULL, seal TEXT NOT NULL, PRIMARY KEY(entry, "
       "field)) STRICT, WITHOUT ROWID"},
      {"erased",
       "CREATE TABLE erased(entry INTEGER NOT NULL, of_entry INTEGER NOT NULL, field TEXT NOT NULL, PRIMARY KEY(entry, "
       "of_entry, field)) STRICT, WITHOUT ROWID"},
      {"apart",
       "CREATE TABLE apart(entry INTEGER NOT NULL, field TEXT NOT NULL, salt BLOB NOT NULL, text BLOB NOT NULL, "
       "PRIMARY "
       "KEY(entry, field)) STRICT"},
      {"record_stays_1",
       "CREATE TRIGGER record_stays_1 BEFORE UPDATE ON record BEGIN SELECT RAISE(ABORT, 'a record keeps its mark'); "
       "END"},
      {"record_stays_2",
       "CREATE TRIGGER record_stays_2 BEFORE DELETE ON record BEGIN SELECT RAISE(ABORT, 'a record keeps its mark'); "
       "END"},
      {"entry_stays_1",
       "CREATE TRIGGER entry_stays_1 BEFORE UPDATE ON entries BEGIN SELECT RAISE(ABORT, 'an entry is not changed; "
       "correct it by a new one'); END"},
      {"entry_stays_2",
       "CREATE TRIGGER entry_stays_2 BEFORE DELETE ON entries BEGIN SELECT RAISE(ABORT, 'an entry is not taken out'); "
       "END"},
      {"entry_is_next",
       "CREATE TRIGGER entry_is_next BEFORE INSERT ON entries WHEN NEW.number <> (SELECT ifnull(max(number), 0) + 1 "
       "FROM entries) BEGIN SELECT RAISE(ABORT, 'an entry comes after the last one'); END"},
      {"attachment_stays_1",
       "CREATE TRIGGER attachment_stays_1 BEFORE UPDATE ON attachments BEGIN SELECT RAISE(ABORT, 'an entry is not "
       "changed'); END"},
      {"attachment_stays_2",
       "CREATE TRIGGER attachment_stays_2 BEFORE DELETE ON attachments BEGIN SELECT RAISE(ABORT, 'an entry is not "
       "changed'); END"},
      {"seal_stays_1",
       "CREATE TRIGGER seal_stays_1 BEFORE UPDATE ON sealed BEGIN SELECT RAISE(ABORT, 'an entry is not changed'); END"},
      {"seal_stays_2",
       "CREATE TRIGGER seal_stays_2 BEFORE DELETE ON sealed BEGIN SELECT RAISE(ABORT, 'an entry is not changed'); END"},
      {"erasure_stays_1",
       "CREATE TRIGGER erasure_stays_1 BEFORE UPDATE ON erased BEGIN SELECT RAISE(ABORT, 'an entry is not changed'); "
       "END"},
      {"erasure_stays_2",
       "CREATE TRIGGER erasure_stays_2 BEFORE DELETE ON erased BEGIN SELECT RAISE(ABORT, 'an entry is not changed'); "
       "END"},
      {"apart_stays",
       "CREATE TRIGGER apart_stays BEFORE UPDATE ON apart BEGIN SELECT RAISE(ABORT, 'what stands apart is erased or "
       "stays'); END"},
      {"apart_goes_by_an_entry",
       "CREATE TRIGGER apart_goes_by_an_entry BEFORE DELETE ON apart WHEN NOT EXISTS (SELECT 1 FROM erased WHERE "
       "of_entry = OLD.entry AND field = OLD.field) BEGIN SELECT RAISE(ABORT, 'no entry says that this was erased'); "
       "END"}};
  return texts;
}

}  // namespace sunstrain::record
