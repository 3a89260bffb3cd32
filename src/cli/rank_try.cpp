#include "rank_try.hpp"

namespace sunstrain::cli {

Tried try_film(Trial trial, const FilmList& list, const Reference& reference, Units units, SharedCaches& caches) {
  Tried tried{std::move(trial), {}};
  const Pane& pane = *tried.trial.pane;
  if (!pane.error.empty()) return tried;
  std::unique_ptr<ChainCache> cache = caches.borrow(pane.number);
  tried.film = report::try_film(pane.job, list.films[tried.trial.film], list, reference, units, *cache);
  if (!tried.film.fault) caches.give_back(std::move(cache), pane.number);
  return tried;
}

}  // namespace sunstrain::cli
