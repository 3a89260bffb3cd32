// A list of films, read as a schedule is, and its films put on a pane.
#include "sunstrain/io/film_list.hpp"

#include <cstring>

#include "sunstrain/rank.hpp"
#include "support/job_text.hpp"

using namespace job_text;
using Names = std::vector<std::string>;

namespace {

FilmList list_of(const std::string& text) {
  CsvReader reader(
      [text, at = std::size_t{0}](char* to, std::size_t size) mutable {
        const std::size_t n = std::min(size, text.size() - at);
        std::memcpy(to, text.data() + at, n);
        at += n;
        return n;
      },
      "films.csv");
  const CsvRecord header = header_row(reader, "films.csv");
  return read_film_list(reader, header, "films.csv", reference());
}

std::string list_refusal(const std::string& text) {
  return refusal([&] { list_of(text); });
}

Names names(const FilmList& list) {
  Names all;
  for (const ListedFilm& film : list.films) all.push_back(film.name);
  return all;
}

}  // namespace

TEST_CASE("film list: a film that cannot be says so with file, line and key, and stops no other") {
  const FilmList list = list_of(
      "film.name,film.solar_transmittance,film.solar_reflectance,film.visible_transmittance,price\n"
      "A,0.6,0.1,0.7,12\n"
      "B,0.6,0.9,,\n"
      "\n"
      "C,0.6\n"
      "D,1.6,0.1,,\n"
      "E,,,0.3,\n"
      "F,\"0.6,0.1,,\n"
      "G,0.5,0.1,,\n");
  CHECK(names(list) == Names{"A", "B", "C", "D", "E", "line 8", "G"});
  CHECK(list.films[0].error.empty());
  CHECK(says(list.films[1].error, {"films.csv, line 3", "film.solar_reflectance", "more than the whole"}));
  CHECK(says(list.films[2].error, {"films.csv, line 5", "cells"}));
  CHECK(says(list.films[3].error, {"films.csv, line 6", "film.solar_transmittance", "1.6"}));
  CHECK(says(list.films[4].error, {"films.csv, line 7", "visible darkness alone cannot be used"}));
  CHECK(says(list.films[5].error, {"films.csv, line 8", "quote"}));
  CHECK(list.films[6].error.empty());
}

TEST_CASE("film list: films of one name are told apart by their lines, as are those without one") {
  CHECK(names(list_of("film.name,film.solar_absorptance\nA,0.3\nB,0.3\nA,0.4\n,0.4\n,0.5\n")) ==
        Names{"A, line 2", "B", "A, line 4", "line 5", "line 6"});
  CHECK(names(list_of("film.solar_absorptance\n0.3\n")) == Names{"line 2"});
}

TEST_CASE("film list: the columns are the film's keys; near misses and other keys are refused") {
  CHECK(says(list_refusal("film.name,film.solar_absorbtance\n"),
             {"films.csv", "film.solar_absorbtance", "film.solar_absorptance"}));
  CHECK(says(list_refusal("film.name,shgc\n"), {"films.csv", "shgc", "film.shgc"}));
  CHECK(says(list_refusal("film.shgc,film.shgc\n"), {"films.csv", "twice"}));
  CHECK(says(list_refusal("film.shgc,pane.width\n"), {"films.csv", "pane.width", "no key of the film"}));
  CHECK(says(list_refusal("film.shgc,second_film.shgc\n"), {"films.csv", "second_film.shgc", "no key of the film"}));
  CHECK(says(list_refusal("film.shgc,quantity\n"), {"films.csv", "quantity", "no key of the film"}));
  CHECK(says(list_refusal("Film,film.solar_absorptance\nA,0.3\n"), {"films.csv", "Film", "film.name"}));
  CHECK(says(list_refusal("name,film.solar_absorptance\nA,0.3\n"), {"films.csv", "name", "film.name"}));
  CHECK(says(list_refusal("price,shelf\n1,2\n"), {"films.csv", "no column"}));
  CHECK(says(list_refusal(""), {"films.csv", "empty"}));
  CHECK(says(list_refusal("film.shgc\n\n"), {"films.csv", "no film"}));
  CHECK(names(list_of("film.name,name,film.solar_absorptance\nA,B,0.3\n")) == Names{"A"});
}

TEST_CASE("film list: a decimal comma, percents, a unit in the header") {
  const FilmList list = list_of("film.name;film.solar_absorptance [%];film.emissivity\r\nA;45;0,3\r\nB;50 %;\r\n");
  CHECK(number_of(list.films[0].own, "film.solar_absorptance") == Approx(0.45));
  CHECK(number_of(list.films[0].own, "film.emissivity") == Approx(0.3));
  CHECK(number_of(list.films[1].own, "film.solar_absorptance") == Approx(0.5));
}

TEST_CASE("film list: a film on a pane is the job with its keys set; where it goes is the list's, else the pane's") {
  const FilmList list = list_of(
      "film.name,film.solar_absorptance,film.surface\n"
      "in,0.3,4\n"
      "out,0.3,1\n"
      "as the pane has it,0.3,\n"
      "whatever,0.3,unknown\n");
  const Job pane =
      without_film(sound({"glass.panes=2", "film.surface=1", "film.weathering=5 %", "film.edge_gap=2 mm"}));
  const auto on = [&](std::size_t film) { return with_listed_film(pane, list.films[film], list, reference()); };
  for (std::size_t film = 0; film < 4; ++film) {
    CHECK(number_of(on(film), "film.solar_absorptance") == Approx(0.3));
    CHECK(number_of(on(film), "film.edge_gap") == Approx(0.002));
    CHECK(check_refusal(on(film)).empty());
  }
  CHECK(word_of(on(0), "film.surface") == "4");
  CHECK_FALSE(number_of(on(0), "film.weathering"));  // indoors no weather
  for (const std::size_t film : {std::size_t{1}, std::size_t{2}}) {
    CHECK(word_of(on(film), "film.surface") == "1");
    CHECK(number_of(on(film), "film.weathering") == Approx(0.05));
  }
  CHECK_FALSE(word_of(on(3), "film.surface"));
  CHECK(on(1).source == "films.csv, line 3");
}

TEST_CASE("film list: what the list itself says of a film that has no meaning is refused, not left out") {
  const FilmList list = list_of("film.solar_absorptance,film.surface,film.weathering\n0.3,4,5 %\n");
  const Job job = with_listed_film(sound({"glass.panes=2"}), list.films[0], list, reference());
  CHECK(says(check_refusal(job), {"films.csv, line 2", "film.weathering"}));
}

TEST_CASE("film list: figures known in part are figures") {
  const FilmList list = list_of("film.name,film.solar_absorptance\nA,0.30 to 0.35\nB,0.9 to 1.2\n");
  CHECK(list.films[0].error.empty());
  CHECK(speaks_of(list.films[0].own, "film.solar_absorptance"));
  CHECK(says(list.films[1].error, {"films.csv, line 3", "film.solar_absorptance"}));
  CHECK(check_refusal(with_listed_film(without_film(sound()), list.films[0], list, reference())).empty());
}
