#include "sunstrain/io/interview.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/resolve.hpp"
#include "sunstrain/rules.hpp"

namespace sunstrain {
namespace {

// "lite.*.tint" for the lite of `key` ("lite.2.thickness").
std::string for_lite(std::string name, std::string_view key) {
  const std::size_t star = name.find('*');
  return star == std::string::npos ? name : name.replace(star, 1, std::to_string(instance_number(key)));
}

const JobKey& row_of(const Asking& asking, const Reference& reference) {
  return *find_job_key(reference.job_keys, asking.key);
}

// What a condition of the table looks at: of a key that is known in part its likely value.
Facts facts_of(const Job& job, const Reference& reference) {
  return with_parts_settled(job, Run::middle, {}, reference).values;
}

bool has_meaning(const std::string& key, const Facts& facts, const Reference& reference) {
  return key_applies(*find_job_key(reference.job_keys, key), key, facts) == Truth::yes;
}

const std::string& not_taken(const Reference& reference) {
  static const std::string english = "Not taken";
  return told(reference.language, english);
}

bool is_not_known(std::string_view text, const Language& language) {
  const std::string word = lower_case(text);
  if (word == told(language, "don't know")) return true;
  for (const char* known : {"", "?", "-", "don't know", "dont know", "don\u2019t know", "unknown", "not known"})
    if (word == known) return true;
  return false;
}

// ---- which of the answers a text means ----------------------------------------------------------------

bool begins(const std::string& words, const std::string& text) { return lower_case(words).starts_with(text); }

Saying one_of_the_list(std::size_t count) {
  return say("write a number from 1 to {}, or the first letters of an answer; ? when you do not know", count);
}

// Null where the text means none. Throws BadInput where several begin with it.
const Answer* answer_meant(const std::vector<Answer>& offered, std::string_view typed) {
  const std::string text = lower_case(trimmed(typed));
  const auto exact = [&](const Answer& answer) {
    return lower_case(answer.is) == text || lower_case(answer.say) == text;
  };
  if (const auto found = std::find_if(offered.begin(), offered.end(), exact); found != offered.end()) return &*found;
  for (std::size_t i = 0; i < offered.size(); ++i)
    if (text == std::to_string(i + 1)) return &offered[i];
  std::vector<std::string> meant;
  const Answer* last = nullptr;
  for (const Answer& answer : offered) {
    if (text.empty() || (!begins(answer.say, text) && !begins(answer.is, text))) continue;
    meant.push_back(answer.say);
    last = &answer;
  }
  if (meant.size() > 1) throw BadInput(say("Not taken: {} may be: {}", quoted(typed), joined(meant, "; ")));
  return last;
}

// "2, 4" into its parts.
std::vector<std::string_view> parts_of(std::string_view text) {
  std::vector<std::string_view> parts;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find_first_of(",;", from), text.size());
    if (const std::string_view part = trimmed(text.substr(from, to - from)); !part.empty()) parts.push_back(part);
    from = to + 1;
  }
  return parts;
}

// ---- what an answer settles -----------------------------------------------------------------------------

// The text that settled a key last, which may say that it is known in part; empty where none did.
std::string text_of(const Interview& interview, const std::string& key, const Reference& reference) {
  const auto before = interview.base.values.find(key);
  const JobKey& row = *find_job_key(reference.job_keys, key);
  std::string text = before == interview.base.values.end() ? "" : format_value(row, before->second, Units::metric);
  for (const Answered& step : interview.steps)
    for (const auto& [name, said] : step.sets)
      if (name == key) text = said;
  return text;
}

// Adds to the step what the answer says. A key that has no meaning beside what is known by then, such as a second
// lite's of a single pane, is left alone.
void take(const Answer& answer, const Interview& interview, Answered& step, Job& job, const Reference& reference) {
  const auto put = [&](const std::string& name, const std::string& text) {
    const std::string key = for_lite(name, step.asking.key);
    if (text.empty() || !has_meaning(key, facts_of(job, reference), reference)) return;
    set_value(job, key, text, not_taken(reference), reference);
    step.sets.emplace_back(key, text);
  };
  for (const auto& [key, from] : answer.copy) put(key, text_of(interview, for_lite(from, step.asking.key), reference));
  put(step.asking.question->key, answer.is);
  for (const auto& [key, text] : answer.set) put(key, text);
}

// The answers of the list that a text means, of a question with `several` the first (what holds of the rest) before
// them; empty where it means none of the list.
std::vector<const Answer*> answers_meant(const Question& question, const std::vector<Answer>& offered,
                                         std::string_view text) {
  if (!question.several) {
    const Answer* meant = answer_meant(offered, text);
    return meant == nullptr ? std::vector<const Answer*>() : std::vector{meant};
  }
  std::vector<const Answer*> picked{&offered.front()};
  for (const std::string_view part : parts_of(text)) {
    const Answer* meant = answer_meant(offered, part);
    if (meant == nullptr) throw BadInput(say("Not taken: {}: {}", quoted(part), one_of_the_list(offered.size())));
    if (meant != &offered.front()) picked.push_back(meant);
  }
  return picked;
}

std::string said_of(const std::vector<const Answer*>& picked) {
  std::vector<std::string> said;
  for (const Answer* answer : picked)
    if (picked.size() == 1 || answer != picked.front()) said.push_back(answer->say);
  return joined(said, "; ");
}

[[noreturn]] void refuse_open(const Question& question, const Reference& reference) {
  Saying help = question.find;
  if (!question.refused.empty())
    help = say("{} {}", help, Saying(find_job_key(reference.job_keys, question.refused)->refused));
  throw BadInput(say("Not taken: this one cannot be left open. {}", help));
}

// A value that is none of the list's: as set_value takes it.
void take_value(Answered& step, Job& job, std::size_t listed, std::string_view text, const Reference& reference) {
  try {
    set_value(job, step.asking.key, text, not_taken(reference), reference);
  } catch (const BadInput& error) {
    if (listed == 0 || row_of(step.asking, reference).kind != JobKey::Kind::choice) throw;
    throw BadInput(say("Not taken: {}: {}", quoted(text), one_of_the_list(listed)));
  }
  step.said = text;
  step.sets.emplace_back(step.asking.key, text);
}

}  // namespace

Job job_of(const Interview& interview, const Reference& reference) {
  Job job = interview.base;
  for (const Answered& step : interview.steps)
    for (const auto& [key, text] : step.sets) set_value(job, key, text, not_taken(reference), reference);
  return job;
}

bool applies(const Asking& asking, const Job& job, const Reference& reference) {
  const Facts facts = facts_of(job, reference);
  return holds(for_key(asking.question->when, asking.key), facts) == Truth::yes &&
         has_meaning(asking.key, facts, reference);
}

std::vector<Asking> all_askings(const Questions& questions) {
  std::vector<Asking> all;
  for (const Question& question : questions.rows)
    for (std::string& key : concrete_keys(question.key)) all.push_back({&question, std::move(key)});
  return all;
}

std::optional<Asking> next_question(const Interview& interview, const Questions& questions) {
  const Job job = job_of(interview, *questions.reference);
  const Question::Asked depth = interview.enough_after ? Question::Asked::always : interview.depth;
  for (Asking& asking : all_askings(questions)) {
    if (asking.question->asked < depth) continue;
    const auto same = [&](const Answered& step) { return step.asking == asking; };
    if (std::any_of(interview.steps.begin(), interview.steps.end(), same)) continue;
    if (applies(asking, job, *questions.reference)) return std::move(asking);
  }
  return std::nullopt;
}

std::vector<Answer> offered_answers(const Asking& asking, const Job& job, const Reference& reference) {
  std::vector<Answer> offered;
  const Facts facts = facts_of(job, reference);
  for (const Answer& answer : asking.question->answers)
    if (holds(for_key(answer.when, asking.key), facts) == Truth::yes) offered.push_back(answer);
  const JobKey& row = row_of(asking, reference);
  if (asking.question->answers.empty() && row.kind == JobKey::Kind::choice)
    for (const std::string& word : row.choices)
      offered.push_back({word_told(reference.language, row.name, word), word, {}, {}, {}});
  return offered;
}

bool takes_value(const Question& question, const JobKey& key) {
  return question.answers.size() <= 1 && key.kind != JobKey::Kind::choice && key.kind != JobKey::Kind::text;
}

bool is_needed(const Asking& asking, const Job& job, const Reference& reference) {
  if (row_of(asking, reference).required) return true;
  const std::optional<Condition>& needed = asking.question->needed;
  return needed && holds(for_key(*needed, asking.key), facts_of(job, reference)) == Truth::yes;
}

Interview answered(const Interview& interview, const Asking& asking, std::string_view text,
                   const Reference& reference) {
  text = trimmed(text);
  Job job = job_of(interview, reference);
  Answered step{asking, {}, {}};
  const Question& question = *asking.question;
  if (is_not_known(text, reference.language)) {
    if (is_needed(asking, job, reference)) refuse_open(question, reference);
  } else {
    const std::vector<Answer> offered = offered_answers(asking, job, reference);
    const std::vector<const Answer*> picked = answers_meant(question, offered, text);
    if (picked.empty()) take_value(step, job, offered.size(), text, reference);
    for (const Answer* answer : picked) take(*answer, interview, step, job, reference);
    if (!picked.empty()) step.said = said_of(picked);
    take({"", "", question.also, {}, {}}, interview, step, job, reference);
  }
  Interview next = interview;
  next.steps.push_back(std::move(step));
  return next;
}

Interview one_back(Interview interview) {
  if (!interview.steps.empty()) interview.steps.pop_back();
  if (interview.enough_after && *interview.enough_after > interview.steps.size()) interview.enough_after.reset();
  return interview;
}

Interview back_to_fault(Interview interview, std::string_view message) {
  const auto named = [&](const Answered& step) { return message.find(step.asking.key) != std::string_view::npos; };
  const auto fault = std::find_if(interview.steps.rbegin(), interview.steps.rend(), named);
  const bool found = fault != interview.steps.rend();
  const std::size_t keep = found ? static_cast<std::size_t>(interview.steps.rend() - fault) - 1
                                 : interview.steps.size() - std::min<std::size_t>(interview.steps.size(), 1);
  while (interview.steps.size() > keep) interview = one_back(std::move(interview));
  return interview;
}

std::vector<const Rule*> newly_fired(const Job& before, const Job& now, const Reference& reference) {
  std::vector<const Rule*> fresh;
  const std::vector<FiredRule> earlier = fired_rules(reference.rules, before.values);
  for (const FiredRule& fired : fired_rules(reference.rules, now.values)) {
    const auto same = [&](const FiredRule& other) { return other.rule == fired.rule; };
    const bool new_one = std::none_of(earlier.begin(), earlier.end(), same);
    if (new_one && fired.rule->severity != Severity::note) fresh.push_back(fired.rule);
  }
  return fresh;
}

}  // namespace sunstrain
