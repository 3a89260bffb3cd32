// Every film of a list tried on every pane: the pieces of work, and what comes of each.
#pragma once

#include <cstddef>
#include <memory>
#include <string>

#include "../report/film_try.hpp"
#include "shared_caches.hpp"

namespace sunstrain::cli {

// One pane of a table, or the only one of a job.
struct Pane {
  std::size_t number = 0;  // from 0, in their order
  CsvRecord record;        // empty for a job's
  Job job;                 // without its film
  double quantity = 1.0;
  std::string error;   // not empty: why no film can be tried on it
  bool fault = false;  // the program's, not the row's
};

// One film on one pane; of a pane with an error the only piece.
struct Trial {
  std::shared_ptr<const Pane> pane;
  std::size_t film;
};

struct Tried {
  Trial trial;
  report::TriedFilm film;
};

Tried try_film(Trial trial, const FilmList& list, const Reference& reference, Units units, SharedCaches& caches);

}  // namespace sunstrain::cli
