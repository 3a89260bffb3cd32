#include "rank_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "../io/job_words.hpp"
#include "../report/rank_json.hpp"
#include "../report/words.hpp"
#include "schedule_answer.hpp"

namespace sunstrain::cli {
namespace {

bool is_films(const ScheduleColumn& column, const FilmList& list) {
  if (column.holds != ScheduleColumn::Holds::key || !column.name.starts_with("film.")) return false;
  return std::find(where_film_goes.begin(), where_film_goes.end(), column.name) == where_film_goes.end() ||
         std::any_of(list.layout.columns.begin(), list.layout.columns.end(),
                     [&](const ScheduleColumn& film) { return film.name == column.name; });
}

}  // namespace

const std::vector<std::string>& rank_columns() {
  static const std::vector<std::string> names{"answer.place",         "answer.verdict",  "answer.ratio",
                                              "answer.heat_kept_out", "answer.heat_cut", "answer.daylight",
                                              "answer.reason",        "answer.rules"};
  return names;
}

std::vector<std::string> film_columns(const ScheduleLayout& panes, const FilmList& list) {
  std::vector<std::string> names;
  for (const ScheduleColumn& column : panes.columns)
    if (is_films(column, list)) names.push_back(column.name);
  return names;
}

RankTable::RankTable(const FilmList& list, const TableIn& films, const TableIn& written_as, const ScheduleLayout* panes,
                     const Language& language)
    : list_(list), films_(films), written_as_(written_as), language_(language) {
  if (panes == nullptr) return;
  for (std::size_t i = 0; i < panes->columns.size(); ++i) {
    if (is_films(panes->columns[i], list)) continue;
    kept_.push_back(i);
    pane_header_.push_back(written_as.header.cells[i]);
  }
}

std::string RankTable::line(const Pane& pane, std::vector<std::string> film,
                            const std::vector<std::string>& answer) const {
  std::vector<std::string> cells;
  for (const std::size_t i : kept_) cells.push_back(i < pane.record.cells.size() ? pane.record.cells[i] : "");
  film.resize(list_.layout.columns.size());
  cells.insert(cells.end(), film.begin(), film.end());
  cells.insert(cells.end(), answer.begin(), answer.end());
  return written_as_.line(cells);
}

std::string RankTable::first_line() const {
  std::vector<std::string> cells = pane_header_;
  cells.insert(cells.end(), films_.header.cells.begin(), films_.header.cells.end());
  cells.insert(cells.end(), rank_columns().begin(), rank_columns().end());
  return written_as_.first_line(cells);
}

std::vector<std::string> RankTable::answer_cells(std::size_t place, const FilmOnPane& film,
                                                 const std::string& reason) const {
  const auto number = [&](double figure) { return written_as_.number_cell(figure); };
  return {std::to_string(place),
          report::verdict_word(film.verdict),
          number(film.stress_ratio),
          number(film.heat_kept_out()),
          number(film.heat_cut()),
          film.daylight ? number(*film.daylight) : "",
          reason,
          rules_cell(report::rule_ids(film.rules, film.open_rules))};
}

std::string RankTable::lines(const Pane& pane, const RankedPane& ranked, const RankChoice& choice) const {
  const auto failed = [](const std::string& why) {
    return std::vector<std::string>{"", "error", "", "", "", "", why, ""};
  };
  if (!pane.error.empty()) return line(pane, {}, failed(pane.error));
  std::string text;
  std::size_t place = 0;
  for (const std::size_t i : rank_films(ranked.films, choice).shown)
    text += line(pane, list_.films[i].record.cells, answer_cells(++place, *ranked.films[i], ranked.words[i].reason));
  for (std::size_t i = 0; i < ranked.films.size(); ++i)
    if (!ranked.films[i]) text += line(pane, list_.films[i].record.cells, failed(ranked.words[i].no_answer(language_)));
  return text;
}

std::string rank_json_line(const Pane& pane, const RankedPane& ranked, const RankChoice& choice,
                           const ScheduleLayout& layout, const Language& language) {
  nlohmann::ordered_json line{{"line", pane.record.line}, {"cells", cells_json(pane.record, layout)}};
  if (!pane.error.empty()) {
    line["verdict"] = "error";
    line["error"] = pane.error;
  } else {
    line["quantity"] = std::llround(pane.quantity);
    line.update(report::json_of(ranked, choice, language));
  }
  return line.dump() + "\n";
}

}  // namespace sunstrain::cli
