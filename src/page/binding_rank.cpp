// The films of a list on one pane, as `rank` has them.
#include <emscripten.h>

#include "../io/job_words.hpp"
#include "../io/tell.hpp"
#include "../report/film_try.hpp"
#include "binding_requests.hpp"
#include "text_source.hpp"

// clang-format off
EM_JS(void, tell_progress, (int done, int of), { if (Module["progress"]) Module["progress"](done, of); });
// clang-format on

namespace sunstrain::page {

std::string rank(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  const Job pane = pane_for_list(job_as_given(request, session), reference);
  const std::string source = shown(request.value("films_name", "the list")), text = request.at("films");
  CsvReader reader(from_text(text), source);
  const CsvRecord header = header_row(reader, source);
  const FilmList list = read_film_list(reader, header, source, reference);
  RankedPane ranked{pane.source, word_of(pane, "job.name").value_or(tell(reference.language, "this pane")), {}, {}};
  for (const ListedFilm& film : list.films) {
    report::TriedFilm tried = report::try_film(pane, film, list, reference, units_of(request), session.cache);
    ranked.words.push_back(std::move(tried.words));
    ranked.films.push_back(std::move(tried.on_pane));
    tell_progress(static_cast<int>(ranked.films.size()), static_cast<int>(list.films.size()));
  }
  return rank_json(ranked, {}, reference);
}

}  // namespace sunstrain::page
