// What every film of a list comes to over all panes of a table.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "rank_try.hpp"

namespace sunstrain::cli {

class RankSummary {
 public:
  RankSummary(const FilmList& list, const Language& language)
      : list_(list), language_(language), films_(list.films.size()) {}

  // In the order of the panes: sums are then the same bits for any number of threads.
  void add(const Pane& pane, const RankedPane& ranked);

  bool fault() const { return fault_; }
  bool errors() const;  // of panes, of films, or of one on the other

  // What was tried, the list's own errors, and the films: those first that are refer on the fewest panes, then
  // caution on the fewest, then that keep out most heat where they keep out least.
  std::string text(const TextStyle& style) const;

 private:
  struct Film {
    std::array<double, 3> panes{};  // by verdict
    double worst_ratio = 0.0, least_heat_kept_out = 1.0, not_tried = 0.0;
  };
  std::vector<std::size_t> order() const;
  std::string over_all(const TextStyle& style) const;

  const FilmList& list_;
  const Language& language_;
  std::vector<Film> films_;
  std::size_t types_ = 0, tried_ = 0;
  double panes_ = 0.0;
  bool film_failed_ = false, fault_ = false;
};

}  // namespace sunstrain::cli
