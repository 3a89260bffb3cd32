#include "sunstrain/io/csv_rows.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstring>

#include "sunstrain/job.hpp"

using namespace sunstrain;

namespace {

// A source that gives at most `piece` bytes at once.
CsvReader::Source source(std::string text, std::size_t piece) {
  return [text, piece, at = std::size_t{0}](char* to, std::size_t size) mutable {
    const std::size_t n = std::min({size, piece, text.size() - at});
    std::memcpy(to, text.data() + at, n);
    at += n;
    return n;
  };
}

std::vector<CsvRecord> rows(const std::string& text, std::size_t piece = 1000) {
  CsvReader reader(source(text, piece), "t.csv");
  std::vector<CsvRecord> all;
  for (CsvRecord row; reader.next(row);) all.push_back(row);
  return all;
}

std::vector<std::vector<std::string>> cells(const std::string& text, std::size_t piece = 1000) {
  std::vector<std::vector<std::string>> all;
  for (const CsvRecord& row : rows(text, piece)) {
    INFO(row.problem);
    CHECK(row.problem.empty());
    all.push_back(row.cells);
  }
  return all;
}

using Table = std::vector<std::vector<std::string>>;

}  // namespace

// The rules and their examples are those of RFC 4180, section 2.
TEST_CASE("a table of RFC 4180, in pieces of any size") {
  for (const std::size_t piece : {1U, 2U, 3U, 7U, 1000U}) {
    CAPTURE(piece);
    CHECK(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", piece) == Table{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx", piece) == Table{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(cells("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", piece) ==
          Table{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(cells("\"aaa\",\"b\"\"bb\",\"ccc\"", piece) == Table{{"aaa", "b\"bb", "ccc"}});
  }
}

TEST_CASE("what spreadsheets write beside it") {
  CHECK(cells("a;b\n0,45;x,y,z\n") == Table{{"a", "b"}, {"0,45", "x,y,z"}});
  CHECK(cells("a\tb\n0,45\t\"x\ty\"\n") == Table{{"a", "b"}, {"0,45", "x\ty"}});
  CHECK(cells("\xEF\xBB\xBF"
              "a,b\n1,2\n") == Table{{"a", "b"}, {"1", "2"}});
  CHECK(cells("a,b\r1,2\r") == Table{{"a", "b"}, {"1", "2"}});
  CHECK(cells("one\ntwo\n") == Table{{"one"}, {"two"}});
  CHECK(cells("\"a;b\",c\n1;2,3\n") == Table{{"a;b", "c"}, {"1;2", "3"}});
  // an inch mark inside a cell opens nothing
  CHECK(cells("a,b\n37 1/4\",60\"\n") == Table{{"a", "b"}, {"37 1/4\"", "60\""}});
  CHECK(cells("") == Table{});
  CHECK_THROWS_AS(rows(std::string("\xFF\xFE"
                                   "a\0",
                                   4)),
                  BadInput);
}

TEST_CASE("how a table is written is told from its first row") {
  CsvReader reader(source("\xEF\xBB\xBF\r\n a;b,c;d\r\n1;2\n", 3), "t.csv");
  CHECK(reader.separator() == ';');
  CHECK(reader.has_mark());
  CHECK(reader.line_end() == "\r\n");
  CsvReader plain(source("a,b\n1,2\r\n", 3), "t.csv");
  CHECK((plain.separator() == ',' && !plain.has_mark() && plain.line_end() == "\n"));
}

// ISO 8859-1: 0xE9 is e with acute, 0xBD one half. Code page 1252: 0x94 is the closing double quotation mark.
TEST_CASE("a row that is no UTF-8 is Latin-1") {
  CHECK(cells("caf\xE9,37 \xBD\x94\ncaf\xC3\xA9,x\n") == Table{{"caf\u00E9", "37 \u00BD\u201D"}, {"caf\u00E9", "x"}});
}

TEST_CASE("a spoiled row says so and stops no other") {
  const auto all = rows(std::string("a,b\n\"x\" y,1\n2,3\nz\0,1\n\"open,1\n4,5\n", 33));
  REQUIRE(all.size() == 6);
  CHECK(all[1].problem.find("behind a closing quote") != std::string::npos);
  CHECK(all[2].cells == std::vector<std::string>{"2", "3"});
  CHECK(all[3].problem.find("zero byte") != std::string::npos);
  CHECK(all[4].problem == "a quote is opened and never closed");
  CHECK(all[4].cells == std::vector<std::string>{"\"open,1"});
  CHECK((all[5].problem.empty() && all[5].cells == std::vector<std::string>{"4", "5"}));
  for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i].line == i + 1);
}

// The quote that opens in line 2 would be closed in line 4: neither row may take line 3 with it.
TEST_CASE("a quote that a later row closes spoils its own line only") {
  const auto all = rows("a,b\n\"open,1\n2,3\n\"x\",1\n");
  REQUIRE(all.size() == 4);
  CHECK_FALSE(all[1].problem.empty());
  CHECK(all[2].cells == std::vector<std::string>{"2", "3"});
  CHECK(all[3].cells == std::vector<std::string>{"x", "1"});
}

TEST_CASE("a line without end is one spoiled row, whatever its length") {
  const auto all = rows("a,b\n" + std::string(300'000, 'x') + "\r\n1,2\n", 4096);
  REQUIRE(all.size() == 3);
  CHECK(all[1].problem.find("longer than 65536 bytes") != std::string::npos);
  CHECK(all[1].cells.front().size() <= 65'536);
  CHECK((all[2].line == 3 && all[2].cells == std::vector<std::string>{"1", "2"}));
}

TEST_CASE("lines are counted through cells that hold line ends") {
  const auto all = rows("a,b\n\"1\n2\r\n3\",x\n\n4,5\n");
  REQUIRE(all.size() == 4);
  CHECK((all[1].line == 2 && all[2].line == 5 && all[3].line == 6));
  CHECK((all[2].blank() && !all[1].blank()));
}

TEST_CASE("a written row reads as it was") {
  const std::vector<std::string> odd{"", "a,b", "a;b", "\"", "\n", "\r\n", " x ", "37 1/4\"", "\t"};
  for (const char separator : {',', ';', '\t'}) {
    const std::string first = std::string("h") + separator + "h\n";
    const auto back = cells(first + csv_line(odd, separator, "\r\n"));
    REQUIRE(back.size() == 2);
    CHECK(back[1] == odd);
  }
}
