// A visit: its types of panes one by one, and what they come to.
#include <algorithm>
#include <array>

#include "../io/job_words.hpp"
#include "../report/schedule_summary.hpp"
#include "binding_requests.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::page {
namespace {

using report::TypeAnswer;

std::string text_of(const Job& job, const char* key, Units units, const Reference& reference) {
  const auto value = job.values.find(key);
  return value == job.values.end() ? "" : report::value_text(reference, key, value->second, units);
}

std::string size_of(const Job& job, Units units, const Reference& reference) {
  const std::string width = text_of(job, "pane.width", units, reference),
                    height = text_of(job, "pane.height", units, reference);
  return width.empty() || height.empty() ? width + height : width + " x " + height;
}

TypeAnswer from_json(const Json& said) {
  constexpr std::array verdicts{Verdict::go, Verdict::caution, Verdict::refer};
  TypeAnswer answer;
  for (const Verdict verdict : verdicts)
    if (report::verdict_word(verdict) == said.at("verdict").get<std::string>()) answer.verdict = verdict;
  answer.ratio = said.at("ratio");
  answer.odds = {said.at("odds").at("low"), said.at("odds").at("best"), said.at("odds").at("high")};
  answer.reason = said.at("reason");
  return answer;
}

// Keys that hold words: what an odd one is odd in.
std::vector<std::string> choice_keys(const std::vector<Job>& jobs, const Reference& reference) {
  std::vector<std::string> keys;
  for (const JobKey& row : reference.job_keys) {
    if (row.kind != JobKey::Kind::choice) continue;
    for (const std::string& key : concrete_keys(row.name))
      if (std::any_of(jobs.begin(), jobs.end(), [&](const Job& job) { return job.values.contains(key); }))
        keys.push_back(key);
  }
  return keys;
}

}  // namespace

std::string type(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  const Units units = units_of(request);
  const Job job = job_of(request, session);
  const TypeAnswer answer = report::type_answer(assess_briefly(job, reference, session.cache), reference, units);
  return Json{{"verdict", report::verdict_word(answer.verdict)},
              {"ratio", answer.ratio},
              {"reason", answer.reason},
              {"odds", {{"low", answer.odds.low}, {"best", answer.odds.best}, {"high", answer.odds.high}}},
              {"name", shown(word_of(job, "job.name").value_or(""))},
              {"facing", text_of(job, "pane.facing", units, reference)},
              {"film", shown(word_of(job, "film.name").value_or(""))},
              {"size", size_of(job, units, reference)}}
      .dump();
}

std::string visit(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  std::vector<Job> jobs;
  for (const Json& pane : request.at("panes"))
    jobs.push_back(pane.at("type").is_null() ? Job{} : job_as_given(pane, session));
  report::ScheduleSummary summary(choice_keys(jobs, reference), reference);
  std::size_t next = 0;
  for (const Json& pane : request.at("panes")) {
    const Job& job = jobs[next++];
    if (pane.at("type").is_null())
      summary.add_unanswered();
    else
      summary.add(pane.at("label"), job, pane.at("quantity"), from_json(pane.at("type")));
  }
  Json verdicts = Json::array();
  for (const Verdict verdict : {Verdict::go, Verdict::caution, Verdict::refer})
    verdicts.push_back({{"verdict", report::verdict_word(verdict)},
                        {"types", summary.types_of(verdict)},
                        {"panes", summary.panes_of(verdict)}});
  return Json{{"odd", summary.odd_ones()},        {"verdicts", verdicts},       {"panes", summary.panes()},
              {"not_examined", summary.errors()}, {"breaks", summary.breaks()}, {"safety_note", safety_note(reference)}}
      .dump();
}

}  // namespace sunstrain::page
