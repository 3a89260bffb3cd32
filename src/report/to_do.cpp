#include "sunstrain/report/to_do.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sunstrain/job_keys.hpp"
#include "words.hpp"

namespace sunstrain {
using namespace report;

namespace {

std::string settle_one(const std::string& key_name, const Reference& reference, bool how) {
  const JobKey* key = find_job_key(reference.job_keys, key_name);
  std::string text =
      tell(reference.language, "Don't cut film yet. Settle one thing: {}.", key_words(reference.language, key_name));
  if (key != nullptr && !key->question.empty() && how) text += " " + key->question;
  return text;
}

std::string settle_rule(const Rule& rule, const Language& language) {
  return rule.users_own
             ? tell(language, "Don't cut film yet. The figures are fine; {} asks you to settle: {}",
                    rule_name(language, rule), rule.text)
             : tell(language, "Don't cut film yet. The figures are fine; trade guidance asks you to settle: {}",
                    rule.text);
}

}  // namespace

std::string to_do(const Assessment& a, const Reference& reference, bool how) {
  const Language& language = reference.language;
  if (a.verdict == Verdict::go)
    return tell(language, "Nothing found against this film on this pane in what was entered.");
  const auto worst_rule =
      std::find_if(a.rules.begin(), a.rules.end(), [](const Rule& r) { return r.severity != Severity::note; });
  if (a.verdict == Verdict::refer)
    return tell(language, "Don't cut film. The film or glass maker decides about this pane: send them the figures.");
  const bool decided = !a.unknowns.empty() && a.unknowns.front().decided;
  if (worst_rule == a.rules.end() && (decided || (a.figures == Verdict::go && !a.open_rules.empty()))) {
    const std::string& key = decided ? a.unknowns.front().key : a.open_rules.front().key;
    const bool alone =
        std::all_of(a.open_rules.begin(), a.open_rules.end(), [&](const OpenRule& open) { return open.key == key; });
    if (alone) return settle_one(key, reference, how);
  }
  if (a.figures == Verdict::caution && a.film_adds_little)
    return tell(language, "As it stands today: the film adds next to nothing. Ask the film maker before you cut.");
  if (a.figures == Verdict::go && worst_rule != a.rules.end()) return settle_rule(*worst_rule, language);
  return tell(language, "Don't cut film yet. Ask the film maker about this pane, with these figures.");
}

}  // namespace sunstrain
