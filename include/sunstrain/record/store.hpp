// The record: a file of entries, each chained to the one before it, to which one can only add. SQLite.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "sunstrain/language.hpp"
#include "sunstrain/record/entry.hpp"

namespace sunstrain::record {

// What a printed sheet carries so that the record can be held against it later.
struct Head {
  std::int64_t entries = 0;
  std::string hash;  // of the last entry; of an empty record beginning_of() its mark
};

// Text outside the chain: what is about people. Field names: "customer", "address", "by", "job_file", a personal job
// key such as "job.name", "attachment.1.name", "attachment.1.bytes".
struct Apart {
  std::string field, text;
};

// An entry to be: number, previous, hash, and the seals of what stands apart are the store's to make.
struct NewEntry {
  Entry entry;
  std::vector<Apart> apart;  // in any order, each field once
};

class Database;

class Store {
 public:
  // add: what there is. begin: begins a record where there is no file, or an empty one. look: for reading alone. check:
  // the same, whatever became of the tables.
  enum class Access { add, begin, look, check };

  // Waits so long for another process that is writing. Throws BadInput in one line: no such file, no record, made by a
  // newer program, tables that are not as they were made, not to be read or written.
  Store(std::string path, Access access, int wait_ms = 10'000);
  ~Store();
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;

  // Adds the entry and returns once it will be there whatever happens next, a power cut included. Throws BadInput where
  // it cannot be: the disk is full, the file is read-only, another process holds it, it corrects or erases an entry
  // that is not there. Nothing has then been changed.
  Head add(NewEntry entry);

  // Takes these fields out of what stands outside the chain and adds an entry, of the kind "erasure", that says so.
  // Throws BadInput as add() does, also where a field is not there.
  Head erase(NewEntry erasure);

  Head head() const;
  std::string mark() const;

  // Whatever is read within belongs to one moment: other processes' entries wait, or wait to show.
  void within_one_moment(const std::function<void()>& read) const;

  // Entries `from` to `to` in their order, as they are stored.
  void each(std::int64_t from, std::int64_t to, const std::function<void(const Entry&)>& take) const;
  // Throws BadInput where there is no such entry.
  Entry entry(std::int64_t number) const;

  // What stands outside the chain of an entry, with its salt, by the name of the field.
  struct Kept {
    std::string field, salt, text;
  };
  std::vector<Kept> apart(std::int64_t number) const;
  // The same without attachments' bytes.
  std::vector<Kept> apart_in_words(std::int64_t number) const;
  // The entries that correct this one, in order.
  std::vector<std::int64_t> corrected_by(std::int64_t number) const;
  // Every field that an erasure has taken out, and the entry that did.
  struct Taken {
    std::int64_t by;
    Erased what;
  };
  std::vector<Taken> taken_out() const;

  // Entries of which all that is given holds, in order. Texts are looked for anywhere in a field, capitals A to Z like
  // small letters; days are inclusive, and an entry has two: the one it was made on (UTC) and the one the pane was
  // looked at.
  struct Sought {
    std::optional<std::string> customer, address, pane, lot, from, to;
  };
  std::vector<std::int64_t> find(const Sought& sought) const;

  // How the file's tables differ from those that Store makes, in words; nothing where they do not.
  std::optional<Saying> odd_tables() const;
  // Rows that belong to no entry, and seals of none, in words; the entry they name, 0 where they name none.
  std::vector<std::pair<std::int64_t, Saying>> stray_rows() const;

  const std::string& path() const { return path_; }

 private:
  Head add_within(NewEntry& entry);
  std::string path_;
  std::unique_ptr<Database> database_;
};

}  // namespace sunstrain::record
