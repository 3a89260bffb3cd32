// One entry of a record, and the bytes of which its hash is taken. Pure: no file, no clock, no chance.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunstrain::record {

// A file that goes with an entry. Its name stands outside the chain, and so do its bytes where they are kept.
struct Attachment {
  std::int64_t place = 0;  // 1, 2, 3 in the order given
  std::string sha256;      // of its bytes
  std::int64_t bytes = 0;
};

// What stands outside the chain (names, addresses, the job file as typed), as the chain knows it: seal_of().
struct Sealed {
  std::string field, seal;
};

// A field outside the chain that an entry of the kind "erasure" has taken out.
struct Erased {
  std::int64_t entry = 0;
  std::string field;
  bool operator==(const Erased&) const = default;
};

// An entry as it lies in the chain. Hashes are SHA-256 as 64 small hexadecimal digits.
struct Entry {
  std::int64_t number = 0;               // 1, 2, 3 without a gap
  std::string kind;                      // "answer" or "erasure"
  std::string made_utc;                  // "2026-02-17T09:30:00Z"
  std::optional<std::int64_t> corrects;  // the entry in whose place this one is
  std::optional<std::string> pane, lot;  // which pane, and the lot number of its film, as the user calls them
  std::optional<std::string> looked_on;  // the day the pane was looked at: "2026-02-16"
  std::optional<std::string> program;    // its version
  std::optional<std::string> tables;     // version of the reference tables and the SHA-256 of each, as JSON
  std::optional<std::string> job;        // keys and values as the engine took them, without names, as JSON
  std::optional<std::string> own_rules;  // the text of a file of the user's own rules
  std::optional<std::string> weather;    // SHA-256 of a weather file
  std::optional<std::string> result;     // the answer as JSON, without names
  std::vector<Attachment> attachments;   // by place
  std::vector<Sealed> sealed;            // by the name of the field
  std::vector<Erased> erased;            // by entry and field; of an erasure
  std::string previous;                  // the hash of the entry before, of the first beginning_of()
  std::string hash;                      // entry_hash() of all of the above
};

// The texts of an entry with the names under which they are hashed and stored, in the order of hashing.
struct EntryText {
  const char* name;
  std::optional<std::string> Entry::*text;
};
const std::vector<EntryText>& entry_texts();

// SHA-256 (FIPS 180-4), in hexadecimal. By OpenSSL's libcrypto. Throws std::runtime_error where that fails.
std::string sha256_hex(std::string_view bytes);

// The bytes of which an entry's hash is taken, form 1: a sequence of parts, each its length as eight bytes, the highest
// first, and then its bytes. First the part "sunstrain record entry, form 1"; then "number" and the number in decimal
// digits, "kind" and the kind, "made_utc" and the time; then "corrects" and every one of entry_texts(), each by its
// name and "1" and its text, or its name and "0" alone where there is none; then "attachments", how many, and for each
// its place, sha256 and bytes; "sealed", how many, and for each field and seal; "erased", how many, and
// for each entry and field; last "previous" and that hash. No two entries have the same bytes.
std::string canonical_bytes(const Entry& entry);

// sha256_hex(canonical_bytes(entry)).
std::string entry_hash(const Entry& entry);

// What stands in place of an entry before the first: the hash of the parts "sunstrain record beginning, form 1" and
// the record's own mark, drawn at random when it was begun, so that no two records have the same heads.
std::string beginning_of(std::string_view record_mark);

// The hash by which the chain knows a field outside of it: of the parts "sunstrain record seal, form 1", the salt, the
// field's name and its text. With the salt erased nobody can try out which text it was.
std::string seal_of(std::string_view salt, std::string_view field, std::string_view text);

}  // namespace sunstrain::record
