#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <random>

#include "record/invented.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/record/verify.hpp"

using namespace sunstrain::record;
using sunstrain::BadInput;
using sunstrain::tests::invented_entry;
namespace fs = std::filesystem;

namespace {

class Directory {
 public:
  Directory() : path_((fs::temp_directory_path() / "record-test-XXXXXX").string()) {
    REQUIRE(mkdtemp(path_.data()) != nullptr);
  }
  ~Directory() { fs::remove_all(path_); }
  std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

// A hand with a pen: any SQLite program, which takes the triggers away and puts them back.
class Meddler {
 public:
  explicit Meddler(const std::string& path) {
    REQUIRE(sqlite3_open(path.c_str(), &handle_) == SQLITE_OK);
    run("PRAGMA synchronous = OFF");
  }
  ~Meddler() { sqlite3_close(handle_); }
  bool tries(const std::string& sql) {
    return sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK;
  }
  void run(const std::string& sql) {
    const bool done = tries(sql);
    INFO(sql << ": " << sqlite3_errmsg(handle_));
    REQUIRE(done);
  }
  std::vector<std::string> column(const std::string& sql) {
    std::vector<std::string> found;
    const auto take = [](void* list, int, char** cells, char**) {
      static_cast<std::vector<std::string>*>(list)->emplace_back(cells[0] == nullptr ? "" : cells[0]);
      return 0;
    };
    REQUIRE(sqlite3_exec(handle_, sql.c_str(), take, &found, nullptr) == SQLITE_OK);
    return found;
  }
  void without_triggers(const std::string& sql) {
    const auto triggers = column("SELECT sql FROM sqlite_schema WHERE type = 'trigger'");
    for (const std::string& name : column("SELECT name FROM sqlite_schema WHERE type = 'trigger'"))
      run("DROP TRIGGER " + name);
    run("PRAGMA ignore_check_constraints = ON");
    run(sql);
    for (const std::string& trigger : triggers) run(trigger);
  }

 private:
  sqlite3* handle_ = nullptr;
};

// `entries` answers, of which every tenth corrects one, and in the middle an erasure of the second.
std::string made_record(const Directory& directory, std::int64_t entries) {
  const std::string path = directory.file("made.record");
  Store store(path, Store::Access::begin);
  for (std::int64_t i = 1; i <= entries; ++i) {
    NewEntry fresh = invented_entry(i);
    if (i % 10 == 0) fresh.entry.corrects = i - 5;
    store.add(fresh);
    if (i == entries / 2) {
      NewEntry erasure;
      erasure.entry.kind = "erasure";
      erasure.entry.made_utc = fresh.entry.made_utc;
      erasure.entry.erased = {{2, "customer"}, {2, "address"}};
      store.erase(erasure);
    }
  }
  return path;
}

Verified verified(const std::string& path, const std::vector<Head>& printed = {}) {
  return verify(Store(path, Store::Access::check), printed);
}

bool names(const Verified& found, std::int64_t entry) {
  return std::any_of(found.findings.begin(), found.findings.end(),
                     [&](const Finding& one) { return one.entry == entry; });
}

std::string words(const Verified& found) {
  std::string text;
  for (const Finding& one : found.findings) text += fmt::format("{}: {}\n", one.entry, said(one.what, {}));
  return text;
}

std::string copy_of(const std::string& path) {
  const std::string copy = path + ".copy";
  fs::copy_file(path, copy, fs::copy_options::overwrite_existing);
  return copy;
}

}  // namespace

TEST_CASE("Record: what was added is there, in order, and whole", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 30);
  const Store store(path, Store::Access::look);
  CHECK(store.head().entries == 31);
  const Entry entry = store.entry(7);
  CHECK(entry.pane == "window 7");
  CHECK(entry.result == invented_entry(7).entry.result);
  CHECK(store.apart(7).size() == 4);
  CHECK(store.corrected_by(5) == std::vector<std::int64_t>{10});
  CHECK(store.apart(2).size() == 2);  // the other two are erased
  CHECK_THROWS_AS(store.entry(32), BadInput);
  const Verified found = verified(path, {store.head()});
  CHECK(words(found) == "");
  CHECK(found.erased == 2);
  CHECK(found.head.hash == store.head().hash);
}

TEST_CASE("Record: find looks at what stands in and beside the chain", "[record]") {
  const Directory directory;
  const Store store(made_record(directory, 30), Store::Access::look);
  const auto found = [&](Store::Sought sought) { return store.find(sought); };
  CHECK(found({std::nullopt, "23 weir", {}, {}, {}, {}}) == std::vector<std::int64_t>{24});  // an erasure lies before
  CHECK(found({"customer 7", {}, {}, {}, {}, {}}) == std::vector<std::int64_t>{7});
  CHECK(found({"customer 2", {}, {}, {}, {}, {}}).size() == 10);  // 20 to 29; 2 itself is erased
  CHECK(found({{}, {}, "WINDOW 1", {}, {}, {}}).size() == 11);
  CHECK(found({{}, {}, {}, "4703", {}, {}}).size() == 4);
  CHECK(found({{}, {}, {}, {}, "2026-02-17", {}}).size() == 30);
  CHECK(found({{}, {}, {}, {}, "2026-02-18", {}}).empty());
  CHECK(found({{}, {}, {}, {}, {}, "2026-02-16"}).size() == 30);  // looked at on that day
  CHECK(found({{}, {}, {}, {}, {}, "2026-02-15"}).empty());
  CHECK(found({"customer 7", {}, {}, "4701", {}, {}}).empty());
  CHECK(found({"%", {}, {}, {}, {}, {}}).empty());  // no pattern, a text
}

TEST_CASE("Record: the file itself refuses a change", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 4);
  {
    Meddler meddler(path);
    for (const char* sql :
         {"UPDATE entries SET lot = 'x' WHERE number = 2", "DELETE FROM entries WHERE number = 5",
          "INSERT INTO entries SELECT 9, kind, made_utc, corrects, pane, lot, looked_on, program, tables, job, "
          "own_rules, weather, result, previous, hash FROM entries WHERE number = 1",
          "INSERT OR REPLACE INTO entries SELECT 2, kind, made_utc, corrects, pane, lot, looked_on, program, tables, "
          "job, own_rules, weather, result, previous, hash FROM entries WHERE number = 1",
          "UPDATE attachments SET sha256 = ''", "DELETE FROM attachments", "UPDATE sealed SET seal = ''",
          "DELETE FROM sealed", "UPDATE erased SET field = ''", "DELETE FROM erased", "UPDATE record SET mark = ''",
          "DELETE FROM record", "UPDATE apart SET text = x'00'", "DELETE FROM apart"}) {
      INFO(sql);
      CHECK_FALSE(meddler.tries(sql));
    }
  }
  CHECK(words(verified(path)) == "");
}

// The whole issue of a record: 200 changes at random places, one at a time, each found at its entry.
TEST_CASE("Record: each of 200 random changes to stored fields is found, with its entry", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 40);
  struct Field {
    const char *table, *column, *entry_of;
  };
  const std::vector<Field> fields{
      {"entries", "kind", "number"},      {"entries", "made_utc", "number"},  {"entries", "corrects", "number"},
      {"entries", "pane", "number"},      {"entries", "lot", "number"},       {"entries", "looked_on", "number"},
      {"entries", "program", "number"},   {"entries", "tables", "number"},    {"entries", "job", "number"},
      {"entries", "own_rules", "number"}, {"entries", "weather", "number"},   {"entries", "result", "number"},
      {"entries", "previous", "number"},  {"entries", "hash", "number"},      {"entries", "number", "number"},
      {"attachments", "place", "entry"},  {"attachments", "sha256", "entry"}, {"attachments", "bytes", "entry"},
      {"attachments", "entry", "entry"},  {"sealed", "field", "entry"},       {"sealed", "seal", "entry"},
      {"sealed", "entry", "entry"},       {"erased", "of_entry", "entry"},    {"erased", "field", "entry"},
      {"erased", "entry", "entry"},       {"apart", "field", "entry"},        {"apart", "salt", "entry"},
      {"apart", "text", "entry"},         {"apart", "entry", "entry"}};
  std::mt19937 chance(20260217);
  const auto below = [&](std::size_t end) { return std::uniform_int_distribution<std::size_t>(0, end - 1)(chance); };
  for (int i = 0; i < 200; ++i) {
    const Field& field =
        fields[static_cast<std::size_t>(i) < fields.size() ? static_cast<std::size_t>(i) : below(fields.size())];
    const std::string copy = copy_of(path);
    std::int64_t entry = 0;
    std::string sql;
    {
      Meddler meddler(copy);
      const auto rows = meddler.column(fmt::format("SELECT {} FROM {}", field.entry_of, field.table));
      const std::size_t row = below(rows.size());
      entry = std::stoll(rows[row]);
      const bool number =
          std::string_view("number corrects place bytes entry of_entry").find(field.column) != std::string_view::npos;
      const bool blob = std::string_view(field.table) == "apart" &&
                        (field.column == std::string_view("salt") || field.column == std::string_view("text"));
      const std::string changed =
          number ? fmt::format("ifnull({0}, 0) + {1}", field.column, 100 + below(900))
          : blob ? fmt::format("CAST({0} || x'{1:02x}' AS BLOB)", field.column, below(256))
                 : fmt::format("substr(ifnull({0}, ''), 1, {1}) || '#{2}' || substr(ifnull({0}, ''), {1} + 2)",
                               field.column, below(20), static_cast<char>('A' + below(26)));
      // With the key of the table, since rowid is not in all.
      const std::string where =
          field.table == std::string_view("entries")
              ? fmt::format("number = {}", entry)
              : fmt::format("entry = {0} AND {1} = (SELECT min({1}) FROM {2} WHERE entry = {0})", entry,
                            field.table == std::string_view("attachments") ? "place" : "field", field.table);
      sql = fmt::format("UPDATE {} SET {} = {} WHERE {}", field.table, field.column, changed, where);
      meddler.without_triggers(sql);
    }
    const Verified found = verified(copy);
    INFO(i << ": " << sql << "\n" << words(found));
    CHECK(names(found, entry));
  }
}

TEST_CASE("Record: entries dropped, in another order, cut off or put in are found", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 20);
  const Head printed = Store(path, Store::Access::look).head();
  const auto after = [&](const std::string& sql) {
    const std::string copy = copy_of(path);
    Meddler(copy).without_triggers(sql);
    return copy;
  };
  const auto gone = [](std::int64_t number) {
    return fmt::format(
        "DELETE FROM entries WHERE number = {0}; DELETE FROM attachments WHERE entry = {0}; DELETE FROM "
        "sealed WHERE entry = {0}; DELETE FROM erased WHERE entry = {0}; DELETE FROM apart WHERE entry = {0};",
        number);
  };
  const auto moved = [](std::int64_t from, std::int64_t to) {
    std::string sql = fmt::format("UPDATE entries SET number = {1} WHERE number = {0};", from, to);
    for (const char* table : {"attachments", "sealed", "erased", "apart"})
      sql += fmt::format("UPDATE {2} SET entry = {1} WHERE entry = {0};", from, to, table);
    return sql;
  };
  for (std::int64_t number = 1; number <= 21; ++number) {
    const std::string copy = after(gone(number));
    const Verified found = verified(copy, {printed});
    INFO(number << "\n" << words(found));
    CHECK_FALSE(found.findings.empty());
    if (number < 21) CHECK(names(found, number));
    if (number == 21) CHECK(words(verified(copy)).find("21") == std::string::npos);  // only paper finds a cut tail
  }
  const Verified closed = verified(after(gone(6) + moved(7, 6)));
  CHECK(names(closed, 6));
  const Verified swapped = verified(after(moved(8, 100) + moved(9, 8) + moved(100, 9)));
  CHECK(names(swapped, 8));
  CHECK(names(swapped, 9));
  const Verified tail = verified(after(gone(21) + gone(20) + gone(19)), {printed});
  CHECK(words(tail).find("19 to 21") != std::string::npos);
  CHECK(names(verified(after("INSERT INTO apart VALUES (3, 'other', x'00', x'00')")), 3));
  CHECK(names(verified(after("INSERT INTO sealed VALUES (3, 'other', 'x')")), 3));
  CHECK(names(verified(after("DELETE FROM apart WHERE entry = 5 AND field = 'by'")), 5));
  CHECK(names(verified(after("INSERT INTO apart VALUES (2, 'customer', x'00', x'00')")), 2));
}

TEST_CASE("Record: a chain reckoned anew is found by a printed head, and between which two of them", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 12);
  std::vector<Head> printed;
  {
    const Store store(path, Store::Access::look);
    for (const std::int64_t n : {3, 6, 9, 13}) printed.push_back({n, store.entry(n).hash});
    std::vector<Entry> entries;
    store.each(1, 13, [&](const Entry& entry) { entries.push_back(entry); });
    std::string sql;
    for (std::size_t i = 4; i < entries.size(); ++i) {
      if (i == 4) entries[i].lot = "another";
      entries[i].previous = entries[i - 1].hash;
      entries[i].hash = entry_hash(entries[i]);
      sql += fmt::format("UPDATE entries SET lot = {}, previous = '{}', hash = '{}' WHERE number = {};",
                         entries[i].lot ? "'" + *entries[i].lot + "'" : "NULL", entries[i].previous, entries[i].hash,
                         i + 1);
    }
    Meddler(path).without_triggers(sql);
  }
  CHECK(words(verified(path)) == "");  // nobody can tell without paper
  const Verified found = verified(path, printed);
  CHECK(found.findings.size() == 3);
  CHECK_FALSE(names(found, 3));
  CHECK(names(found, 6));
  CHECK(words(found).find("after entry 3") != std::string::npos);
  const Head other{0, beginning_of("another record")};
  CHECK_FALSE(verified(path, {other}).findings.empty());
}

TEST_CASE("Record: changed tables and files that are none are refused or found", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 4);
  Meddler(path).run("DROP TRIGGER entry_stays_1");
  CHECK(words(verified(path)).find("entry_stays_1 is gone") != std::string::npos);
  CHECK_THROWS_WITH(Store(path, Store::Access::add), Catch::Contains("tables were changed"));
  Meddler(path).run("PRAGMA user_version = 2");
  CHECK_THROWS_WITH(Store(path, Store::Access::look), Catch::Contains("newer sunstrain"));
  CHECK_THROWS_WITH(Store(directory.file("none"), Store::Access::add), Catch::Contains("no such record"));
  CHECK_FALSE(fs::exists(directory.file("none")));
  Meddler(directory.file("other")).run("CREATE TABLE t(x)");
  CHECK_THROWS_WITH(Store(directory.file("other"), Store::Access::begin), Catch::Contains("is no record"));
}

TEST_CASE("Record: what cannot be added leaves the record as it was", "[record]") {
  const Directory directory;
  const std::string path = made_record(directory, 4);
  const Head before = Store(path, Store::Access::look).head();
  Store store(path, Store::Access::add, 50);
  NewEntry wrong = invented_entry(1);
  wrong.entry.corrects = 6;
  CHECK_THROWS_WITH(store.add(wrong), Catch::Contains("no entry 6 to correct"));
  NewEntry erasure;
  erasure.entry.kind = "erasure";
  erasure.entry.made_utc = "2026-02-17T09:30:00Z";
  erasure.entry.erased = {{1, "customer"}, {4, "customer"}, {4, "other"}};
  CHECK_THROWS_WITH(store.erase(erasure), Catch::Contains("no other to erase"));
  {
    Meddler other(path);
    other.run("BEGIN IMMEDIATE");
    CHECK_THROWS_WITH(store.add(invented_entry(4)), Catch::Contains("another program holds it"));
  }
  CHECK(store.head().hash == before.hash);
  CHECK(words(verified(path, {before})) == "");
  CHECK(store.add(invented_entry(4)).entries == before.entries + 1);
}

TEST_CASE("Record: a large record is verified within seconds", "[record][slow]") {
  const char* asked = std::getenv("SUNSTRAIN_RECORD_ENTRIES");
  const std::int64_t entries = asked == nullptr ? 2000 : std::atoll(asked);
  const Directory directory;
  const std::string path = made_record(directory, entries);
  const Head head = Store(path, Store::Access::look).head();
  const std::clock_t start = std::clock();
  const Verified found = verified(path, {head});
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  WARN(entries << " entries, " << fs::file_size(path) / 1'000'000 << " MB: " << seconds << " s of processor time");
  CHECK(words(found) == "");
  CHECK(found.head.entries == entries + 1);
  CHECK(seconds < 5.0 * static_cast<double>(std::max<std::int64_t>(entries, 2000)) / 10'000.0);
}
