// The answer for one pane.
#include "../report/words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/report/assessment_json.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::page {
namespace {

double or_zero(const Job& job, const char* key) { return number_of(job, key).value_or(0.0); }

// What the pane looks like as the bad end took it, and which sheet of it governs.
Json picture_of(const Assessment& a) {
  const Job& job = a.bad_end;
  return {{"sheet", report::sheet_name(a, a.governing_lite)},
          {"governing", a.governing_lite},
          {"width_m", or_zero(job, "pane.width")},
          {"height_m", or_zero(job, "pane.height")},
          {"bite_m", or_zero(job, "frame.bite")},
          {"pattern", word_of(job, "shading.pattern").value_or("none")},
          {"share", or_zero(job, "shading.share")}};
}

}  // namespace

std::string check(const Json& request, const Questions& questions) {
  const Reference& reference = *questions.reference;
  ChainCache cache;
  Assessment assessment = assess(job_of(request, questions), reference, cache);
  assessment.drivers = drivers_of(assessment, reference, cache);
  const Units units = units_of(request);
  const TextStyle style{request.value("width", 80), false, request.value("full", false), units};
  const std::string text = Json(text_answer(assessment, reference, style)).dump();
  return R"({"answer":)" + assessments_json({&assessment, 1}, false, reference, units) + R"(,"text":)" + text +
         R"(,"picture":)" + picture_of(assessment).dump() + "}";
}

}  // namespace sunstrain::page
