// Films of a list on one pane: their order, what is left out, and what stays of the pane's own film.
#include "sunstrain/rank.hpp"

#include "support/job_text.hpp"
#include "support/jobs.hpp"

using namespace job_text;
using Films = std::vector<std::optional<FilmOnPane>>;
using Order = std::vector<std::size_t>;

namespace {

FilmOnPane film_with(Verdict verdict, double heat_kept_out, std::optional<double> daylight, double stress_ratio) {
  FilmOnPane film;
  film.verdict = verdict;
  film.shgc_before = 0.8;
  film.shgc_after = 1.0 - heat_kept_out;
  film.daylight = daylight;
  film.stress_ratio = stress_ratio;
  return film;
}

// 0 refer, 1 go, 2 could not be tried, 3 caution, 4 go (as 1 in all that is sorted by), 5 go, no daylight
Films some_films() {
  return {film_with(Verdict::refer, 0.7, 0.2, 1.5),
          film_with(Verdict::go, 0.4, 0.6, 0.8),
          std::nullopt,
          film_with(Verdict::caution, 0.5, 0.4, 1.1),
          film_with(Verdict::go, 0.4, 0.6, 0.8),
          film_with(Verdict::go, 0.45, std::nullopt, 0.9)};
}

Order order(RankBy by) {
  RankChoice choice;
  choice.by = by;
  return rank_films(some_films(), choice).shown;
}

std::vector<std::pair<std::size_t, LeftOut::Why>> left_out(const RankChoice& choice) {
  std::vector<std::pair<std::size_t, LeftOut::Why>> out;
  for (const LeftOut& film : rank_films(some_films(), choice).left_out) out.emplace_back(film.film, film.why);
  return out;
}

}  // namespace

TEST_CASE("rank: every order, ties as the list has them, a film without the figure last") {
  CHECK(order(RankBy::verdict) == Order{5, 1, 4, 3, 0});
  CHECK(order(RankBy::heat) == Order{0, 3, 5, 1, 4});
  CHECK(order(RankBy::daylight) == Order{1, 4, 3, 0, 5});
  CHECK(order(RankBy::stress) == Order{1, 4, 5, 3, 0});
  CHECK(order(RankBy::list) == Order{0, 1, 3, 4, 5});
}

TEST_CASE("rank: what is left out, and the first reason for it") {
  using Why = LeftOut::Why;
  using Left = std::vector<std::pair<std::size_t, Why>>;
  CHECK(left_out({}) == Left{});
  RankChoice choice;
  choice.at_worst = Verdict::caution;
  CHECK(left_out(choice) == Left{{0, Why::verdict}});
  choice.least_daylight = 0.5;
  CHECK(left_out(choice) == Left{{0, Why::verdict}, {3, Why::daylight}, {5, Why::daylight_not_given}});
  choice.least_heat_kept_out = 0.45;
  CHECK(left_out(choice) ==
        Left{{0, Why::verdict}, {1, Why::heat}, {3, Why::daylight}, {4, Why::heat}, {5, Why::daylight_not_given}});
  choice = {};
  choice.first = 2;
  CHECK(rank_films(some_films(), choice).shown == Order{5, 1});
  CHECK(left_out(choice) == Left{{0, Why::beyond_first}, {3, Why::beyond_first}, {4, Why::beyond_first}});
  CHECK(rank_films({}, choice).shown.empty());
}

TEST_CASE("rank: of the pane's own film only where it goes stays") {
  const Job pane =
      without_film(with(sound(), {"film.name=A", "film.shgc=0.5", "film.visible_transmittance=0.4", "film.surface=1",
                                  "film.edge_gap=2 mm", "film.weathering=5 %", "second_film.solar_absorptance=0.2"}));
  std::vector<std::string> keys;
  for (const auto& [key, value] : pane.values) keys.push_back(key);
  CHECK(keys == std::vector<std::string>{"film.edge_gap", "film.surface", "film.weathering", "pane.height",
                                         "pane.width", "second_film.solar_absorptance"});
  for (const char* key : where_film_goes) {
    CAPTURE(key);
    CHECK(std::any_of(reference().job_keys.begin(), reference().job_keys.end(),
                      [&](const JobKey& row) { return row.name == key; }));
  }
}

TEST_CASE("rank: films on one pane that share a cache are each assessed to the last bit as alone", "[slow]") {
  const std::vector<std::vector<std::string>> films{
      {"film.solar_transmittance=0.60", "film.solar_reflectance=0.12", "film.visible_transmittance=0.7"},
      {"film.solar_absorptance=0.62", "film.reference_glass=6-mm-clear"},
      {"film.solar_transmittance=0.30", "film.solar_reflectance=0.33", "film.emissivity=0.30"},
      {"film.shgc=0.62", "film.solar_transmittance=0.55"}};
  const Job open =
      without_film(read(read_text_file(std::string(SUNSTRAIN_SOURCE_DIR) + "/examples/stair-window.toml")));
  const Job shaded = without_film(test::complete_double({"shading.overhang_depth=0.5 m", "frame.kind=aluminum"}));
  int decided = 0;
  for (const Job& pane : {open, shaded}) {
    ChainCache cache;
    for (const auto& keys : films) {
      const Job job = with(pane, keys);
      const Assessment alone = assess(job, reference());
      const FilmOnPane lone = film_on_pane(alone), shared = film_on_pane(assess_briefly(job, reference(), cache));
      CHECK(shared.verdict == lone.verdict);
      CHECK(shared.figures == lone.figures);
      CHECK(shared.guidance == lone.guidance);
      CHECK(shared.stress_ratio == alone.stress_ratio);
      CHECK(shared.stress_ratio_middle == alone.stress_ratio_middle);
      CHECK(shared.shgc_before == alone.before.shgc);
      CHECK(shared.shgc_after == alone.after.shgc);
      CHECK(shared.open_rules.size() == alone.open_rules.size());
      CHECK(shared.daylight == number_of(job, "film.visible_transmittance"));
      REQUIRE(shared.rules.size() == alone.rules.size());
      for (std::size_t i = 0; i < shared.rules.size(); ++i) CHECK(shared.rules[i].id == alone.rules[i].id);
      std::vector<std::string> deciding, expected;
      for (const Deciding& unknown : shared.deciding) deciding.push_back(unknown.key);
      for (const UnknownTaken& unknown : alone.unknowns)
        if (unknown.decided) expected.push_back(unknown.key);
      CHECK(deciding == expected);
      decided += static_cast<int>(deciding.size());
    }
  }
  CHECK(decided > 0);
}

TEST_CASE("rank: a film and a pane known in part are ranked as they are assessed, daylight by its least") {
  const Job job = with(read(read_text_file(std::string(SUNSTRAIN_SOURCE_DIR) + "/examples/reading-room.toml")),
                       {"film.visible_transmittance=60 % to 70 %", "lite.1.thickness=4 to 6 mm"});
  CHECK(without_film(job).partly.size() == 1);
  ChainCache cache;
  const FilmOnPane film = film_on_pane(assess_briefly(job, reference(), cache));
  CHECK(film.daylight == Approx(0.60));
  CHECK(film.stress_ratio == assess(job, reference()).stress_ratio);
}
