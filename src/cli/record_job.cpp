#include "record_job.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/json_parts.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/assessment_json.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;
using report::json_of, report::value_of;

std::vector<std::string> personal_keys(const Job& job, const Reference& reference) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : job.values) {
    const JobKey* row = find_job_key(reference.job_keys, key);
    if (row != nullptr && row->personal) keys.push_back(key);
  }
  return keys;
}

}  // namespace

Job without_personal(Job job, const Reference& reference) {
  for (const std::string& key : personal_keys(job, reference)) forget(job, key);
  job.source = "record";
  return job;
}

std::vector<record::Apart> personal_texts(const Job& job, const Reference& reference) {
  std::vector<record::Apart> texts;
  for (const std::string& key : personal_keys(job, reference)) texts.push_back({key, *word_of(job, key)});
  return texts;
}

std::string job_json(const Job& job) {
  Json values = Json::object(), partly = Json::object();
  for (const auto& [key, value] : job.values) values[key] = json_of(value);
  for (const auto& [key, known] : job.partly) {
    Json list = Json::array();
    for (const Value& value : known.values) list.push_back(json_of(value));
    partly[key] = {{"values", std::move(list)}, {"likely", json_of(known.likely)}};
    if (known.range) partly[key]["range"] = {known.range->first, known.range->second};
  }
  return Json{{"values", std::move(values)}, {"partly", std::move(partly)}}.dump();
}

Job job_of_json(const std::string& text, const std::string& source, const Reference& reference) {
  Job job{source, {}};
  const Json document = Json::parse(text);
  const auto known_key = [&](const std::string& key) {
    if (find_job_key(reference.job_keys, key) == nullptr)
      throw BadInput(say("{}: {}: this program has no such key any more", source, shown(key)));
    return key;
  };
  for (const auto& [key, value] : document.at("values").items()) job.values[known_key(key)] = value_of(value);
  for (const auto& [key, known] : document.at("partly").items()) {
    PartlyKnown& partly = job.partly[known_key(key)];
    for (const Json& value : known.at("values")) partly.values.push_back(value_of(value));
    partly.likely = value_of(known.at("likely"));
    if (known.contains("range")) partly.range.emplace(known["range"].at(0), known["range"].at(1));
  }
  return job;
}

std::string result_json(Assessment answer, const Reference& reference) {
  for (Job* job : {&answer.job, &answer.bad_end, &answer.middle}) *job = without_personal(*job, reference);
  if (answer.weather) answer.weather->source = "weather file";
  return Json::parse(assessments_json({&answer, 1}, false, reference, Units::metric)).dump();
}

std::string tables_json(const Reference& reference) {
  Json files = Json::object();
  for (const auto& [name, text] : embedded_reference_files())
    if (is_data(name)) files[name] = record::sha256_hex(text);
  return Json{{"version", reference.version}, {"files", std::move(files)}}.dump();
}

}  // namespace sunstrain::cli
