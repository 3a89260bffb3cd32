#include "rank_summary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <tuple>

#include "../report/type_answer.hpp"
#include "../report/words.hpp"

namespace sunstrain::cli {

void RankSummary::add(const Pane& pane, const RankedPane& ranked) {
  ++types_;
  fault_ = fault_ || pane.fault;
  if (!pane.error.empty()) return;
  ++tried_;
  panes_ += pane.quantity;
  for (std::size_t i = 0; i < films_.size(); ++i) {
    Film& film = films_[i];
    if (!ranked.films[i]) {
      film_failed_ = true;
      film.not_tried += pane.quantity;
      continue;
    }
    const FilmOnPane& on_pane = *ranked.films[i];
    film.panes.at(static_cast<std::size_t>(on_pane.verdict)) += pane.quantity;
    film.worst_ratio = std::max(film.worst_ratio, on_pane.stress_ratio);
    film.least_heat_kept_out = std::min(film.least_heat_kept_out, on_pane.heat_kept_out());
  }
}

bool RankSummary::errors() const { return tried_ < types_ || film_failed_; }

std::vector<std::size_t> RankSummary::order() const {
  std::vector<std::size_t> films(films_.size());
  std::iota(films.begin(), films.end(), std::size_t{0});
  std::erase_if(films, [&](std::size_t i) { return !list_.films[i].error.empty(); });
  const auto standing = [&](std::size_t i) {
    const Film& film = films_[i];
    return std::make_tuple(film.panes[2] + film.not_tried, film.panes[1], -film.least_heat_kept_out);
  };
  std::stable_sort(films.begin(), films.end(), [&](std::size_t a, std::size_t b) { return standing(a) < standing(b); });
  return films;
}

std::string RankSummary::over_all(const TextStyle& style) const {
  constexpr int figures_width = 42;
  const auto names = static_cast<std::size_t>(style.width - figures_width);
  std::string text = fmt::format("{:<{}}", tell(language_, "Over all panes"), names) +
                     tell(language_, "     go  caution  refer   worst least heat") + "\n";
  text += fmt::format("{:>{}}\n", tell(language_, "share    kept out"), style.width);
  bool some_not_tried = false;
  for (const std::size_t i : order()) {
    const Film& film = films_[i];
    const bool none = film.panes[0] + film.panes[1] + film.panes[2] == 0.0;
    some_not_tried = some_not_tried || film.not_tried > 0.0;
    const std::string figures = fmt::format("{:>7.0f}{:>9.0f}{:>7.0f}{:>8}{:>11}", film.panes[0], film.panes[1],
                                            film.panes[2], none ? "" : fmt::format("{:.2f}", film.worst_ratio),
                                            none ? "" : report::percent_text(film.least_heat_kept_out));
    text += "  " + report::named_row(list_.films[i].name, 2, figures, style.width);
  }
  if (some_not_tried)
    text += report::labeled(
        "", tell(language_, "Where the three are fewer than all panes, the film could not be tried on the others."), 2,
        style.width);
  return text;
}

std::string RankSummary::text(const TextStyle& style) const {
  std::string line =
      tell(language_, "{} of {} pane types tried, {}", tried_, types_, report::panes_text(panes_, language_));
  if (tried_ < types_) line += tell(language_, "; {} could not be: its place says why", types_ - tried_);
  std::string text = report::labeled("", line, 0, style.width);
  for (const ListedFilm& film : list_.films) {
    if (!film.error.empty())
      text += report::labeled(tell(language_, "No answer"), fmt::format("{}: {}", film.name, film.error),
                              report::label_columns, style.width);
  }
  return tried_ == 0 ? text : text + over_all(style);
}

}  // namespace sunstrain::cli
