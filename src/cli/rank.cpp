// sunstrain rank: every film of a list on one pane, or on each pane of a table.
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/words.hpp"
#include "answer_options.hpp"
#include "command.hpp"
#include "in_order.hpp"
#include "jobs.hpp"
#include "own_rules.hpp"
#include "progress.hpp"
#include "rank_summary.hpp"
#include "rank_table.hpp"
#include "schedule_answer.hpp"
#include "table_in.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  const auto text = [](const char* name) { return po::value<std::string>()->value_name(name); };
  po::options_description all("Options");
  all.add_options()("films", text("FILMS.csv"), "your list of films")(
      "panes", text("PANES.csv"), "a table of panes, as for sunstrain schedule, in place of a job")(
      "defaults", text("JOB.toml"), "beside --panes: keys for every row which leaves them blank")(
      "sort", text("ORDER"),
      "verdict (go first, then most heat kept out), heat, daylight, stress (least first) or list (as they stand); "
      "verdict when left out")("at-worst", text("go|caution"), "only films that are no worse")(
      "least-heat", text("SHARE"), "only films that keep out that much of the sun's heat, in all: 50%")(
      "least-daylight", text("SHARE"), "only films whose sheet says that much daylight: 40%")(
      "first", text("N"), "only the first N of each pane")(
      "output,o", text("FILE"), "also as a table: a row for each film, on each pane; with --json as that");
  add_answer_options(all);
  add_threads_option(all,
                     worded("rows worked at once; all cores when left out. The output is the same for any number"));
  return all;
}

RankChoice choice_of(const po::variables_map& given) {
  constexpr int most_films = 1'000'000;
  static const std::vector<std::string> orders{"verdict", "heat", "daylight", "stress", "list"};
  const std::string order = word_among(given, "sort", orders, orders.front());
  RankChoice choice;
  choice.by = static_cast<RankBy>(std::find(orders.begin(), orders.end(), order) - orders.begin());
  const std::string worst = word_among(given, "at-worst", {"go", "caution"}, "refer");
  choice.at_worst = worst == "go" ? Verdict::go : worst == "caution" ? Verdict::caution : Verdict::refer;
  const JobKey share = quantity_key(JobKey::Kind::fraction, "%", 0.0, 1.0, "share");
  choice.least_heat_kept_out = number_of(given, "least-heat", share, 0.0);
  choice.least_daylight = number_of(given, "least-daylight", share, 0.0);
  if (given.count("first") > 0) choice.first = static_cast<std::size_t>(whole_number(given, "first", 1, most_films, 1));
  return choice;
}

// The list and what it is read from, which stays open: at Ctrl-C it says so.
struct Films {
  TableIn in;
  FilmList list;

  Films(const std::string& path, const Reference& reference)
      : in(path), list(read_film_list(in.reader, in.header, in.file.name(), reference)) {
    refuse_answer_columns(list.layout, rank_columns(), list.source);
  }
};

struct Panes {
  TableIn in;
  ScheduleLayout layout;
  Job defaults;

  Panes(const std::string& path, Job all, const Reference& reference)
      : in(path),
        layout(schedule_layout(in.header, in.reader.separator(), in.file.name(), reference)),
        defaults(std::move(all)) {
    refuse_answer_columns(layout, rank_columns(), in.file.name());
  }

  std::optional<Pane> next(const Reference& reference) {
    std::optional<CsvRecord> record;
    do {
      record = in.next();
      if (!record) return std::nullopt;
    } while (record->blank());
    Pane pane;
    pane.record = std::move(*record);
    try {
      const ScheduleRow row = schedule_row(layout, pane.record, defaults, reference);
      pane.job = row.job;
      pane.quantity = row.quantity;
      pane.job = with_settings(row.job, {}, reference, Film::listed);
    } catch (const BadInput& error) {
      pane.error = told(reference.language, error);
    }
    return pane;
  }
};

// Tries every film on every pane and hands the panes on in their order, each with all of its films.
class Ranker {
 public:
  using NextPane = std::function<std::optional<Pane>()>;
  using TakePane = std::function<void(const Pane&, const RankedPane&)>;

  Ranker(Films& films, const Reference& reference, Units units) : films_(films), reference_(reference), units_(units) {}

  void run(const NextPane& next_pane, const TakePane& take_pane, std::size_t threads, Progress progress) {
    take_pane_ = take_pane;
    std::size_t tried = 0;
    InOrder<Trial, Tried>(
        [&] { return next(next_pane); },
        [&](Trial trial) { return try_film(std::move(trial), films_.list, reference_, units_, caches_); },
        [&](Tried one) {
          take(std::move(one));
          progress.done(++tried);
        })
        .run(threads);
    if (gathered_for_) finish_pane();
  }

  bool cut() const { return films_.in.file.stopped(); }
  bool fault() const { return fault_; }

 private:
  std::optional<Trial> next(const NextPane& next_pane) {
    if (cut()) return std::nullopt;
    if (!drawn_ || !drawn_->error.empty() || next_film_ == films_.list.films.size()) {
      std::optional<Pane> pane = next_pane();
      if (!pane) return std::nullopt;
      pane->number = panes_drawn_++;
      drawn_ = std::make_shared<const Pane>(std::move(*pane));
      next_film_ = 0;
    }
    return Trial{drawn_, next_film_++};
  }

  void take(Tried tried) {
    if (!gathered_for_) gathered_for_ = tried.trial.pane;
    fault_ = fault_ || tried.film.fault;
    gathered_.words.push_back(std::move(tried.film.words));
    gathered_.films.push_back(std::move(tried.film.on_pane));
    if (!gathered_for_->error.empty() || gathered_.films.size() == films_.list.films.size()) finish_pane();
  }

  // Of a pane that Ctrl-C cut short the films that were done stand.
  void finish_pane() {
    const Pane& pane = *gathered_for_;
    const bool of_table = !pane.record.cells.empty();
    for (std::size_t i = gathered_.films.size(); pane.error.empty() && i < films_.list.films.size(); ++i) {
      const ListedFilm& film = films_.list.films[i];
      gathered_.words.push_back({film.record.line, film.name, "", "", false});
      gathered_.films.emplace_back();
    }
    gathered_.source = pane.job.source;
    const Language& language = reference_.language;
    gathered_.title = of_table ? fmt::format("{} ({})", row_label(pane.record, pane.job, language),
                                             report::panes_text(pane.quantity, language))
                               : word_of(pane.job, "job.name").value_or(tell(language, "this pane"));
    take_pane_(pane, gathered_);
    gathered_ = {};
    gathered_for_ = nullptr;
  }

  Films& films_;
  const Reference& reference_;
  Units units_;
  SharedCaches caches_;
  TakePane take_pane_;
  std::shared_ptr<const Pane> drawn_, gathered_for_;
  std::size_t next_film_ = 0, panes_drawn_ = 0;
  RankedPane gathered_;
  bool fault_ = false;
};

// What the command line says of either way.
struct Asked {
  TextStyle style;
  RankChoice choice;
  bool json;
  std::size_t threads;
  std::string output;
};

Exit exit_of(const Ranker& ranker, bool errors) {
  return ranker.fault() ? fault : ranker.cut() ? stopped : errors ? bad_input : ran;
}

// A job's real year has no say in a verdict.
std::string year_left_aside(const Job& job, const Language& language, const TextStyle& style) {
  const std::optional<std::string> weather = word_of(job, "weather");
  return weather ? report::labeled(tell(language, "Left aside"),
                                   tell(language, "the year of {}: films are ranked on the design days", *weather),
                                   report::label_columns, style.width)
                 : "";
}

Outcome rank_on_job(const po::variables_map& given, const Asked& asked, const Reference& reference) {
  const Job job = one_job_of(texts_of(given, "job"), texts_of(given, "set"), reference, "rank", Film::listed);
  Films films(text_of(given, "films", ""), reference);
  std::optional<RowsOut> out;
  if (!asked.output.empty()) out.emplace(asked.output);
  std::optional<Pane> only(std::in_place);
  only->job = job;
  std::string text;
  bool errors = false;
  Ranker ranker(films, reference, asked.style.units);
  ranker.run([&] { return std::exchange(only, std::nullopt); },
             [&](const Pane& pane, const RankedPane& ranked) {
               errors = std::any_of(ranked.films.begin(), ranked.films.end(), [](const auto& film) { return !film; });
               const std::string json = asked.json ? rank_json(ranked, asked.choice, reference) : "";
               if (out) {
                 const RankTable table(films.list, films.in, films.in, nullptr, reference.language);
                 out->write(asked.json ? json : table.first_line() + table.lines(pane, ranked, asked.choice));
                 out->finish();
               }
               text = asked.json && !out ? json
                                         : ranked_pane_text(ranked, asked.choice, reference, asked.style, true) +
                                               year_left_aside(job, reference.language, asked.style) +
                                               rank_legend(reference, asked.style);
             },
             asked.threads, Progress(tell(reference.language, "films"), films.list.films.size()));
  return {text, exit_of(ranker, errors),
          ranker.cut() ? tell(reference.language, "Stopped before the end of the list.") + "\n" : ""};
}

Outcome rank_on_panes(const po::variables_map& given, const Asked& asked, const Reference& reference) {
  Films films(text_of(given, "films", ""), reference);
  Panes panes(text_of(given, "panes", ""), defaults_of(given, reference), reference);
  const bool to_file = !asked.output.empty(), as_text = !to_file && !asked.json;
  RowsOut out(asked.output);
  const RankTable table(films.list, films.in, panes.in, &panes.layout, reference.language);
  if (!asked.json && to_file) out.write(table.first_line());
  const Language& language = reference.language;
  RankSummary summary(films.list, language);
  Ranker ranker(films, reference, asked.style.units);
  const auto take = [&](const Pane& pane, const RankedPane& ranked) {
    summary.add(pane, ranked);
    if (asked.json)
      out.write(rank_json_line(pane, ranked, asked.choice, panes.layout, language));
    else if (to_file)
      out.write(table.lines(pane, ranked, asked.choice));
    else if (pane.error.empty())
      out.write(ranked_pane_text(ranked, asked.choice, reference, asked.style, false) + "\n");
    else
      out.write(report::labeled(tell(language, "No answer"), pane.error, report::label_columns, asked.style.width) +
                "\n");
  };
  ranker.run([&] { return panes.next(reference); }, take, asked.threads,
             Progress(tell(language, "films on panes"), 0, to_file || !output_is_terminal()));
  out.finish();
  std::string text =
      (ranker.cut() ? tell(language, "Stopped before the end of the table.") + "\n" : "") + summary.text(asked.style);
  if (const auto columns = film_columns(panes.layout, films.list); !columns.empty())
    text += report::labeled(tell(language, "Left aside"),
                            tell(language, "{} of {}: the films are the list's", joined(columns), panes.in.file.name()),
                            report::label_columns, asked.style.width);
  text += rank_legend(reference, asked.style);
  const Exit exit = exit_of(ranker, summary.errors());
  return as_text || to_file ? Outcome{text, exit, ""} : Outcome{"", exit, text};
}

void require_one_way(const po::variables_map& given) {
  const auto has = [&](const char* name) { return given.count(name) > 0; };
  if (!has("films")) throw BadInput("rank: name your list with --films; sunstrain rank --help shows how");
  if (has("panes") && (has("job") || has("set")))
    throw BadInput("rank: --panes stands in place of a job and of --set; what all its rows share goes into --defaults");
  if (has("defaults") && !has("panes")) throw BadInput("--defaults: goes with --panes");
  if (has("output") && text_of(given, "output", "").empty()) throw BadInput("--output: names no file");
  const Texts jobs = texts_of(given, "job");
  const bool job_from_input = std::find(jobs.begin(), jobs.end(), "-") != jobs.end();
  if (text_of(given, "films", "") == "-" && (job_from_input || text_of(given, "panes", "") == "-"))
    throw BadInput("--films = \"-\": standard input cannot be both, the films and the panes");
}

}  // namespace

std::string rank_help(const Language& language) {
  return tell(language,
              "sunstrain rank JOB.toml --films FILMS.csv [options]: your films on a pane\n\n"
              "  sunstrain rank stair.toml --films my-films.csv\n"
              "  sunstrain rank stair.toml --films my-films.csv --at-worst go --sort daylight\n"
              "  sunstrain rank --panes panes.csv --defaults site.toml --films my-films.csv\n\n"
              "FILMS.csv is your own list, as a spreadsheet saves it: a row for each film, the\n"
              "columns named as the film's keys of a job, from its sheet: film.name,\n"
              "film.solar_transmittance, film.solar_reflectance or film.shgc,\n"
              "film.reference_glass, film.visible_transmittance (sunstrain check --template\n"
              "explains them). Other columns are your own. A film that cannot be says why and\n"
              "stops no other. The job's own film is left aside; where it goes (surface, a band\n"
              "left bare) holds for the list's, unless the list has a column for that.\n\n"
              "Each film's verdict and stress are those of sunstrain check. With --panes every\n"
              "pane of a table has its list, and at the end stands what each film comes to over\n"
              "all of them; --json is then a line for each pane. The table of -o has your own\n"
              "columns and\n") +
         report::labeled("", joined(rank_columns()) + ".", 0, usual_width) + "\n" + option_list(options(), language) +
         tell(language,
              "\nExit codes: 0 every film was tried, whatever the verdicts; 2 a film or a pane\n"
              "was not, or bad input; 3 a fault of the program; 130 stopped by Ctrl-C, with\n"
              "what was done.\n");
}

Outcome rank(const Words& words) {
  const po::variables_map given = read_options(words, options(), "job", "rank");
  require_one_way(given);
  const Reference reference = reference_of(given);
  const Asked asked{style_of(given), choice_of(given), given.count("json") > 0, threads_of(given),
                    text_of(given, "output", "")};
  return given.count("panes") > 0 ? rank_on_panes(given, asked, reference) : rank_on_job(given, asked, reference);
}

}  // namespace sunstrain::cli
