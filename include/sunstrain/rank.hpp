// Films of a list on one pane: what each does there, and their order.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "sunstrain/assess.hpp"

namespace sunstrain {

// The keys of a film that say where it goes and not what it is: its surface, how near it comes to the frame, the band
// it leaves bare, and what the weather does to it there. They are of the pane: films of a list go on alike.
inline constexpr std::array<const char*, 5> where_film_goes{"film.surface", "film.edge_gap", "film.bare",
                                                            "film.bare_share", "film.weathering"};

// A pane's job without its film, but with where that goes.
Job without_film(Job job);

// An unknown whose most likely value would make the film go on figures.
struct Deciding {
  std::string key;
  Value most_likely;
};

// What one film does on the pane. Shares and ratios as in Assessment.
struct FilmOnPane {
  Verdict verdict = Verdict::go, figures = Verdict::go, guidance = Verdict::go;
  double stress_ratio = 0.0, stress_ratio_middle = 0.0;
  double shgc_before = 0.0, shgc_after = 0.0;  // of the glazing, most likely values
  // Visible transmittance by the film's sheet, on the sheet's glass; the least where it is known in part.
  std::optional<double> daylight;
  std::vector<Rule> rules;           // fired, worst first
  std::vector<OpenRule> open_rules;  // beside them
  std::vector<Deciding> deciding;

  // Share of the sun's heat on the glass that does not come in, 0 to 1: 1 - SHGC with film.
  double heat_kept_out() const { return 1.0 - shgc_after; }
  // Of what comes in without film, the share that the film keeps out: 1 - SHGC with film / SHGC without. Below 0 where
  // more comes in with it.
  double heat_cut() const { return 1.0 - shgc_after / shgc_before; }
};

FilmOnPane film_on_pane(const Assessment& assessment);

// What stands first. verdict: go before caution before refer, and of each the film that keeps out most heat; heat and
// daylight: most of it, films without the figure last; stress: the least stress ratio; list: the list's own order,
// which also settles ties.
enum class RankBy { verdict, heat, daylight, stress, list };

struct RankChoice {
  RankBy by = RankBy::verdict;
  Verdict at_worst = Verdict::refer;
  double least_heat_kept_out = 0.0;  // 0: whatever it is; 0 to 1. A film's own figure counts in whole percents
  double least_daylight = 0.0;       // the same; above 0 a film without the figure is left out
  std::optional<std::size_t> first;  // films shown at most
};

// Why a film is not shown. The first that holds counts.
struct LeftOut {
  enum class Why { verdict, heat, daylight, daylight_not_given, beyond_first };
  std::size_t film;
  Why why;
};

struct Ranking {
  std::vector<std::size_t> shown;  // indices of the films, first one first
  std::vector<LeftOut> left_out;
};

// Of the films that could be worked; where there is none at an index, it is passed over.
Ranking rank_films(const std::vector<std::optional<FilmOnPane>>& films, const RankChoice& choice);

}  // namespace sunstrain
