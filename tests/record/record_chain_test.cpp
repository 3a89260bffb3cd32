#include <catch2/catch.hpp>
#include <set>

#include "record/invented.hpp"

using namespace sunstrain::record;

// FIPS 180-4 examples of NIST's "Examples with intermediate values", and the standard's long one: one block, two
// blocks, a million times "a"; and the empty message of its test vectors (recalled, checked against a second library).
TEST_CASE("Record: SHA-256 gives the published digests", "[record]") {
  CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256_hex(std::string(1'000'000, 'a')) == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

namespace {

Entry some_entry() {
  Entry entry = sunstrain::tests::invented_entry(3).entry;
  entry.number = 3;
  entry.corrects = 2;
  entry.sealed = {{"address", std::string(64, 'a')}, {"by", std::string(64, 'b')}};
  entry.erased = {{1, "by"}, {2, "address"}};
  entry.previous = std::string(64, '0');
  return entry;
}

}  // namespace

TEST_CASE("Record: the bytes that are hashed are as the header says", "[record]") {
  Entry entry;
  entry.number = 7;
  entry.kind = "k";
  entry.made_utc = "t";
  entry.lot = "";
  entry.previous = "p";
  std::string expected;
  const auto part = [&](const std::string& text) {
    expected += std::string(7, '\0') + static_cast<char>(text.size()) + text;
  };
  for (const char* text : {"sunstrain record entry, form 1",
                           "number",
                           "7",
                           "kind",
                           "k",
                           "made_utc",
                           "t",
                           "corrects",
                           "0",
                           "pane",
                           "0",
                           "lot",
                           "1",
                           "",
                           "looked_on",
                           "0",
                           "program",
                           "0",
                           "tables",
                           "0",
                           "job",
                           "0",
                           "own_rules",
                           "0",
                           "weather",
                           "0",
                           "result",
                           "0",
                           "attachments",
                           "0",
                           "sealed",
                           "0",
                           "erased",
                           "0",
                           "previous",
                           "p"})
    part(text);
  CHECK(canonical_bytes(entry) == expected);
}

TEST_CASE("Record: no two entries have the same bytes", "[record]") {
  const Entry entry = some_entry();
  std::vector<Entry> others(22, entry);
  std::size_t i = 0;
  others[i++].number = 4;
  others[i++].kind = "erasure";
  others[i++].made_utc = "2026-02-17T09:30:01Z";
  others[i++].corrects = 1;
  others[i++].corrects.reset();
  for (const EntryText& one : entry_texts()) others[i++].*one.text = "other";
  others[i++].lot.reset();
  others[i].pane = "window 3lot";  // what moves from one field into the next
  others[i++].lot = " 4703";
  others[i++].attachments[0].place = 2;
  others[i++].attachments[0].bytes = 8;
  others[i++].attachments.clear();
  std::swap(others[i].sealed[0].seal, others[i].sealed[1].seal);
  ++i;
  others[i++].erased.pop_back();
  others[i].previous = std::string(63, '0') + "1";
  REQUIRE(i == others.size() - 1);
  std::set<std::string> bytes{canonical_bytes(entry)}, hashes{entry_hash(entry)};
  for (const Entry& one : others) {
    bytes.insert(canonical_bytes(one));
    hashes.insert(entry_hash(one));
  }
  CHECK(bytes.size() == others.size() + 1);
  CHECK(hashes.size() == others.size() + 1);
}

TEST_CASE("Record: an empty text is another than none, a seal hangs on salt, field and text", "[record]") {
  Entry none, empty;
  empty.pane = "";
  CHECK(entry_hash(none) != entry_hash(empty));
  const std::string seal = seal_of("salt", "by", "AB");
  CHECK(seal != seal_of("salu", "by", "AB"));
  CHECK(seal != seal_of("salt", "bz", "AB"));
  CHECK(seal != seal_of("salt", "by", "AC"));
  CHECK(seal != seal_of("saltb", "y", "AB"));
  CHECK(beginning_of("mark") != beginning_of("marl"));
}
