// Internal: one film of a list tried on a pane.
#pragma once

#include <optional>

#include "sunstrain/io/film_list.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/report/rank_report.hpp"

namespace sunstrain::report {

struct TriedFilm {
  std::optional<FilmOnPane> on_pane;
  FilmWords words;
  bool fault = false;  // the program's, not the film's
};

// `pane` is without its film (rank.hpp). The cache may be one that other films on the pane had; after a fault it is to
// be let go.
TriedFilm try_film(const Job& pane, const ListedFilm& film, const FilmList& list, const Reference& reference,
                   Units units, ChainCache& cache);

}  // namespace sunstrain::report
