// What the form asks beside the answers so far.
#include <algorithm>
#include <set>

#include "../report/words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/question_text.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain::page {
namespace {

const char* kind_word(JobKey::Kind kind) {
  switch (kind) {
    case JobKey::Kind::text:
      return "text";
    case JobKey::Kind::choice:
      return "choice";
    case JobKey::Kind::length:
      return "length";
    case JobKey::Kind::thickness:
      return "thickness";
    case JobKey::Kind::temperature:
      return "temperature";
    case JobKey::Kind::difference:
      return "difference";
    case JobKey::Kind::fraction:
      return "fraction";
    case JobKey::Kind::angle:
      return "angle";
    case JobKey::Kind::number:
      return "number";
    case JobKey::Kind::hour:
      return "hour";
    case JobKey::Kind::years:
      return "years";
    case JobKey::Kind::u_value:
      return "u_value";
    case JobKey::Kind::date:
      return "date";
  }
  return "";
}

const char* asked_word(Question::Asked asked) {
  return asked == Question::Asked::always ? "always" : asked == Question::Asked::quick ? "quick" : "whole";
}

bool is_number(JobKey::Kind kind) {
  return kind != JobKey::Kind::text && kind != JobKey::Kind::choice && kind != JobKey::Kind::date;
}

// What the job says of the key, as a person reads it; empty where it says nothing, or several things.
std::string known_text(const Job& job, const std::string& key, const JobKey& row, Units units) {
  const auto found = job.values.find(key);
  return found == job.values.end() ? "" : format_value(row, found->second, units);
}

// A key whose value is given as such: how it is written, and what the job says of it.
Json field_of(const std::string& key, const Job& job, const Reference& reference, Units units) {
  const JobKey& row = *find_job_key(reference.job_keys, key);
  Json field{{"key", key},
             {"kind", kind_word(row.kind)},
             {"words", row.choices},
             {"example", row.example},
             {"known", known_text(job, key, row, units)}};
  if (is_number(row.kind)) {
    field["from"] = format_in_unit(row.kind, row.minimum, row.unit);
    field["to"] = format_in_unit(row.kind, row.maximum, row.unit);
  }
  return field;
}

Json question_of(const Put& put, const Form& form, const Job& job, const Reference& reference, Units units) {
  const Question& question = *put.asking.question;
  const JobKey& row = *find_job_key(reference.job_keys, put.asking.key);
  Json json = field_of(put.asking.key, job, reference, units);
  json["id"] = id_of(put.asking);
  json["name"] = question.name;
  json["part"] = question.part;
  json["lite"] = lite_asked(put.asking, job, reference.language);
  json["ask"] = question.ask;
  json["find"] = question.find.empty() ? row.question : question.find;
  json["answers"] = Json::array();
  for (const Answer& answer : put.offered) json["answers"].push_back(answer.say);
  json["several"] = question.several;
  json["takes_value"] = takes_value(question, row);
  json["needed"] = put.needed;
  json["asked"] = asked_word(question.asked);
  json["before"] = known_text(form.interview.base, put.asking.key, row, units);
  json["refused"] = put.refused;
  return json;
}

Json rules_for(const Job& job, const Reference& reference) {
  Json rules = Json::array();
  for (const Rule* rule : newly_fired({}, job, reference))
    rules.push_back({{"severity", report::verdict_word(verdict_of(rule->severity))}, {"text", rule->text}});
  return rules;
}

std::set<std::string> patterns_of(const Questions& questions) {
  std::set<std::string> patterns;
  for (const Question& question : questions.rows) {
    patterns.insert(question.key);
    for (const auto& [key, text] : question.also) patterns.insert(key_pattern(key));
    for (const Answer& answer : question.answers)
      for (const auto& [key, text] : answer.set) patterns.insert(key_pattern(key));
    patterns.insert(key_pattern(question.key));
  }
  return patterns;
}

// Keys that no question is about and that have a meaning beside the job, or may have one.
Json others(const Job& job, const Questions& questions, Units units) {
  const Reference& reference = *questions.reference;
  const std::set<std::string> asked = patterns_of(questions);
  const Facts facts = with_parts_settled(job, Run::middle, {}, reference).values;
  Json fields = Json::array();
  for (const JobKey& row : reference.job_keys) {
    if (!row.refused.empty() || row.name == "weather" || asked.contains(key_pattern(row.name))) continue;
    for (const std::string& key : concrete_keys(row.name)) {
      if (key_applies(row, key, facts) == Truth::no) continue;
      Json field = field_of(key, job, reference, units);
      field["ask"] = row.sentence;
      field["find"] = row.question;
      field["before"] = known_text(job, key, row, units);
      fields.push_back(std::move(field));
    }
  }
  return fields;
}

}  // namespace

std::string questions_for(const Json& request, Session& session) {
  const Questions& questions = session.questions;
  const Reference& reference = *questions.reference;
  const Units units = units_of(request);
  const Form form = form_of(request, session);
  const Job job = sunstrain::job_of(form.interview, reference);
  Json asked = Json::array();
  for (const Put& put : form.put) asked.push_back(question_of(put, form, job, reference, units));
  return Json{
      {"questions", asked}, {"others", others(job, questions, units)}, {"rules", rules_for(job, session.reference)}}
      .dump();
}

}  // namespace sunstrain::page
