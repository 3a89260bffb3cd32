#include "rank_try.hpp"

#include <fmt/format.h>

#include "../report/tell.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/report/reasons.hpp"

namespace sunstrain::cli {

Tried try_film(Trial trial, const FilmList& list, const Reference& reference, Units units, SharedCaches& caches) {
  Tried tried{std::move(trial), {}, {}, false};
  const Pane& pane = *tried.trial.pane;
  if (!pane.error.empty()) return tried;
  const ListedFilm& film = list.films[tried.trial.film];
  tried.words = {film.record.line, film.name, "", film.error, !film.error.empty()};
  if (tried.words.no_film) return tried;
  try {
    const Job job = with_listed_film(pane.job, film, list, reference);
    check_job(job, reference);
    std::unique_ptr<ChainCache> cache = caches.borrow(pane.number);
    const Assessment assessment = assess_briefly(job, reference, *cache);
    caches.give_back(std::move(cache), pane.number);
    tried.on_pane = film_on_pane(assessment);
    tried.words.reason = reasons_of(assessment, reference, units).front().text;
  } catch (const BadInput& error) {
    tried.words.error = told(reference.language, error);
  } catch (const std::exception& error) {
    tried.words.error =
        tell(reference.language, "{}, line {}: fault of the program: {}", list.source, film.record.line, error.what());
    tried.fault = true;
  }
  return tried;
}

}  // namespace sunstrain::cli
