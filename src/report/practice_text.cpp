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
  return fmt::format("Load: {} {}; compared with {}", key_words(driver.key), value(driver.taken), other);
}

const PracticeTopic* topic_named(const Deck& deck, const std::string& id) {
  const auto found =
      std::find_if(deck.topics.begin(), deck.topics.end(), [&](const PracticeTopic& topic) { return topic.id == id; });
  return found == deck.topics.end() ? nullptr : &*found;
}

std::string share_line(const char* name, int right, int of) {
  return of == 0 ? "" : fmt::format("  {:<24}{:>3} of {}\n", name, right, of);
}

}  // namespace

std::string decider_text(const Decider& decider, const Reference& reference, Units units) {
  if (const Rule* rule = std::get_if<Rule>(&decider.what)) return "Guidance: " + first_sentence(rule->text);
  if (const OpenRule* open = std::get_if<OpenRule>(&decider.what))
    return fmt::format("Not known: {}; it may be {}", key_words(open->key),
                       value_text(reference, open->key, open->value, units));
  return input_text(std::get<Driver>(decider.what), reference, units);
}

std::vector<std::string> pad_lines(const Job& job, const Reference& reference, Units units) {
  std::vector<std::string> lines;
  for (const JobKey& row : reference.job_keys) {
    if (row.name.starts_with("job.") || !row.refused.empty()) continue;
    for (const std::string& key : concrete_keys(row.name)) {
      const std::string words = key_words(key);
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
  return text + labeled("", "On the pad: " + joined(pad, "; ") + ". The rest nobody knows.", indent, style.width);
}

std::string drill_text(const Drill& drill, const TextStyle& style) {
  return labeled("", drill.title, 0, style.width) + labeled("", drill.see, indent, style.width) +
         labeled("", drill.ask, 0, style.width);
}

std::string comparison_text(const Comparison& comparison, const Assessment& scenario, const Assessment& other) {
  std::string text =
      fmt::format("{}: {:.2f} in place of {:.2f}", comparison.say, other.stress_ratio, scenario.stress_ratio);
  if (other.verdict == scenario.verdict) return text + ", " + verdict_word(other.verdict) + " as before";
  return text + fmt::format(", {} in place of {}", verdict_word(other.verdict), verdict_word(scenario.verdict));
}

std::vector<Rule> taught_rules(const Assessment& answer) {
  constexpr std::size_t most = 2;
  std::vector<Rule> rules;
  for (const Rule& rule : answer.rules)
    if (rule.severity != Severity::note && !rule.training.empty() && rules.size() < most) rules.push_back(rule);
  return rules;
}

std::string lesson_text(const Shown& shown, const TextStyle& style) {
  std::string text;
  for (std::size_t i = 0; i < shown.others->size(); ++i) {
    const std::string line = comparison_text(shown.scenario->compare[i], *shown.answer, (*shown.others)[i]);
    text += labeled(i == 0 ? "Compare" : "", line, label_columns, style.width);
  }
  if (!shown.scenario->lesson.empty()) text += labeled("Lesson", shown.scenario->lesson, label_columns, style.width);
  for (const Rule& rule : taught_rules(*shown.answer))
    text += labeled(rule.users_own ? "Your rule" : "Rule " + rule.id, rule.training, label_columns, style.width);
  return text;
}

std::string practice_note() { return "A practice record, not a qualification."; }

std::string score_text(const PracticeScore& score, const Deck& deck, const TextStyle& style) {
  std::string text = "Score sheet\n";
  text += share_line("verdicts right", score.verdicts_right, score.scenarios);
  text += share_line("what decides, right", score.picks_right, score.scenarios);
  text += share_line("drills right", score.drills_right, score.drills);
  if (score.milder > 0)
    text += labeled("", fmt::format("Milder than the answer: {}. That is the kind that breaks glass.", score.milder), 2,
                    style.width);
  if (score.stricter > 0)
    text += labeled("", fmt::format("Stricter than the answer: {}. That is the kind that loses work.", score.stricter),
                    2, style.width);
  if (score.topics.empty()) return text + "Nothing was answered.\n" + practice_note() + "\n";
  text += "By topic, right of asked\n";
  std::string again;
  for (const TopicScore& one : score.topics) {
    const PracticeTopic* topic = topic_named(deck, one.topic);
    const std::string name = topic == nullptr ? "your own windows" : topic->name;
    text += "  " + named_row(name, 2, fmt::format("{} of {}", one.right, one.asked), style.width);
    if (one.right < one.asked && topic != nullptr) again += labeled("-", topic->again, 2, style.width);
  }
  if (!again.empty()) text += "Look at again\n" + again;
  return text + practice_note() + "\n";
}

std::optional<Verdict> verdict_answered(std::string_view text) {
  constexpr std::array<std::pair<std::string_view, Verdict>, 3> words{
      {{"go", Verdict::go}, {"caution", Verdict::caution}, {"refer", Verdict::refer}}};
  const std::string typed = lower_case(trimmed(text));
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool number = typed.size() == 1 && typed.front() == static_cast<char>('1' + i);
    if (number || (!typed.empty() && words[i].first.starts_with(typed))) return words[i].second;
  }
  return std::nullopt;
}

}  // namespace sunstrain
