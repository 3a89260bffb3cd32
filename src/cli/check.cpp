// sunstrain check: jobs in, answers out.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "../io/tell.hpp"
#include "answer_options.hpp"
#include "command.hpp"
#include "ctrl_c.hpp"
#include "jobs.hpp"
#include "own_rules.hpp"
#include "progress.hpp"
#include "sampling.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/assessment_json.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("full", "every lite before and after film, both runs, the odds")(
      "fail-on", po::value<std::string>()->value_name("caution|refer"),
      "exit code 1 when an answer is that bad or worse")("template", "a job file to fill in, every key explained");
  add_sampling_options(all);
  add_answer_options(all);
  return all;
}

Outcome template_only(const po::variables_map& given) {
  if (given.size() > 1 + given.count("language"))
    throw BadInput("--template: prints an empty job and goes with no other option or file");
  return {job_template(reference_of(given))};
}

std::string printed(const std::vector<Assessment>& answers, bool several, const Reference& reference,
                    const TextStyle& style) {
  std::string text;
  for (const Assessment& answer : answers) {
    if (several) text += fmt::format("{}{}:\n", text.empty() ? "" : "\n", answer.job.source);
    text += text_answer(answer, reference, style);
  }
  return text;
}

Exit exit_of(const std::vector<Assessment>& answers, const std::string& fail_on) {
  if (fail_on == "never") return ran;
  const Verdict least = fail_on == "refer" ? Verdict::refer : Verdict::caution;
  const auto bad = [&](const Assessment& answer) { return answer.verdict >= least; };
  return std::any_of(answers.begin(), answers.end(), bad) ? failed_on : ran;
}

// The answers in the jobs' order; at Ctrl-C those that are done, the last perhaps with some of its samples.
std::vector<Assessment> answers_of(std::vector<Job> jobs, const Texts& files, const std::optional<Sampling>& sampling,
                                   const Reference& reference) {
  std::vector<Assessment> answers;
  std::optional<CtrlC> stop;  // of one job alone there is nothing to save: Ctrl-C ends it at once
  if (jobs.size() > 1 || sampling) stop.emplace();
  Progress progress(tell(reference.language, "jobs"), jobs.size(), jobs.size() > 1 && !sampling);
  for (std::size_t i = 0; i < jobs.size() && !(stop && stop->pressed()); ++i) {
    const auto weather = take_weather(jobs[i], files.empty() ? "" : files[i], reference);
    ChainCache cache;
    Assessment& answer = answers.emplace_back(assess(jobs[i], reference, cache, weather ? &*weather : nullptr));
    answer.drivers = drivers_of(answer, reference, cache);
    if (sampling) answer.samples = draw_samples(answer, reference, *sampling, *stop);
    progress.done(answers.size());
  }
  return answers;
}

// Whether Ctrl-C left a job or some of its samples undone.
bool cut_short(const std::vector<Assessment>& answers, std::size_t jobs, bool sampled) {
  const auto undone = [&](const Assessment& answer) { return sampled && (!answer.samples || answer.samples->stopped); };
  return answers.size() < jobs || std::any_of(answers.begin(), answers.end(), undone);
}

std::string stopped_text(std::size_t answers, std::size_t jobs, bool sampled, const Language& language) {
  return (sampled ? tell(language, "Stopped: {} of {} jobs answered, the last with the samples that were done.",
                         answers, jobs)
                  : tell(language, "Stopped: {} of {} jobs answered.", answers, jobs)) +
         "\n";
}

}  // namespace

std::string check_help(const Language& language) {
  return tell(language,
              "sunstrain check [JOB.toml ...] [options]: whether a pane takes a film, and why\n\n"
              "  sunstrain check stair.toml\n"
              "  sunstrain check stair.toml --set film.solar_absorptance=0.38 --full\n"
              "  sunstrain check --set pane.width=\"36 in\" --set pane.height=\"5 ft\" \\\n"
              "      --set film.solar_absorptance=0.45\n\n"
              "Only the pane's size and the film are needed; what is left out is taken at its\n"
              "worst plausible value, and the answer says so; so is what is known in part,\n"
              "\"5 to 7 mm\" or \"none or low-e-soft\". sunstrain check --template\n"
              "explains every key. The file name \"-\" reads standard input.\n\n"
              "--samples 10000 draws what is left out, and the weather, at random and works the\n"
              "pane each time: how far the answer spreads, the odds of a break, how much of\n"
              "the spread each unknown owns, and which one to find out first.\n\n") +
         option_list(options(), language) +
         tell(language,
              "\nExit codes: 0 it ran, whatever the verdict; 1 --fail-on and that bad;\n2 bad input; 3 a fault of the "
              "program;\n130 stopped by Ctrl-C among several jobs or samples, with what was done.\n");
}

Outcome check(const Words& words) {
  const po::variables_map given = read_options(words, options(), "job", "check");
  if (given.count("template") > 0) return template_only(given);
  const Texts files = texts_of(given, "job"), settings = texts_of(given, "set");
  if (files.empty() && settings.empty()) {
    throw BadInput(
        "check: name a job file or give its keys with --set; sunstrain check --template prints one to fill in");
  }
  const std::string fail_on = word_among(given, "fail-on", {"caution", "refer"}, "never");
  const std::optional<Sampling> sampling = sampling_of(given);
  const TextStyle style = style_of(given);
  const Reference reference = reference_of(given);
  const std::vector<Job> jobs = jobs_of(files, settings, reference);
  const std::vector<Assessment> answers = answers_of(jobs, files, sampling, reference);
  const bool several = jobs.size() > 1, cut = cut_short(answers, jobs.size(), sampling.has_value());
  return {given.count("json") > 0 ? assessments_json(answers, several, reference, style.units)
                                  : printed(answers, several, reference, style),
          cut ? stopped : exit_of(answers, fail_on),
          cut ? stopped_text(answers.size(), jobs.size(), sampling.has_value(), reference.language) : ""};
}

}  // namespace sunstrain::cli
