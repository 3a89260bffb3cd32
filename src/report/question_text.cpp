#include "sunstrain/report/question_text.hpp"

#include <fmt/format.h>

#include "../io/job_words.hpp"
#include "sunstrain/job_keys.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using report::labeled;

constexpr int indent = 4;
constexpr std::size_t longest_list = 12;  // of answers with a line each

std::string listed(const std::vector<Answer>& offered, int width) {
  std::string text;
  if (offered.size() > longest_list) {
    std::vector<std::string> words;
    for (const Answer& answer : offered) words.push_back(answer.say);
    return labeled("", joined(words), indent, width);
  }
  for (std::size_t i = 0; i < offered.size(); ++i)
    text += labeled(fmt::format("{:>3}", i + 1), offered[i].say, indent, width);
  return text;
}

}  // namespace

std::string lite_asked(const Asking& asking, const Job& job, const Language& language) {
  const auto panes = word_of(job, "glass.panes");
  if (asking.question->key.find('*') == std::string::npos || !panes || *panes == "1") return "";
  std::string name = report::lite_name(language, static_cast<std::size_t>(instance_number(asking.key)) - 1,
                                       static_cast<std::size_t>(std::stoi(*panes)));
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return name + ". ";
}

std::string question_text(const Asking& asking, const Job& job, const Reference& reference, int width) {
  const Question& question = *asking.question;
  const std::vector<Answer> offered = offered_answers(asking, job, reference);
  const JobKey& row = *find_job_key(reference.job_keys, asking.key);
  std::string help = question.find;
  if (takes_value(question, row)) help += " " + tell(reference.language, "Such as: {}", row.example);
  if (question.several) help += " " + tell(reference.language, "Several: with commas.");
  return labeled("", lite_asked(asking, job, reference.language) + question.ask, 0, width) + listed(offered, width) +
         labeled("", help, indent, width);
}

std::string rule_text(const Rule& rule, const Language& language, int width) {
  const std::string mark = report::verdict_mark(language, verdict_of(rule.severity), false);
  std::string text = rule.text;
  if (rule.severity == Severity::refer)
    text += " " +
            tell(language, "You can stop here: \"enough\" asks for size and film alone and writes the job. Or go on.");
  return labeled(mark, text, 0, width);
}

}  // namespace sunstrain
