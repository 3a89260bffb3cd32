// sunstrain limit: how dark a film one pane takes.
#include "../io/tell.hpp"
#include "answer_options.hpp"
#include "command.hpp"
#include "ctrl_c.hpp"
#include "jobs.hpp"
#include "own_rules.hpp"
#include "progress.hpp"
#include "sunstrain/report/limit_report.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  po::options_description all("Options");
  add_answer_options(all);
  return all;
}

// Nothing where Ctrl-C ended the search.
std::optional<FilmLimits> limits_of(const Job& job, const Reference& reference) {
  struct Stopped {};
  const CtrlC stop;
  Progress progress(tell(reference.language, "films tried"));
  std::size_t films = 0;
  try {
    return film_limits(job, reference, [&] {
      if (stop.pressed()) throw Stopped{};
      progress.done(++films);
    });
  } catch (const Stopped&) {
    return std::nullopt;
  }
}

}  // namespace

std::string limit_help(const Language& language) {
  return tell(language,
              "sunstrain limit JOB.toml [options]: how dark a film the pane takes\n\n"
              "  sunstrain limit stair.toml\n"
              "  sunstrain limit --set pane.width=\"36 in\" --set pane.height=\"5 ft\"\n\n"
              "The highest solar absorptance of a film with which the pane stays go, and stays\n"
              "caution, as it is and with each thing mended that check says would help. It is\n"
              "the figure of the film's sheet, film and glass together; the answer says on\n"
              "which glass. The job's film may be left out. Where it has a solar reflectance\n"
              "that stays as it is; else the worst counts. Trade guidance has its say: a rule\n"
              "that holds the pane back whatever the film is named.\n\n") +
         option_list(options(), language);
}

Outcome limit(const Words& words) {
  const po::variables_map given = read_options(words, options(), "job", "limit");
  const TextStyle style = style_of(given);
  const Reference reference = reference_of(given);
  const Job job = one_job_of(texts_of(given, "job"), texts_of(given, "set"), reference, "limit", Film::sought);
  const std::optional<FilmLimits> limits = limits_of(job, reference);
  if (!limits) return {"", stopped, tell(reference.language, "Stopped before the limit was found.") + "\n"};
  return {given.count("json") > 0 ? limit_json(*limits, reference) : limit_text(*limits, reference, style)};
}

}  // namespace sunstrain::cli
