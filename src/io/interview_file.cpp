// What was answered as a job file that a person can read and go on with.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "job_lines.hpp"
#include "sunstrain/io/interview.hpp"
#include "sunstrain/job_keys.hpp"
#include "tell.hpp"

namespace sunstrain {
namespace {

using Tables = std::map<std::string, std::string>;  // table -> its lines

std::string with_stop(std::string text) {
  if (!text.empty() && text.find_last_of(".?!") != text.size() - 1) text += '.';
  return text;
}

// Which step has the last word on each key.
std::map<std::string, std::size_t> last_words(const Interview& interview) {
  std::map<std::string, std::size_t> last;
  for (std::size_t i = 0; i < interview.steps.size(); ++i)
    for (const auto& [key, text] : interview.steps[i].sets) last[key] = i;
  return last;
}

void write_step(const Interview& interview, std::size_t index, const std::map<std::string, std::size_t>& last,
                Tables& tables) {
  const Answered& step = interview.steps[index];
  std::vector<std::pair<std::string, std::string>> kept;
  for (const auto& set : step.sets) {
    std::erase_if(kept, [&](const auto& earlier) { return earlier.first == set.first; });
    if (last.at(set.first) == index) kept.push_back(set);
  }
  const bool value = step.sets.size() == 1 && step.sets.front().second == step.said;  // stands below as it was typed
  const std::string heading = "\n" + comment(step.asking.question->ask + (value ? "" : " " + with_stop(step.said)));
  if (kept.empty()) tables[table_of(step.asking.key)] += heading;
  std::string table = "-";  // no key's
  for (const auto& [key, text] : kept) {
    std::string& lines = tables[table_of(key)];
    if (table_of(key) != table) lines += heading;
    table = table_of(key);
    lines += fmt::format("{} = {}\n", name_in_table(key), toml_text(text));
  }
}

void write_open(const Asking& asking, const Reference& reference, Tables& tables) {
  const JobKey& row = *find_job_key(reference.job_keys, asking.key);
  tables[table_of(asking.key)] += "\n" +
                                  comment(asking.question->ask + " " +
                                          tell(reference.language, "Not known. {}", with_stop(asking.question->find))) +
                                  fmt::format("#{} = {}\n", name_in_table(asking.key), example_value(row));
}

}  // namespace

std::string job_file_text(const Interview& interview, const Questions& questions) {
  const Reference& reference = *questions.reference;
  const auto last = last_words(interview);
  const Job job = job_of(interview, reference);
  Tables tables;
  for (const Asking& asking : all_askings(questions)) {
    const auto step = std::find_if(interview.steps.begin(), interview.steps.end(),
                                   [&](const Answered& one) { return one.asking == asking; });
    const bool answer = step != interview.steps.end() && !step->said.empty();
    if (answer)
      write_step(interview, static_cast<std::size_t>(step - interview.steps.begin()), last, tables);
    else if (!speaks_of(job, asking.key) && applies(asking, job, reference))
      write_open(asking, reference, tables);
  }
  std::string text = comment(tell(
      reference.language,
      "A pane as it was looked at. What nobody knew stands behind a #: take the # off and write it in when it is found "
      "out. sunstrain check and this file's name give the answer again; sunstrain check --template explains every "
      "key."));
  for (const std::string& name : tables_in_order(reference)) {
    const auto lines = tables.find(name);
    if (lines != tables.end()) text += fmt::format("\n[{}]", name) + lines->second;
  }
  return text;
}

}  // namespace sunstrain
