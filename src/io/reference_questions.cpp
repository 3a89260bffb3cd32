// questions.toml: what is asked at a window.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "condition_load.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/questions.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace {

using Pairs = std::vector<std::pair<std::string, std::string>>;

constexpr std::array<std::pair<const char*, Question::Asked>, 2> depths{
    {{"quick", Question::Asked::quick}, {"always", Question::Asked::always}}};

// The row of a key that may have a star. Throws BadInput where no key has the name.
const JobKey& key_row(const std::string& key, const std::vector<JobKey>& keys, const std::string& where) {
  const auto starred = std::find_if(keys.begin(), keys.end(), [&](const JobKey& row) { return row.name == key; });
  if (starred != keys.end()) return *starred;
  const JobKey* row = find_job_key(keys, key);
  if (row == nullptr) throw BadInput(say("{}: {}: {}", where, shown(key), no_such_key(key, keys)));
  return *row;
}

// A value as one types it, which the key must take.
void require_value(const std::string& key, const std::string& text, const std::vector<JobKey>& keys,
                   const std::string& where) {
  const JobKey& row = key_row(key, keys, where);
  try {
    if (parse_value(row, text)) return;
  } catch (const BadInput& error) {
    throw BadInput(say("{}: {} = {}: {}", where, key, quoted(text), error));
  }
  throw BadInput(say("{}: {}: a value is needed", where, key));
}

// { "lite.2.tint" = "clear" }: keys and texts, in order.
Pairs pairs_of(DataRow& row, const char* name) {
  Pairs out;
  const DataNode* table = row.optional_node(name);
  if (table == nullptr) return out;
  if (table->kind != DataNode::Kind::table) row.refuse(name, "a table of keys and their values is needed");
  for (std::size_t i = 0; i < table->keys.size(); ++i) {
    if (table->items[i].kind != DataNode::Kind::text) row.refuse(name, "values between quotes are needed");
    out.emplace_back(table->keys[i], table->items[i].text);
  }
  return out;
}

Pairs values_of(DataRow& row, const char* name, const std::vector<JobKey>& keys) {
  Pairs out = pairs_of(row, name);
  for (const auto& [key, text] : out) require_value(key, text, keys, row.where() + ", " + name);
  return out;
}

Answer answer_of(DataRow row, const std::string& question_key, const std::vector<JobKey>& keys) {
  Answer answer;
  answer.say = row.text("say");
  answer.is = row.text_or("is", "");
  if (!answer.is.empty()) require_value(question_key, answer.is, keys, row.where());
  answer.set = values_of(row, "set", keys);
  answer.copy = pairs_of(row, "copy");
  for (const auto& [key, from] : answer.copy) {
    if (key_row(key, keys, row.where()).choices != key_row(from, keys, row.where()).choices)
      row.refuse("copy", "two keys with the same choices are needed");
  }
  answer.when = optional_condition(row, "when", keys);
  row.finish();
  return answer;
}

std::vector<Answer> answers_of(DataRow& row, const std::string& question_key, const std::vector<JobKey>& keys) {
  std::vector<Answer> answers;
  const DataNode* list = row.optional_node("answers");
  if (list == nullptr) return answers;
  if (list->kind != DataNode::Kind::list || list->items.empty()) row.refuse("answers", "a list of answers is needed");
  for (std::size_t i = 0; i < list->items.size(); ++i)
    answers.push_back(
        answer_of({list->items[i], fmt::format("{}, answer {}", row.where(), i + 1)}, question_key, keys));
  return answers;
}

// How a question may be left open, and what is said where it may not.
void read_needed(DataRow& row, Question& question, const std::vector<JobKey>& keys) {
  if (row.has("needed")) question.needed = optional_condition(row, "needed", keys);
  question.refused = row.text_or("refused", "");
  if (question.refused.empty()) return;
  if (!question.needed) row.refuse("refused", "goes with needed alone");
  if (key_row(question.refused, keys, row.where()).refused.empty())
    row.refuse("refused", "a key that says why it is refused is needed");
}

Question question_of(DataRow& row, const std::vector<JobKey>& keys) {
  Question question;
  question.name = row.text("name");
  question.part = row.text("part");
  question.key = row.text("key");
  const JobKey& key = key_row(question.key, keys, row.where());
  question.ask = row.text("ask");
  question.find = row.text_or("find", key.question);
  if (question.find.empty()) row.refuse("find", "how to find out is needed: the key has no question of its own");
  question.when = optional_condition(row, "when", keys);
  question.given = row.text_or("given", "");
  const bool at_first = holds(question.when, {}) == Truth::yes && holds(key.applies, {}) == Truth::yes;
  if (at_first != question.given.empty())
    row.refuse("given", "words for `when` and for where the key has a meaning are needed, and for these alone");
  question.answers = answers_of(row, question.key, keys);
  question.several = row.flag_or("several", false);
  if (question.several && question.answers.size() < 2) row.refuse("several", "two answers or more are needed");
  question.also = values_of(row, "also", keys);
  if (row.has("not_offered")) question.not_offered = row.words("not_offered");
  read_needed(row, question, keys);
  if (row.has("asked")) question.asked = word_named(row, "asked", depths);
  question.source = row.source();
  return question;
}

// The words that some question offers for a key of this row.
std::set<std::string> offered(const JobKey& key, const Questions& questions) {
  std::set<std::string> words;
  const auto take = [&](const std::string& name, const std::string& word) {
    if (&key_row(name, questions.reference->job_keys, name) == &key && !word.empty()) words.insert(word);
  };
  for (const Question& question : questions.rows) {
    for (const Answer& answer : question.answers) {
      take(question.key, answer.is);
      for (const auto& [name, word] : answer.set) take(name, word);
    }
    for (const auto& [name, word] : question.also) take(name, word);
    if (question.answers.empty())
      for (const std::string& word : key.choices) take(question.key, word);
  }
  return words;
}

// Every word of a choice key that is asked about can be picked, or is said to be none that one picks.
void require_all_words(const std::string& file, const Questions& questions) {
  for (const Question& question : questions.rows) {
    const JobKey& key = key_row(question.key, questions.reference->job_keys, file);
    if (key.kind != JobKey::Kind::choice) continue;
    std::set<std::string> words = offered(key, questions);
    for (const Question& other : questions.rows) {
      if (&key_row(other.key, questions.reference->job_keys, file) != &key) continue;
      for (const std::string& word : other.not_offered) {
        const bool known = std::find(key.choices.begin(), key.choices.end(), word) != key.choices.end();
        if (!known || !words.insert(word).second)
          throw BadInput(say("{}, question {}: not_offered = {}: {}", file, other.name, quoted(word),
                             Saying(known ? "this word is offered" : "the key has no such word")));
      }
    }
    for (const std::string& word : key.choices) {
      if (!words.contains(word))
        throw BadInput(say("{}, question {}: {} = {}: no answer gives this word, and not_offered has it not", file,
                           question.name, key.name, quoted(word)));
    }
  }
}

}  // namespace

Questions load_questions(const std::string& file, std::string_view text, const Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"question"});
  Questions questions{{}, &reference};
  for (DataRow& row : rows_of(document, file, "question")) {
    questions.rows.push_back(question_of(row, reference.job_keys));
    row.finish();
  }
  require_all_words(file, questions);
  return questions;
}

const Questions& builtin_questions() {
  constexpr const char* file = "questions.toml";
  static const Questions questions = load_questions(file, embedded_reference_files().at(file), builtin_reference());
  return questions;
}

Questions builtin_questions_in(const Reference& reference) {
  Questions questions = builtin_questions();
  questions.reference = &reference;
  for (Question& question : questions.rows) {
    for (std::string* text : {&question.part, &question.ask, &question.find, &question.given})
      *text = told(reference.language, *text);
    for (Answer& answer : question.answers) answer.say = told(reference.language, answer.say);
  }
  return questions;
}

}  // namespace sunstrain
