// libFuzzer: any bytes as a schedule or as a list of films, from the first row on and behind a sound one. BadInput is
// an answer; a message of more than one line, a row that reads otherwise once written, or a line counted backward is a
// fault.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>

#include "allow_bad_input.hpp"
#include "sunstrain/io/film_list.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/io/schedule_read.hpp"

namespace {

using namespace sunstrain;

CsvReader reader_of(const std::string& text) {
  return CsvReader(
      [text, at = std::size_t{0}](char* to, std::size_t size) mutable {
        const std::size_t n = std::min({size, std::size_t{97}, text.size() - at});
        std::memcpy(to, text.data() + at, n);
        at += n;
        return n;
      },
      "fuzz.csv");
}

void require_same_when_written(const CsvRecord& row, char separator) {
  const std::string header = std::string("h") + separator + "h\n";
  CsvReader reader = reader_of(header + csv_line(row.cells, separator, "\n"));
  CsvRecord back;
  if (!reader.next(back) || !reader.next(back) || back.cells != row.cells || reader.next(back)) std::abort();
}

void read(const std::string& text) {
  allow_bad_input([&] {
    CsvReader reader = reader_of(text);
    CsvRecord row;
    if (!reader.next(row)) return;
    const ScheduleLayout layout = schedule_layout(row, reader.separator(), "fuzz.csv", builtin_reference());
    std::size_t line = row.line;
    while (reader.next(row)) {
      if (row.line <= line) std::abort();
      line = row.line;
      if (row.problem.empty()) require_same_when_written(row, reader.separator());
      allow_bad_input([&] { schedule_row(layout, row, {}, builtin_reference()); });
    }
  });
}

// The same bytes as a list of films, each put on a pane.
void read_films(const std::string& text) {
  allow_bad_input([&] {
    CsvReader reader = reader_of(text);
    const CsvRecord header = header_row(reader, "fuzz.csv");
    const FilmList list = read_film_list(reader, header, "fuzz.csv", builtin_reference());
    for (const ListedFilm& film : list.films) {
      if (film.name.empty() || film.name.find('\n') != std::string::npos) std::abort();
      if (film.error.empty()) allow_bad_input([&] { with_listed_film({}, film, list, builtin_reference()); });
    }
  });
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  read(text);
  read("pane.width [mm],frame.kind,quantity,remark\n" + text);
  read("pane.width\tpane.facing\tquantity\r\n" + text);
  read_films(text);
  read_films("film.name,film.solar_absorptance [%],film.surface,film.weathering,shelf\n" + text);
  return 0;
}
