// What the page asks of the engine: one request as JSON in, one answer as JSON out.
#include <exception>
#include <nlohmann/json.hpp>
#include <string>

#include "../io/job_words.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/assessment_json.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "sunstrain/report/text_answer.hpp"

using namespace sunstrain;
using Json = nlohmann::ordered_json;

namespace {

Job job_of(const Json& request, const Reference& reference) {
  const std::string source = request.value("source", "the form");
  Job job{source, {}};
  if (request.contains("toml")) {
    const std::string& text = request["toml"].get_ref<const std::string&>();
    require_text(text, source);
    job = read_job_toml(text, source, reference);
  }
  for (const Json& pair : request.value("set", Json::array()))
    set_value(job, pair.at(0).get<std::string>(), pair.at(1).get<std::string>(), source, reference);
  check_job(job, reference);
  if (word_of(job, "weather"))
    throw BadInput(source + ": weather: the page reads no weather file; the program does (sunstrain check)");
  return job;
}

std::string answer_to(const Json& request) {
  const Reference& reference = builtin_reference();
  ChainCache cache;
  Assessment assessment = assess(job_of(request, reference), reference, cache);
  assessment.drivers = drivers_of(assessment, reference, cache);
  const Units units = request.value("units", "metric") == "inch" ? Units::inch : Units::metric;
  const TextStyle style{request.value("width", 80), false, request.value("full", false), units};
  const std::string text = Json(text_answer(assessment, reference, style)).dump();
  return R"({"answer":)" + assessments_json({&assessment, 1}, false, reference, units) + R"(,"text":)" + text + "}";
}

// One line, and nothing in it but what a person can read.
std::string refusal(const char* kind, const char* what) { return Json{{kind, shown(what, std::string::npos)}}.dump(); }

// A key as the form asks for it.
Json field_of(const JobKey& key) {
  const bool number =
      key.kind != JobKey::Kind::text && key.kind != JobKey::Kind::choice && key.kind != JobKey::Kind::date;
  Json field{{"key", key.name},          {"required", key.required}, {"choices", key.choices},
             {"sentence", key.sentence}, {"find", key.question},     {"example", key.example}};
  if (number) {
    field["forms"] = allowed_forms(key.kind);
    field["from"] = format_in_unit(key.kind, key.minimum, key.unit);
    field["to"] = format_in_unit(key.kind, key.maximum, key.unit);
  }
  return field;
}

std::string form() {
  const Reference& reference = builtin_reference();
  Json fields = Json::array();
  for (const JobKey& key : reference.job_keys)
    if (key.refused.empty() && key.name != "weather") fields.push_back(field_of(key));
  return Json{{"version", SUNSTRAIN_VERSION},
              {"tables", reference.version},
              {"safety_note", safety_note(reference)},
              {"fields", fields}}
      .dump();
}

// The text that the page holds until the next call.
template <typename Make>
const char* held(Make make) {
  static std::string text;
  try {
    text = make();
  } catch (const BadInput& error) {
    text = refusal("refused", error.what());
  } catch (const std::exception& error) {
    text = refusal("fault", error.what());
  }
  return text.c_str();
}

}  // namespace

// request: {source?, toml?: a job file's text, set?: [[key, text], ...] over it, units?: "metric" | "inch", width?: of
// the printed text, full?}. Returns {answer: as `check --json` has it, text: as `check` prints it}, {refused: one line}
// for bad input, or {fault: one line}.
extern "C" const char* sunstrain_answer(const char* request) {
  return held([&] { return answer_to(Json::parse(request)); });
}

// What the form asks: {version, tables, safety_note, fields: [{key, required, choices, sentence, find, example, and of
// numbers forms, from, to}]} in the order of the key table; a star in a key stands for the number of a lite or cavity.
extern "C" const char* sunstrain_form() { return held(form); }
