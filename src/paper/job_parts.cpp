// What the sheet is about, what was entered, and what was not known.
#include <fmt/format.h>

#include <algorithm>

#include "../report/type_answer.hpp"
#include "../report/words.hpp"
#include "parts.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain::paper {
namespace {

// Keys in the order of the key table; those of lites and cavities one after another.
std::vector<std::string> keys_of(const Job& job, const Reference& reference) {
  std::vector<std::string> keys;
  for (const JobKey& row : reference.job_keys)
    for (const std::string& key : concrete_keys(row.name))
      if (!row.personal && speaks_of(job, key) && row.name != "job.date" &&
          std::find(keys.begin(), keys.end(), key) == keys.end())
        keys.push_back(key);
  return keys;
}

std::string value_words(const Parts& p, const std::string& key) {
  const auto known = p.answer().job.partly.find(key);
  return known == p.answer().job.partly.end()
             ? report::value_text(p.reference, key, p.answer().job.values.at(key), p.units())
             : report::value_text(p.reference, key, known->second, p.units());
}

bool matters(const UnknownTaken& unknown) { return unknown.decided || unknown.taken_bad != unknown.taken_middle; }

std::string readings_words(const UnknownTaken& unknown, const Parts& p) {
  std::string words;
  for (const Reading& reading : unknown.readings)
    words += fmt::format("{}{}: {} ({})", words.empty() ? "" : "; ",
                         report::value_text(p.reference, unknown.key, reading.value, p.units()),
                         report::verdict_words(p.language(), reading.verdict), share_words(reading.stress_ratio));
  return words;
}

template <class Wanted>
Html keys_told(const Parts& p, Wanted wanted) {
  Named rows;
  for (const std::string& key : keys_of(p.answer().job, p.reference))
    if (wanted(*find_job_key(p.reference.job_keys, key)))
      rows.emplace_back(report::key_words(p.language(), key), typed(value_words(p, key)));
  Html all = facts(rows, "entered");
  if (const auto note = word_of(p.answer().job, "job.note"))
    all += element("p", element("b", tell(p.language(), "Note of the job") + ": ") + typed(*note), classed("small"));
  return all;
}

}  // namespace

Named about(const Parts& p) {
  const Language& l = p.language();
  const Job& job = p.answer().job;
  const auto word = [&](const char* key) { return word_of(job, key).value_or(""); };
  Named rows;
  add_typed(rows, tell(l, "Pane"), pane_name(p.pane, l));
  if (p.pane.quantity != 1.0) add_typed(rows, tell(l, "How many"), report::panes_text(p.pane.quantity, l));
  add_typed(rows, tell(l, "Film"), word("film.name"));
  add_typed(rows, tell(l, "Customer"), p.papers.customer);
  add_typed(rows, tell(l, "Address"), p.papers.address.empty() ? word("job.address") : p.papers.address);
  add_typed(rows, tell(l, "Looked at on"), word("job.date"));
  add_typed(rows, tell(l, "Made by"), made_by_words(p.papers));
  add_typed(rows, tell(l, "Date of this sheet"), p.style.date);
  return rows;
}

Html entered(const Parts& p) {
  return keys_told(p, [](const JobKey&) { return true; });
}

Html entered_in_plain(const Parts& p) {
  return keys_told(p, [](const JobKey& row) {
    const bool of_sheet = (row.name.starts_with("film.") || row.name.starts_with("second_film.")) &&
                          (row.kind == JobKey::Kind::fraction || row.name.ends_with("reference_glass"));
    return !of_sheet && (!row.name.starts_with("site.") || row.name == "site.place");
  });
}

Html not_known_briefly(const Parts& p) {
  const Language& l = p.language();
  if (p.answer().unknowns.empty()) return element("p", tell(l, "Everything that the pane needs was entered."));
  std::vector<Html> decided, usual;
  for (const UnknownTaken& u : p.answer().unknowns) {
    const auto value = [&](const Value& v) { return report::value_text(p.reference, u.key, v, p.units()); };
    const std::string key = report::key_words(l, u.key);
    if (matters(u))
      decided.push_back(element("b", key) +
                        text(": " + tell(l, "taken as {}; most likely {}, which gives {:.2f}", value(u.taken_bad),
                                         value(u.taken_middle), u.ratio_at_middle)));
    else
      usual.push_back(text(key + ": " + value(u.taken_bad)));
  }
  Html all;
  if (!decided.empty()) all += list(decided, "run-in");
  if (!usual.empty())
    all += element("p", tell(l, "Not known either, and taken as usual in both runs:"), classed("small")) +
           list(usual, "run-in");
  return all;
}

Html not_known(const Parts& p) {
  const Language& l = p.language();
  if (p.answer().unknowns.empty()) return element("p", tell(l, "Everything that the pane needs was entered."));
  Table t;
  t.kind = "unknowns";
  t.heads = {tell(l, "not known"), tell(l, "bad end"), tell(l, "middle run"), tell(l, "why so, and what it does")};
  std::vector<Html> usual;
  for (const UnknownTaken& u : p.answer().unknowns) {
    const auto value = [&](const Value& v) { return report::value_text(p.reference, u.key, v, p.units()); };
    if (!matters(u)) {
      usual.push_back(text(tell(l, "{}: {} ({})", report::key_words(l, u.key), value(u.taken_bad), u.why)));
      continue;
    }
    std::string does = u.why + "; " + tell(l, "at its middle value {:.2f}", u.ratio_at_middle);
    if (u.decided) does += tell(l, ", decided");
    if (!u.readings.empty()) does += ". " + readings_words(u, p);
    t.rows.push_back(
        {text(report::key_words(l, u.key)), text(value(u.taken_bad)), text(value(u.taken_middle)), text(does)});
  }
  Html all = t.rows.empty() ? Html{} : table(t);
  if (usual.empty()) return all;
  return all + element("p", tell(l, "Not known either, and taken as usual in both runs:"), classed("small")) +
         list(usual, "run-in");
}

Html assumed(const Parts& p) {
  const Language& l = p.language();
  std::vector<Html> worst, usual;
  for (const UnknownTaken& u : p.answer().unknowns) {
    const std::string words =
        report::key_words(l, u.key) + ": " + report::value_text(p.reference, u.key, u.taken_bad, p.units());
    (matters(u) ? worst : usual).push_back(text(words));
  }
  Html all;
  if (!worst.empty())
    all += element("p", tell(l, "Nobody could tell, so the worst that may well be was taken:")) + list(worst, "run-in");
  if (!usual.empty())
    all += element("p", tell(l, "Nobody could tell either; what is usual was taken:")) + list(usual, "run-in");
  if (worst.empty() && usual.empty()) all += element("p", tell(l, "Everything that the pane needs was entered."));
  return all +
         element("p", tell(l, "The answer holds for the pane, the room and the shade as they are described here."));
}

}  // namespace sunstrain::paper
