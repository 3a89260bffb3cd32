#include "sunstrain/record/verify.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>

#include "sunstrain/job.hpp"

namespace sunstrain::record {
namespace {

constexpr std::int64_t all = std::numeric_limits<std::int64_t>::max();

class Checking {
 public:
  Checking(const Store& store, std::span<const Head> printed) : store_(store), printed_(printed) {
    for (const Store::Taken& one : store.taken_out()) taken_[{one.what.entry, one.what.field}] = one.by;
  }

  Verified all_of_it() {
    stored_ = reckoned_ = beginning_of(store_.mark());
    for (const Head& head : printed_)
      if (head.entries == 0) against(head, stored_);
    try {
      store_.each(1, all, [&](const Entry& entry) { take(entry); });
      for (auto& [entry, what] : store_.stray_rows()) found(entry, what);
    } catch (const BadInput& error) {
      found(last_ + 1, saying("cannot be read, nor what comes after it: {}", error));
    }
    result_.head = {last_, stored_};
    result_.erased = static_cast<std::int64_t>(taken_.size());
    for (const Head& head : printed_)
      if (head.entries > last_)
        found(0, head.entries == last_ + 1
                     ? saying("entry {} of the printed sheet is gone", head.entries)
                     : saying("entries {} to {} of the printed sheet are gone", last_ + 1, head.entries));
    return result_;
  }

 private:
  void found(std::int64_t entry, Saying what) { result_.findings.push_back({entry, std::move(what)}); }

  // One change is one finding: the chain goes on from the entry as it is stored.
  void take(const Entry& entry) {
    missing_before(entry.number);
    const std::string hash = entry_hash(entry);
    if (hash != entry.hash)
      found(entry.number, "was changed: its fields do not give its hash");
    else if (entry.previous != stored_ && entry.previous != reckoned_ && entry.number == last_ + 1)
      found(entry.number, "does not follow on the entry before it, which is another than it was");
    for (const Head& head : printed_)
      if (head.entries == entry.number) against(head, entry.hash);
    check_apart(entry);
    if (entry.made_utc < made_utc_) result_.remarks.push_back({entry.number, "is dated before the entry before it"});
    last_ = entry.number;
    made_utc_ = entry.made_utc;
    stored_ = entry.hash;
    reckoned_ = hash;
  }

  void missing_before(std::int64_t number) {
    if (number == last_ + 2)
      found(last_ + 1, "is missing");
    else if (number != last_ + 1)
      found(last_ + 1, saying("is missing, and all up to entry {}", number - 1));
  }

  void check_apart(const Entry& entry) {
    std::map<std::string, const Store::Kept*> there;
    const std::vector<Store::Kept> fields = store_.apart(entry.number);
    for (const Store::Kept& one : fields) there[one.field] = &one;
    for (const Sealed& seal : entry.sealed) {
      const auto it = there.find(seal.field);
      const auto taken = taken_.find({entry.number, seal.field});
      if (it == there.end() && taken == taken_.end())
        found(entry.number, saying("its {} was taken out, and no entry says so", seal.field));
      if (it == there.end()) continue;
      if (seal_of(it->second->salt, seal.field, it->second->text) != seal.seal)
        found(entry.number, saying("its {} was changed", seal.field));
      if (taken != taken_.end())
        found(entry.number, saying("its {} is there, though entry {} erased it", seal.field, taken->second));
    }
  }

  void against(const Head& head, const std::string& hash) {
    if (head.hash == hash) {
      agreed_ = std::max(agreed_, head.entries);
      return;
    }
    const Saying since = agreed_ > 0 ? saying("after entry {}, where a printed head agrees", agreed_)
                                     : saying("an earlier printed head would narrow it down");
    found(head.entries,
          saying("is not the one of the printed head: it, or one before it, was changed and the hashes after it "
                 "reckoned anew, or the head is of another record ({})",
                 since));
  }

  const Store& store_;
  std::span<const Head> printed_;
  std::map<std::pair<std::int64_t, std::string>, std::int64_t> taken_;
  std::int64_t last_ = 0, agreed_ = 0;
  std::string stored_, reckoned_, made_utc_;
  Verified result_;
};

}  // namespace

Verified verify(const Store& store, std::span<const Head> printed) {
  Verified result;
  const std::optional<Saying> odd = store.odd_tables();
  store.within_one_moment([&] {
    try {
      result = Checking(store, printed).all_of_it();
    } catch (const BadInput& error) {
      if (!odd) throw;
      result.findings.push_back({0, saying("cannot be read on: {}", error)});
    }
  });
  if (odd) result.findings.insert(result.findings.begin(), {0, saying("its tables were changed: {}", *odd)});
  return result;
}

}  // namespace sunstrain::record
