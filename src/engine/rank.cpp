#include "sunstrain/rank.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace sunstrain {
namespace {

using Why = LeftOut::Why;

// In whole percents, as it is printed.
bool reaches(double share, double least) { return std::round(100.0 * share) >= 100.0 * least - 1e-9; }

std::optional<Why> left_out(const FilmOnPane& film, const RankChoice& choice) {
  if (film.verdict > choice.at_worst) return Why::verdict;
  if (choice.least_heat_kept_out > 0.0 && !reaches(film.heat_kept_out(), choice.least_heat_kept_out)) return Why::heat;
  if (choice.least_daylight <= 0.0) return std::nullopt;
  if (!film.daylight) return Why::daylight_not_given;
  if (!reaches(*film.daylight, choice.least_daylight)) return Why::daylight;
  return std::nullopt;
}

std::optional<double> least_of(const Job& job, const std::string& key) {
  const auto known = job.partly.find(key);
  if (known == job.partly.end()) return number_of(job, key);
  return std::get<double>(*std::min_element(known->second.values.begin(), known->second.values.end()));
}

bool stands_before(const FilmOnPane& a, const FilmOnPane& b, RankBy by) {
  switch (by) {
    case RankBy::verdict:
      return std::make_tuple(a.verdict, a.shgc_after) < std::make_tuple(b.verdict, b.shgc_after);
    case RankBy::heat:
      return a.shgc_after < b.shgc_after;
    case RankBy::daylight:
      return a.daylight > b.daylight;  // nothing is less than any figure
    case RankBy::stress:
      return a.stress_ratio < b.stress_ratio;
    case RankBy::list:
      return false;
  }
  return false;
}

}  // namespace

Job without_film(Job job) {
  const auto of_the_film = [](const auto& item) {
    return item.first.starts_with("film.") &&
           std::find(where_film_goes.begin(), where_film_goes.end(), item.first) == where_film_goes.end();
  };
  std::erase_if(job.values, of_the_film);
  std::erase_if(job.partly, of_the_film);
  return job;
}

FilmOnPane film_on_pane(const Assessment& a) {
  FilmOnPane film{a.verdict,
                  a.figures,
                  a.guidance,
                  a.stress_ratio,
                  a.stress_ratio_middle,
                  a.before.shgc,
                  a.after.shgc,
                  least_of(a.job, "film.visible_transmittance"),
                  a.rules,
                  a.open_rules,
                  {}};
  for (const UnknownTaken& unknown : a.unknowns)
    if (unknown.decided) film.deciding.push_back({unknown.key, unknown.taken_middle});
  return film;
}

Ranking rank_films(const std::vector<std::optional<FilmOnPane>>& films, const RankChoice& choice) {
  Ranking ranking;
  for (std::size_t i = 0; i < films.size(); ++i) {
    if (!films[i]) continue;
    if (const auto why = left_out(*films[i], choice))
      ranking.left_out.push_back({i, *why});
    else
      ranking.shown.push_back(i);
  }
  std::stable_sort(ranking.shown.begin(), ranking.shown.end(),
                   [&](std::size_t a, std::size_t b) { return stands_before(*films[a], *films[b], choice.by); });
  while (choice.first && ranking.shown.size() > *choice.first) {
    ranking.left_out.push_back({ranking.shown.back(), Why::beyond_first});
    ranking.shown.pop_back();
  }
  return ranking;
}

}  // namespace sunstrain
