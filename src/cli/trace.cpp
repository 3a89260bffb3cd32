// sunstrain trace: the working behind one answer.
#include <algorithm>

#include "../io/tell.hpp"
#include "command.hpp"
#include "jobs.hpp"
#include "own_rules.hpp"
#include "sunstrain/report/trace_report.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("set", po::value<Texts>()->value_name("KEY=VALUE")->composing(),
                    "over the file; repeat it. A whole job can be given so")("json", "the same as JSON");
  add_rules_option(all);
  all.add_options()("help", "this page");
  return all;
}

}  // namespace

std::string trace_help(const Language& language) {
  return tell(language,
              "sunstrain trace JOB.toml [options]: the working behind an answer\n\n"
              "  sunstrain trace stair.toml\n"
              "  sunstrain trace stair.toml --json\n\n"
              "The hour that governs, stage by stage from the sun to what the edge bears: each\n"
              "figure with its unit and the source of its equation or value. Then the same pane\n"
              "by hand methods of national standards, and against published limits.\n\n") +
         option_list(options(), language);
}

Outcome trace(const Words& words) {
  const po::variables_map given = read_options(words, options(), "job", "trace");
  const Texts files = texts_of(given, "job"), settings = texts_of(given, "set");
  const Reference reference = reference_of(given);
  const Job job = one_job_of(files, settings, reference, "trace");
  const Trace working = trace(job, reference);
  return {given.count("json") > 0 ? trace_json(working, reference)
                                  : trace_text(working, reference, std::min(terminal_width(), usual_width))};
}

}  // namespace sunstrain::cli
