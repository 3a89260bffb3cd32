// What is read out of a record.
#include <map>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "database.hpp"
#include "schema.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/record/store.hpp"

namespace sunstrain::record {
namespace {

constexpr const char* columns =
    "SELECT number, kind, made_utc, corrects, pane, lot, looked_on, program, tables, job, own_rules, weather, result, "
    "previous, hash FROM entries WHERE number BETWEEN ? AND ? ORDER BY number";

Entry entry_of(const Statement& row) {
  Entry entry;
  entry.number = row.number_at(0);
  entry.kind = row.text_at(1);
  entry.made_utc = row.text_at(2);
  entry.corrects = row.perhaps_number_at(3);
  int column = 4;
  for (const EntryText& one : entry_texts()) entry.*one.text = row.perhaps_text_at(column++);
  entry.previous = row.text_at(column);
  entry.hash = row.text_at(column + 1);
  return entry;
}

}  // namespace

void Store::within_one_moment(const std::function<void()>& read) const {
  Transaction moment(*database_, "BEGIN");
  read();
}

void Store::each(std::int64_t from, std::int64_t to, const std::function<void(const Entry&)>& take) const {
  Statement rows(*database_, columns);
  rows.number(from).number(to);
  Statement files(*database_, "SELECT place, sha256, bytes FROM attachments WHERE entry = ? ORDER BY place");
  Statement seals(*database_, "SELECT field, seal FROM sealed WHERE entry = ? ORDER BY field");
  Statement erased(*database_, "SELECT of_entry, field FROM erased WHERE entry = ? ORDER BY of_entry, field");
  while (rows.row()) {
    Entry entry = entry_of(rows);
    for (files.number(entry.number); files.row();)
      entry.attachments.push_back({files.number_at(0), files.text_at(1), files.number_at(2)});
    for (seals.number(entry.number); seals.row();) entry.sealed.push_back({seals.text_at(0), seals.text_at(1)});
    for (erased.number(entry.number); erased.row();) entry.erased.push_back({erased.number_at(0), erased.text_at(1)});
    for (Statement* part : {&files, &seals, &erased}) part->again();
    take(entry);
  }
}

Entry Store::entry(std::int64_t number) const {
  std::optional<Entry> found;
  each(number, number, [&](const Entry& entry) { found = entry; });
  if (!found)
    throw BadInput(say("{}: there is no entry {}; it has {}", shown(path_, longest_path), number, head().entries));
  return *found;
}

static std::vector<Store::Kept> kept(Statement& rows) {
  std::vector<Store::Kept> fields;
  while (rows.row()) fields.push_back({rows.text_at(0), rows.text_at(1), rows.text_at(2)});
  return fields;
}

std::vector<Store::Kept> Store::apart(std::int64_t number) const {
  Statement rows(*database_, "SELECT field, salt, text FROM apart WHERE entry = ? ORDER BY field");
  return kept(rows.number(number));
}

std::vector<Store::Kept> Store::apart_in_words(std::int64_t number) const {
  Statement rows(*database_,
                 "SELECT field, salt, text FROM apart WHERE entry = ? AND field NOT GLOB 'attachment.*.bytes' ORDER BY "
                 "field");
  return kept(rows.number(number));
}

std::vector<std::int64_t> Store::corrected_by(std::int64_t number) const {
  Statement rows(*database_, "SELECT number FROM entries WHERE corrects = ? ORDER BY number");
  rows.number(number);
  std::vector<std::int64_t> numbers;
  while (rows.row()) numbers.push_back(rows.number_at(0));
  return numbers;
}

std::vector<Store::Taken> Store::taken_out() const {
  Statement rows(*database_, "SELECT entry, of_entry, field FROM erased ORDER BY entry, of_entry, field");
  std::vector<Taken> taken;
  while (rows.row()) taken.push_back({rows.number_at(0), {rows.number_at(1), rows.text_at(2)}});
  return taken;
}

std::vector<std::int64_t> Store::find(const Sought& sought) const {
  // Without a value a line holds for every entry.
  Statement rows(
      *database_,
      "SELECT number FROM entries WHERE kind = 'answer'"
      " AND (?1 IS NULL OR EXISTS (SELECT 1 FROM apart WHERE entry = number AND field = 'customer'"
      "   AND instr(lower(CAST(text AS TEXT)), lower(?1))))"
      " AND (?2 IS NULL OR EXISTS (SELECT 1 FROM apart WHERE entry = number AND field IN ('address', 'job.address')"
      "   AND instr(lower(CAST(text AS TEXT)), lower(?2))))"
      " AND (?3 IS NULL OR instr(lower(pane), lower(?3)) OR EXISTS (SELECT 1 FROM apart WHERE entry = number"
      "   AND field = 'job.name' AND instr(lower(CAST(text AS TEXT)), lower(?3))))"
      " AND (?4 IS NULL OR instr(lower(lot), lower(?4)))"
      " AND (substr(made_utc, 1, 10) BETWEEN ifnull(?5, '') AND ifnull(?6, '9')"
      "   OR looked_on BETWEEN ifnull(?5, '') AND ifnull(?6, '9'))"
      " ORDER BY number");
  rows.perhaps_text(sought.customer)
      .perhaps_text(sought.address)
      .perhaps_text(sought.pane)
      .perhaps_text(sought.lot)
      .perhaps_text(sought.from)
      .perhaps_text(sought.to);
  std::vector<std::int64_t> numbers;
  while (rows.row()) numbers.push_back(rows.number_at(0));
  return numbers;
}

std::optional<Saying> Store::odd_tables() const {
  std::map<std::string, std::string> found;
  Statement rows(*database_, "SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL");
  while (rows.row()) found[rows.text_at(0)] = rows.text_at(1);
  for (const TableText& one : table_texts()) {
    const auto it = found.find(one.name);
    if (it == found.end()) return saying("{} is gone", one.name);
    if (it->second != one.sql) return saying("{} is not as it was made", one.name);
    found.erase(it);
  }
  if (found.empty()) return std::nullopt;
  return saying("{} is none of its own", found.begin()->first);
}

std::vector<std::pair<std::int64_t, Saying>> Store::stray_rows() const {
  std::vector<std::pair<std::int64_t, Saying>> strays;
  const auto stray = [&](const char* sql, const Saying& what) {
    Statement rows(*database_, sql);
    while (rows.row()) strays.emplace_back(rows.number_at(0), saying(what.pattern, rows.text_at(1)));
  };
  stray("SELECT 0, count(*) FROM record HAVING count(*) <> 1", saying("the record has {} marks in place of one"));
  stray("SELECT entry, place FROM attachments WHERE entry NOT IN (SELECT number FROM entries)",
        saying("an attachment {} of no entry"));
  stray("SELECT entry, field FROM sealed WHERE entry NOT IN (SELECT number FROM entries)",
        saying("a seal ({}) of no entry"));
  stray("SELECT entry, field FROM erased WHERE entry NOT IN (SELECT number FROM entries)",
        saying("an erasure ({}) of no entry"));
  stray(
      "SELECT entry, field FROM apart AS a WHERE NOT EXISTS (SELECT 1 FROM sealed AS s WHERE s.entry = a.entry AND "
      "s.field = a.field)",
      saying("{} was put beside the entry afterwards"));
  return strays;
}

}  // namespace sunstrain::record
