// Whether a record is as it was written.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "sunstrain/language.hpp"
#include "sunstrain/record/store.hpp"

namespace sunstrain::record {

struct Finding {
  std::int64_t entry;  // which entry; 0: the record as a whole
  Saying what;
};

struct Verified {
  Head head;                      // as it is now
  std::int64_t erased = 0;        // fields that were taken out, with an entry that says so
  std::vector<Finding> findings;  // empty: nothing was changed, as far as this can tell
  std::vector<Finding> remarks;   // odd, and no change: an entry dated before the one before it
};

// Reckons every entry's hash and every seal anew, and holds the chain against heads from earlier printed sheets. Any
// change of a stored field, a row added or taken out, entries dropped or put in another order is found, with the entry.
// Whoever can write to the file can reckon all hashes after a change anew, or cut off the last entries: only a printed
// head finds that. With several heads it says between which two of them the change lies.
Verified verify(const Store& store, std::span<const Head> printed);

}  // namespace sunstrain::record
