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
std::string check(const Json& request, Session& session);

// {questions: [{id, name, key, part, lite, ask, find, answers, several, takes_value, needed, asked, before, known,
// refused, kind, words, example, and of numbers from, to}], others: [{key, ask, find, before, known, kind, words,
// example, from, to}], rules: [{severity, text}]}. `lite`: "Outer lite. " where it is put of each; `answers`: the list
// to pick from; `takes_value`: a value of `kind`, or one of `words`, may be given; `asked`: "always", "quick" or
// "whole", as the table has it; `before`: what the job file says, `known`: the same with the answers; `refused`: why
// the answer cannot be taken. `others`: keys that no question is about. `rules`: what guidance asks or refers for
// already.
std::string questions_for(const Json& request, Session& session);

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
