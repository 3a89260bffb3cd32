#include "binding_job.hpp"

#include <algorithm>

#include "../io/job_words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain::page {
namespace {

std::string source_of(const Json& request) { return request.value("source", "the form"); }

Job base_of(const Json& request, const Reference& reference) {
  const std::string source = source_of(request);
  if (!request.contains("toml")) return {source, {}};
  const std::string& text = request["toml"].get_ref<const std::string&>();
  require_text(text, source);
  return read_job_toml(text, source, reference);
}

// What interview.hpp takes: of several answers picked their numbers, since their words may hold commas.
std::string typed_text(const Json& answer, const std::vector<Answer>& offered) {
  if (answer.is_string()) return answer;
  std::string numbers;
  for (const Json& picked : answer) {
    const auto same = [&](const Answer& one) { return one.say == picked.get<std::string>(); };
    const auto found = std::find_if(offered.begin(), offered.end(), same);
    if (found == offered.end()) return picked;
    numbers += std::to_string(found - offered.begin() + 1) + ",";
  }
  return numbers;
}

// Whether a list alone has the text on it. An answer that changes what is offered may leave one that is not.
bool fits(const Put& put, const std::string& text, const Reference& reference) {
  const Question& question = *put.asking.question;
  const JobKey& row = *find_job_key(reference.job_keys, put.asking.key);
  if (put.offered.empty() || question.several || takes_value(question, row)) return true;
  return std::any_of(put.offered.begin(), put.offered.end(), [&](const Answer& one) { return one.say == text; });
}

// Over the answers so far: the interview with this one more where it can be taken, else the reason.
void answer(Interview& interview, Put& put, const Json& given, const Session& session) {
  const std::string text = typed_text(given, put.offered);
  if (text.empty()) return;
  if (!fits(put, text, *session.questions.reference)) {
    put.refused =
        said(saying("{}: {} fits the answers before it no more: pick another", put.asking.key, sunstrain::quoted(text)),
             session.reference.language);
    return;
  }
  try {
    interview = answered(interview, put.asking, text, *session.questions.reference);
  } catch (const BadInput& error) {
    put.refused = told(session.reference.language, error);
  }
}

}  // namespace

std::string id_of(const Asking& asking) {
  const bool of_lite = asking.question->key.find('*') != std::string::npos;
  return asking.question->name + (of_lite ? "." + std::to_string(instance_number(asking.key)) : "");
}

Form form_of(const Json& request, const Session& session) {
  const Reference& reference = *session.questions.reference;
  Form form;
  form.interview.base = base_of(request, reference);
  const Json answers = request.value("answers", Json::object());
  for (Asking& asking : all_askings(session.questions)) {
    const Job job = job_of(form.interview, reference);
    if (!applies(asking, job, reference)) continue;
    const std::string id = id_of(asking);
    Put put{asking, offered_answers(asking, job, reference), is_needed(asking, job, reference), ""};
    if (answers.contains(id)) answer(form.interview, put, answers[id], session);
    form.put.push_back(std::move(put));
  }
  return form;
}

Job job_as_given(const Json& request, const Session& session) {
  const Reference& reference = *session.questions.reference;
  const Form form = form_of(request, session);
  for (const Put& put : form.put)
    if (!put.refused.empty()) throw BadInput(put.refused);
  Job job = job_of(form.interview, reference);
  for (const Json& pair : request.value("set", Json::array()))
    set_value(job, pair.at(0).get<std::string>(), pair.at(1).get<std::string>(), job.source, reference);
  if (word_of(job, "weather"))
    throw BadInput("{}: weather: the page reads no weather file; the program does (sunstrain check)", job.source);
  return job;
}

Job job_of(const Json& request, const Session& session) {
  Job job = job_as_given(request, session);
  check_job(job, *session.questions.reference);
  return job;
}

Units units_of(const Json& request) { return request.value("units", "metric") == "inch" ? Units::inch : Units::metric; }

}  // namespace sunstrain::page
