// Internal: the kinds of request of the page, each in a file of its own. JSON in, the text of JSON out; throws BadInput
// for what cannot be taken.
#pragma once

#include <string>

#include "binding_job.hpp"
#include "sunstrain/assess.hpp"

namespace sunstrain::page {

// What the requests of one engine share: the tables, and the maps of the panes asked about last.
struct Session {
  const Questions& questions;  // in English: the page tells them itself, and answers go by their English words
  const Reference& reference;  // in the request's language
  ChainCache& cache;
};

// {answer: as `check --json` has it, text: as `check` prints it, picture: {sheet, governing, width_m, height_m, bite_m,
// pattern, share}, taken: {key: value}}: the name of the sheet that governs, its place in the answer's lites, and the
// pane's sizes and lasting shadow as the bad end took them; how it took what is not known. Of the request beside a job:
// units ("metric" or "inch"), of the printed text width and full, and `depth`: "whole" when left out; "first", a first
// look (first_look.hpp) with the request's `before`, the `taken` of an earlier answer, `answer` null where there is
// none; "verdict", the answer without what stands beside the verdict (assess_briefly). Those two have no text.
// at_least, at_most: between which the verdict is; of a first look as FirstLook has them, else the verdict.
std::string check(const Json& request, Session& session);

// {questions: [{id, name, key, part, lite, ask, find, answers, several, takes_value, needed, asked, before, known,
// refused, kind, words, example, and of numbers from, to}], others: [{key, ask, find, before, known, kind, words,
// example, from, to}], rules: [{severity, text}]}. `lite`: "Outer lite. " where it is put of each; `answers`: the list
// to pick from; `takes_value`: a value of `kind`, or one of `words`, may be given; `asked`: "always", "quick" or
// "whole", as the table has it; `before`: what the job file says, `known`: the same with the answers; `refused`: why
// the answer cannot be taken. `others`: keys that no question is about. `rules`: what guidance asks or refers for
// already.
std::string questions_for(const Json& request, Session& session);

// {sheet, lite, before, after, verdict, ratio, raised_by, month, hour, safety_note}: of the sheet that governs the
// ratio by month and hour as year_table has it, twelve lists of 24 numbers; the answer's own ratio, by which the plane
// raised it, and when its worst hour is (month from 1, hour from 0).
std::string year(const Json& request, Session& session);

// What rank_json says. Of the request beside a job, whose own film is left aside: films, a table's text, and
// films_name. The module's `progress(done, of)`, where it has one, is called after each film.
std::string rank(const Json& request, Session& session);

// One type of pane of a visit, as `schedule` answers it: {verdict, ratio, reason, odds: {low, best, high}, name,
// facing, film, size}: the last four as texts for a list, "" where not given.
std::string type(const Json& request, Session& session);

// What a visit comes to: {odd: lines, verdicts: [{verdict, types, panes}], panes, not_examined (types), breaks, a
// sentence, safety_note}. Of the request: panes, a list of jobs as above, each with quantity, label and `type`, what
// the request of that name said; null where it was refused.
std::string visit(const Json& request, Session& session);

// {panes: [{name, toml, quantity} or {name, refused}]} of a job file or a schedule, whatever it says at all: text,
// name. A row that cannot be read has the reason. Throws BadInput for a text that is neither.
std::string read(const Json& request, Session& session);

// {text, keys: [[key, text], ...]}: of a request about one job its job file and what stands in it; {text} of one with
// panes (each a job with quantity) a schedule.
std::string write(const Json& request, Session& session);

// Practice, of what the request holds beside `units`:
//   window: a scenario's id, or source and toml: a trainer's job file; seed   {answer, text, picture as above, offers:
//     [{text, right}], compare: [line], lesson, rules: [{id, training}]}
//   score: [{item, topic, answered?, verdict?, picked_right}]   what practice.hpp makes of them, under its names
//   table: the same with date, learner, picked, right and tables   {csv: a crew's table (practice_rows.hpp)}
//   else, own: [{source, toml}]   {topics: [{id, name, again}], windows and own: [{id, title, topic, see, pad:
//   [line]}],
//     drills: [{id, title, topic, see, ask, right, wrong, proves, proves_not}], note}; of a file that cannot be
//     {refused: one line}
std::string practice(const Json& request, Session& session);

// What `check` has as `picture`.
Json picture_of(const Assessment& assessment, const Language& language);

// {version, tables, safety_note, languages: {code: {name, texts: {English: the same in it}}}}
std::string about(const Json& request, Session& session);

}  // namespace sunstrain::page
