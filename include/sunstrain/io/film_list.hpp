// A list of films: a table with one row for each, its columns named as the film's keys of a job, read as a schedule is.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/io/schedule_read.hpp"

namespace sunstrain {

struct ListedFilm {
  CsvRecord record;
  std::string
      name;  // film.name, on one printable line; "line 4" of one without, "Sample 3, line 4" where several have it
  Job own;   // what its row gives
  std::string error;  // not empty: why it is no film, with source, line, key and what is allowed
};

struct FilmList {
  std::string source;  // the file's name, for messages
  ScheduleLayout layout;
  std::vector<ListedFilm> films;  // in the list's order; blank rows are none
};

// What the columns mean, as schedule_layout has it. Throws BadInput also for a key that is none of the film's, for
// `quantity`, and for a column that means the film's name but is not called so.
ScheduleLayout film_list_layout(const CsvRecord& header, char separator, const std::string& source,
                                const Reference& reference);

// The rows behind the header. A film that cannot be has its error and stops no other. Throws BadInput for a list
// without any film.
FilmList read_film_list(CsvReader& reader, const CsvRecord& header, const std::string& source,
                        const Reference& reference);

// A job whose film is sought: where it gives none of a film's solar figures, a film of half the sun stands in for it.
Job with_film_standing_in(Job job);

// The pane of a job, for films of a list: checked as if one were on it, and without one; where its film goes stays.
// Throws BadInput as check_job.
Job pane_for_list(Job job, const Reference& reference);

// The film of a row on a pane that is without one (rank.hpp). What of where the pane's film goes has no meaning for
// this film is left out. job.source is the list and the line. Throws BadInput as schedule_row.
Job with_listed_film(const Job& pane, const ListedFilm& film, const FilmList& list, const Reference& reference);

}  // namespace sunstrain
