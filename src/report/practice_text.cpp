#include "sunstrain/report/practice_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "../io/job_words.hpp"
#include "sunstrain/job_keys.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

constexpr int indent = 4;

std::string first_sentence(const std::string& text) {
  const std::size_t end = text.find(". ");
  return end == std::string::npos ? text : text.substr(0, end + 1);
}

std::string input_text(const Driver& driver, const Reference& reference, Units units) {
  const auto value = [&](const Value& of) { return value_text(reference, driver.key, of, units); };
  const std::string other = driver.words.empty() ? value(driver.tried) : driver.words;
  return tell(reference.language, "Load: {} {}; compared with {}", key_words(reference.language, driver.key),
              value(driver.taken), other);
}

const PracticeTopic* topic_named(const Deck& deck, const std::string& id) {
  const auto found =
      std::find_if(deck.topics.begin(), deck.topics.end(), [&](const PracticeTopic& topic) { return topic.id == id; });
  return found == deck.topics.end() ? nullptr : &*found;
}

std::string share_line(const std::string& name, int right, int of, const Language& language) {
  return of == 0 ? "" : tell(language, "  {:<24}{:>3} of {}", name, right, of) + "\n";
}

}  // namespace

std::string decider_text(const Decider& decider, const Reference& reference, Units units) {
  if (const Rule* rule = std::get_if<Rule>(&decider.what))
    return tell(reference.language, "Guidance: {}", first_sentence(rule->text));
  if (const OpenRule* open = std::get_if<OpenRule>(&decider.what))
    return tell(reference.language, "Not known: {}; it may be {}", key_words(reference.language, open->key),
                value_text(reference, open->key, open->value, units));
  return input_text(std::get<Driver>(decider.what), reference, units);
}

std::vector<std::string> pad_lines(const Job& job, const Reference& reference, Units units) {
  std::vector<std::string> lines;
  for (const JobKey& row : reference.job_keys) {
    if (row.name.starts_with("job.") || !row.refused.empty()) continue;
    for (const std::string& key : concrete_keys(row.name)) {
      const std::string words = key_words(reference.language, key);
      if (const auto value = job.values.find(key); value != job.values.end())
        lines.push_back(words + " " + value_text(reference, key, value->second, units));
      else if (const auto partly = job.partly.find(key); partly != job.partly.end())
        lines.push_back(words + " " + value_text(reference, key, partly->second, units));
    }
  }
  return lines;
}

std::string scenario_text(const Scenario& scenario, const Reference& reference, const TextStyle& style) {
  std::string text = labeled("", scenario.title, 0, style.width);
  if (!scenario.see.empty()) text += labeled("", scenario.see, indent, style.width);
  const std::vector<std::string> pad = pad_lines(scenario.job, reference, style.units);
  return text + labeled("", tell(reference.language, "On the pad: {}. The rest nobody knows.", joined(pad, "; ")),
                        indent, style.width);
}

std::string drill_text(const Drill& drill, const TextStyle& style) {
  return labeled("", drill.title, 0, style.width) + labeled("", drill.see, indent, style.width) +
         labeled("", drill.ask, 0, style.width);
}

std::string comparison_text(const Comparison& comparison, const Assessment& scenario, const Assessment& other,
                            const Language& language) {
  const std::string verdict = verdict_words(language, other.verdict);
  if (other.verdict == scenario.verdict)
    return tell(language, "{}: {:.2f} in place of {:.2f}, {} as before", comparison.say, other.stress_ratio,
                scenario.stress_ratio, verdict);
  return tell(language, "{}: {:.2f} in place of {:.2f}, {} in place of {}", comparison.say, other.stress_ratio,
              scenario.stress_ratio, verdict, verdict_words(language, scenario.verdict));
}

std::vector<Rule> taught_rules(const Assessment& answer) {
  constexpr std::size_t most = 2;
  std::vector<Rule> rules;
  for (const Rule& rule : answer.rules)
    if (rule.severity != Severity::note && !rule.training.empty() && rules.size() < most) rules.push_back(rule);
  return rules;
}

std::string lesson_text(const Shown& shown, const Language& language, const TextStyle& style) {
  std::string text;
  for (std::size_t i = 0; i < shown.others->size(); ++i) {
    const std::string line = comparison_text(shown.scenario->compare[i], *shown.answer, (*shown.others)[i], language);
    text += labeled(i == 0 ? tell(language, "Compare") : "", line, label_columns, style.width);
  }
  if (!shown.scenario->lesson.empty())
    text += labeled(tell(language, "Lesson"), shown.scenario->lesson, label_columns, style.width);
  for (const Rule& rule : taught_rules(*shown.answer))
    text += labeled(rule.users_own ? tell(language, "Your rule") : tell(language, "Rule {}", rule.id), rule.training,
                    label_columns, style.width);
  return text;
}

std::string practice_note(const Language& language) {
  return tell(language, "A practice record, not a qualification.");
}

std::string score_text(const PracticeScore& score, const Deck& deck, const TextStyle& style, const Language& language) {
  std::string text = tell(language, "Score sheet") + "\n";
  text += share_line(tell(language, "verdicts right"), score.verdicts_right, score.scenarios, language);
  text += share_line(tell(language, "what decides, right"), score.picks_right, score.scenarios, language);
  text += share_line(tell(language, "drills right"), score.drills_right, score.drills, language);
  const auto kind = [&](const std::string& line) { text += labeled("", line, 2, style.width); };
  if (score.milder > 0)
    kind(tell(language, "Milder than the answer: {}. That is the kind that breaks glass.", score.milder));
  if (score.stricter > 0)
    kind(tell(language, "Stricter than the answer: {}. That is the kind that loses work.", score.stricter));
  if (score.topics.empty())
    return text + tell(language, "Nothing was answered.") + "\n" + practice_note(language) + "\n";
  text += tell(language, "By topic, right of asked") + "\n";
  std::string again;
  for (const TopicScore& one : score.topics) {
    const PracticeTopic* topic = topic_named(deck, one.topic);
    const std::string name = topic == nullptr ? tell(language, "your own windows") : topic->name;
    text += "  " + named_row(name, 2, tell(language, "{} of {} right", one.right, one.asked), style.width);
    if (one.right < one.asked && topic != nullptr) again += labeled("-", topic->again, 2, style.width);
  }
  if (!again.empty()) text += tell(language, "Look at again") + "\n" + again;
  return text + practice_note(language) + "\n";
}

std::optional<Verdict> verdict_answered(std::string_view text, const Language& language) {
  constexpr std::array verdicts{Verdict::go, Verdict::caution, Verdict::refer};
  const std::string typed = lower_case(trimmed(text));
  for (std::size_t i = 0; i < verdicts.size(); ++i) {
    const bool number = typed.size() == 1 && typed.front() == static_cast<char>('1' + i);
    const auto is_start_of = [&](const std::string& word) { return !typed.empty() && word.starts_with(typed); };
    if (number || is_start_of(verdict_word(verdicts[i])) || is_start_of(verdict_words(language, verdicts[i])))
      return verdicts[i];
  }
  return std::nullopt;
}

}  // namespace sunstrain
