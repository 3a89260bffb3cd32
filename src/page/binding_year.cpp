// The year of a pane, by month and hour.
#include "../report/words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "sunstrain/year_table.hpp"

namespace sunstrain::page {

std::string year(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  const Assessment assessment = assess_briefly(job_of(request, session), reference, session.cache);
  const YearTable table = year_table(assessment, reference, session.cache);
  const Moment& worst = assessment.lites[table.lite].after.when;
  return Json{{"sheet", report::sheet_name(reference.language, assessment, table.lite)},
              {"lite", table.lite},
              {"before", table.before},
              {"after", table.after},
              {"verdict", report::verdict_word(assessment.verdict)},
              {"ratio", assessment.stress_ratio},
              {"raised_by", assessment.raised_by()},
              {"month", worst.month},
              {"hour", static_cast<int>(worst.local_hour)},
              {"safety_note", safety_note(reference)}}
      .dump();
}

}  // namespace sunstrain::page
