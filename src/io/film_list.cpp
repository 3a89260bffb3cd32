#include "sunstrain/io/film_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "job_check.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/rank.hpp"

namespace sunstrain {

namespace {

using Holds = ScheduleColumn::Holds;

constexpr const char* name_key = "film.name";

std::size_t name_column(const ScheduleLayout& layout) {
  const auto found = std::find_if(layout.columns.begin(), layout.columns.end(), [](const ScheduleColumn& column) {
    return column.holds == Holds::key && column.name == name_key;
  });
  return static_cast<std::size_t>(found - layout.columns.begin());
}

// What a row says of its name even where the rest of it cannot be read.
std::string name_of(const CsvRecord& record, std::size_t column) {
  if (!record.problem.empty() || column >= record.cells.size()) return "";
  return shown(trimmed(record.cells[column]));
}

void name_films(FilmList& list) {
  const std::size_t column = name_column(list.layout);
  std::map<std::string, int> films;
  for (const ListedFilm& film : list.films) ++films[name_of(film.record, column)];
  for (ListedFilm& film : list.films) {
    const std::string name = name_of(film.record, column), line = fmt::format("line {}", film.record.line);
    film.name = name.empty() ? line : films[name] > 1 ? name + ", " + line : name;
  }
}

}  // namespace

ScheduleLayout film_list_layout(const CsvRecord& header, char separator, const std::string& source,
                                const Reference& reference) {
  ScheduleLayout layout = schedule_layout(header, separator, source, reference);
  const bool named = name_column(layout) < layout.columns.size();
  for (const ScheduleColumn& column : layout.columns) {
    const std::string where = fmt::format("{}: column {}", source, quoted(column.name));
    if (column.holds == Holds::other) {
      const std::string name = lower_case(trimmed(column.name));
      if (!named && (name == "name" || name == "film"))
        throw BadInput(say("{}: no such key; the nearest is {}", where, name_key));
    } else if (!column.name.starts_with("film.")) {
      throw BadInput(say("{}: is no key of the film; a list of films has columns film.* and your own", where));
    }
  }
  return layout;
}

FilmList read_film_list(CsvReader& reader, const CsvRecord& header, const std::string& source,
                        const Reference& reference) {
  FilmList list{source, film_list_layout(header, reader.separator(), source, reference), {}};
  CsvRecord record;
  while (reader.next(record)) {
    if (record.blank()) continue;
    ListedFilm film{record, "", {}, ""};
    try {
      film.own = schedule_row(list.layout, record, {}, reference).job;
      check_film_alone(film.own, reference);
    } catch (const BadInput& error) {
      film.error = fmt::format("{}, {}", source, told(reference.language, error));
    }
    list.films.push_back(std::move(film));
  }
  if (list.films.empty()) throw BadInput(say("{}: has no film below its first row", source));
  name_films(list);
  return list;
}

Job with_film_standing_in(Job job) {
  constexpr double half_the_sun = 0.5;
  const auto gives = [&](const char* key) { return speaks_of(job, key); };
  if (!gives("film.solar_absorptance") && !gives("film.solar_transmittance") && !gives("film.shgc") &&
      !gives("film.solar_reflectance"))
    job.values["film.solar_absorptance"] = half_the_sun;
  return job;
}

Job pane_for_list(Job job, const Reference& reference) {
  job = with_film_standing_in(without_film(std::move(job)));
  check_job(job, reference);
  return without_film(std::move(job));
}

Job with_listed_film(const Job& pane, const ListedFilm& film, const FilmList& list, const Reference& reference) {
  Job job = schedule_row(list.layout, film.record, pane, reference).job;
  job.source = fmt::format("{}, {}", list.source, job.source);
  for (const char* key : where_film_goes) {
    if (speaks_of(film.own, key) || !speaks_of(job, key)) continue;
    if (!may_apply(job, key, reference)) forget(job, key);
  }
  return job;
}

}  // namespace sunstrain
