// The questions at a window as a state machine: what was answered so far, what comes next, what an answer settles.
// Pure: text in, a new state out. The questions are data, reference/questions.toml.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sunstrain/io/questions.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain {

// A question as it is put: of a key with a star, for one lite.
struct Asking {
  const Question* question = nullptr;
  std::string key;  // "lite.2.thickness"

  bool operator==(const Asking&) const = default;
};

// One answer. Values as they were typed or as the table has them, so that a file can repeat them.
struct Answered {
  Asking asking;
  std::string said;                                       // in words; empty: not known
  std::vector<std::pair<std::string, std::string>> sets;  // key and text, in order
};

struct Interview {
  Question::Asked depth = Question::Asked::whole;  // questions of this depth and of those after it are asked
  std::vector<Answered> steps;
  std::optional<std::size_t> enough_after;  // steps, from which on only what must be asked is
  Job base{"The answers", {}};              // what was known before the first answer
};

// The job that the answers make, over its base. Throws BadInput where set_value does (never after answered()).
Job job_of(const Interview& interview, const Reference& reference);

// Whether a question applies to what is known: its `when` and its key's meaning hold. Where that hangs on something
// not known it does not.
bool applies(const Asking& asking, const Job& job, const Reference& reference);

// Every question, of keys with a star one for each of three lites, in the table's order.
std::vector<Asking> all_askings(const Questions& questions);

// The first question of the table that applies and was not answered; nothing when all are.
std::optional<Asking> next_question(const Interview& interview, const Questions& questions);

// The answers that the question offers beside these facts: the table's, or those of its key's own words. Empty: the
// value itself is asked for.
std::vector<Answer> offered_answers(const Asking& asking, const Job& job, const Reference& reference);

// Whether the question is after a value with its unit, beside a single answer or without a list.
bool takes_value(const Question& question, const JobKey& key);

// Whether the question takes no "don't know" with what is known.
bool is_needed(const Asking& asking, const Job& job, const Reference& reference);

// The interview with an answer to `asking` more: a number of the list of offered answers, letters that one of them
// alone begins with, a job key's word, or a value with its unit; of a question with `several`, numbers or letters with
// commas; "", "?" and "don't know" for what is not known. Throws BadInput with what is wrong and what is allowed.
Interview answered(const Interview& interview, const Asking& asking, std::string_view text, const Reference& reference);

// The interview without its last answer.
Interview one_back(Interview interview);

// The interview back before the answer that a message is about: the latest whose key it names, else the last.
Interview back_to_fault(Interview interview, std::string_view message);

// The answers as a job file that reads back as job_of() of an interview without a base: each key under its question,
// what is not known as a comment.
std::string job_file_text(const Interview& interview, const Questions& questions);

// The rules that ask or refer for the job and not for the one before it, worst first.
std::vector<const Rule*> newly_fired(const Job& before, const Job& now, const Reference& reference);

}  // namespace sunstrain
