// The answer for one pane.
#include "../io/job_words.hpp"
#include "../report/json_parts.hpp"
#include "../report/words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/first_look.hpp"
#include "sunstrain/report/assessment_json.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::page {
namespace {

double or_zero(const Job& job, const char* key) { return number_of(job, key).value_or(0.0); }

// How the bad end took each key that the job does not give.
Json taken_of(const Assessment& a) {
  Json taken = Json::object();
  for (const auto& [key, value] : a.bad_end.values) {
    if (!a.job.values.contains(key)) taken[key] = report::json_of(value);
  }
  return taken;
}

// The request that was answered last, with its answer's `taken` and stress_ratio.
AssessedBefore before_of(const Json& request, Session& session) {
  AssessedBefore before;
  if (!request.contains("before")) return before;
  const Json& last = request["before"];
  for (const auto& [key, value] : last["taken"].items()) before.bad_end[key] = report::value_of(value);
  before.job = job_of(last["request"], session);
  if (last["stress_ratio"].is_number()) before.stress_ratio = last["stress_ratio"].get<double>();
  return before;
}

Assessment assessed(const Job& job, const std::string& depth, Session& session) {
  const Reference& reference = session.reference;
  if (depth == "verdict") return assess_briefly(job, reference, session.cache);
  if (depth != "whole") throw BadInput("depth: {} is none; allowed: first, verdict, whole", sunstrain::quoted(depth));
  Assessment assessment = assess(job, reference, session.cache);
  assessment.drivers = drivers_of(assessment, reference, session.cache);
  return assessment;
}

FirstLook as_it_is(Assessment assessment) {
  const Verdict verdict = assessment.verdict;
  return {std::move(assessment), verdict, verdict};
}

}  // namespace

// What the pane looks like as the bad end took it, and which sheet of it governs.
Json picture_of(const Assessment& a, const Language& language) {
  const Job& job = a.bad_end;
  return {{"sheet", report::sheet_name(language, a, a.governing_lite)},
          {"governing", a.governing_lite},
          {"width_m", or_zero(job, "pane.width")},
          {"height_m", or_zero(job, "pane.height")},
          {"bite_m", or_zero(job, "frame.bite")},
          {"pattern", word_of(job, "shading.pattern").value_or("none")},
          {"share", or_zero(job, "shading.share")}};
}

std::string check(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  const std::string depth = request.value("depth", "whole");
  const Job job = job_of(request, session);
  const std::optional<FirstLook> found = depth == "first"
                                             ? first_look(job, before_of(request, session), reference, session.cache)
                                             : as_it_is(assessed(job, depth, session));
  if (!found) return R"({"answer":null})";
  const Assessment& assessment = found->assessment;
  const Units units = units_of(request);
  std::string text;
  if (depth == "whole")
    text = text_answer(assessment, reference, {request.value("width", 80), false, request.value("full", false), units});
  return R"({"answer":)" + assessments_json({&assessment, 1}, false, reference, units) + R"(,"text":)" +
         Json(text).dump() + R"(,"picture":)" + picture_of(assessment, reference.language).dump() + R"(,"taken":)" +
         taken_of(assessment).dump() + R"(,"at_least":")" + report::verdict_word(found->at_least) + R"(","at_most":")" +
         report::verdict_word(found->at_most) + R"("})";
}

}  // namespace sunstrain::page
