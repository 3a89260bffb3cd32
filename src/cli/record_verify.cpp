// sunstrain record verify and erase.
#include <fmt/format.h>

#include <set>

#include "../report/words.hpp"
#include "record_options.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/record/verify.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;
using namespace report;

const Saying& not_proved() {
  static const Saying text = saying(
      "that what was entered was true, or entered when it happened; and, but for a head printed earlier and kept apart "
      "from the record (--head, --entries), that nobody changed an entry and reckoned all hashes after it anew, or cut "
      "off the last entries.");
  return text;
}

std::vector<record::Head> printed_heads(const po::variables_map& given) {
  const Texts hashes = texts_of(given, "head"), entries = texts_of(given, "entries");
  if (hashes.size() != entries.size())
    throw BadInput("--head and --entries: give both of the same printed sheet, as often as there are sheets");
  std::vector<record::Head> heads;
  for (std::size_t i = 0; i < hashes.size(); ++i) {
    const std::int64_t count = entries[i] == "0" ? 0 : number_among_entries(entries[i], "--entries");
    heads.push_back({count, ungrouped(hashes[i], "head")});
  }
  return heads;
}

Json findings_json(const std::vector<record::Finding>& findings) {
  Json list = Json::array();
  for (const record::Finding& one : findings) list.push_back({{"entry", one.entry}, {"what", said(one.what, {})}});
  return list;
}

std::string finding_line(const std::string& label, const record::Finding& finding, const Paper& paper) {
  const std::string what = said(finding.what, paper.language());
  return paper.line(label, finding.entry > 0 ? tell(paper.language(), "entry {} {}", finding.entry, what) : what);
}

std::string verified_text(const record::Verified& found, const std::vector<record::Head>& printed, const Paper& paper) {
  const Language& language = paper.language();
  std::string text;
  for (const record::Finding& one : found.findings) text += finding_line(tell(language, "CHANGED"), one, paper);
  if (found.findings.empty())
    text += paper.line(tell(language, "Whole"),
                       printed.empty() ? tell(language,
                                              "every entry, and what stands beside it, gives its hash, and "
                                              "each follows on the one before")
                                       : tell(language,
                                              "every entry gives its hash and follows on the one before; the "
                                              "printed heads are in it"));
  for (const record::Finding& one : found.remarks) text += finding_line(tell(language, "Odd"), one, paper);
  if (found.erased > 0)
    text += paper.line(tell(language, "Erased"),
                       tell(language, "{} fields beside the chain, by entries that say so", found.erased));
  return text + paper.head(found.head) + paper.line("", tell(language, "Put both on paper that leaves the house.")) +
         paper.line(tell(language, "Not proved"), said(not_proved(), language));
}

}  // namespace

po::options_description record_verify_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("head", po::value<Texts>()->value_name("HASH")->composing(),
                    "a head off an earlier sheet, blanks or not; repeat both")(
      "entries", po::value<Texts>()->value_name("N")->composing(), "how many entries that sheet says there were");
  add_print_options(all);
  return all;
}

Outcome record_verify(const Words& words) {
  const po::variables_map given = read_options(words, record_verify_options(), nullptr, "record");
  const std::vector<record::Head> printed = printed_heads(given);
  const record::Store store(record_path(given), record::Store::Access::check);
  const record::Verified found = record::verify(store, printed);
  const Exit exit = found.findings.empty() ? ran : failed_on;
  if (given.count("json") == 0) return {verified_text(found, printed, paper_of(given)), exit};
  return {Json{{"schema", "sunstrain-record-verified-1"},
               {"whole", found.findings.empty()},
               {"findings", findings_json(found.findings)},
               {"remarks", findings_json(found.remarks)},
               {"erased_fields", found.erased},
               {"heads_held_against_it", printed.size()},
               {"head", {{"entries", found.head.entries}, {"hash", found.head.hash}}},
               {"not_proved", said(not_proved(), {})}}
                  .dump(2) +
              "\n",
          exit};
}

po::options_description record_erase_options() {
  po::options_description all("Options");
  add_record_option(all);
  all.add_options()("by", po::value<std::string>()->value_name("WHO"), "who erases")(
      "recorder-too", "also who recorded the entries; left out, that stays");
  add_print_options(all);
  return all;
}

Outcome record_erase(const Words& words) {
  const po::variables_map given = read_options(words, record_erase_options(), "number", "record");
  std::set<std::int64_t> numbers;
  for (const std::string& word : texts_of(given, "number")) numbers.insert(number_among_entries(word, "record erase"));
  if (numbers.empty()) throw BadInput("record erase: name the entries by their numbers; record find looks them up");
  record::Store store(record_path(given), record::Store::Access::add);
  record::NewEntry fresh;
  fresh.entry.kind = "erasure";
  fresh.entry.made_utc = utc_now();
  fresh.entry.program = SUNSTRAIN_VERSION;
  for (const std::int64_t number : numbers) {
    store.entry(number);  // refuses one that is not there
    for (const record::Store::Kept& one : store.apart(number))
      if (one.field != "by" || given.count("recorder-too") > 0) fresh.entry.erased.push_back({number, one.field});
  }
  if (fresh.entry.erased.empty()) throw BadInput("record erase: nothing is left there to erase");
  if (const std::string by = text_of(given, "by", ""); !by.empty()) fresh.apart.push_back({"by", by});
  const std::size_t fields = fresh.entry.erased.size();
  const record::Head head = store.erase(std::move(fresh));
  if (given.count("json") > 0)
    return {Json{{"schema", "sunstrain-record-erased-1"},
                 {"entry", head.entries},
                 {"fields", fields},
                 {"head", {{"entries", head.entries}, {"hash", head.hash}}}}
                .dump(2) +
            "\n"};
  const Paper paper = paper_of(given);
  const Language& language = paper.language();
  return {paper.line(tell(language, "Erased"),
                     tell(language,
                          "{} fields, and written over; entry {} says so. Copies and backups of the record, and "
                          "printed sheets, are not reached.",
                          fields, head.entries)) +
          paper.head(head)};
}

}  // namespace sunstrain::cli
