#include "film_try.hpp"

#include "../io/tell.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/report/reasons.hpp"

namespace sunstrain::report {

TriedFilm try_film(const Job& pane, const ListedFilm& film, const FilmList& list, const Reference& reference,
                   Units units, ChainCache& cache) {
  TriedFilm tried{{}, {film.record.line, film.name, "", film.error, !film.error.empty()}, false};
  if (tried.words.no_film) return tried;
  try {
    const Job job = with_listed_film(pane, film, list, reference);
    check_job(job, reference);
    const Assessment assessment = assess_briefly(job, reference, cache);
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

}  // namespace sunstrain::report
