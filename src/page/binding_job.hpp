// Internal: what a request of the page says of a pane.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "sunstrain/io/interview.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain::page {

struct Session;

using Json = nlohmann::ordered_json;

// A question of the form that applies beside the answers before it.
struct Put {
  Asking asking;
  std::vector<Answer> offered;
  bool needed = false;
  std::string refused;  // why what was answered cannot be taken; empty: it was taken, or nothing was
};
struct Form {
  Interview interview;
  std::vector<Put> put;  // in the table's order
};

// "thickness.2": a question's name, of one put of each lite with the lite's number. Under it the page keeps the answer.
std::string id_of(const Asking& asking);

// The answers of the request, {id: text, or of a question with several a list of texts}, to all questions that apply,
// over its job file. A text that is empty stands for "don't know". Throws BadInput where the job file cannot be read.
Form form_of(const Json& request, const Session& session);

// The job of {source?, toml?: a job file's text, answers? as above, set?: [[key, text], ...] over both}, complete and
// checked. Throws BadInput for what cannot be taken.
Job job_of(const Json& request, const Session& session);
// The same, neither complete nor checked as a whole.
Job job_as_given(const Json& request, const Session& session);

Units units_of(const Json& request);

}  // namespace sunstrain::page
