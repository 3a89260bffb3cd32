#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "job_check.hpp"
#include "say.hpp"

namespace sunstrain {

namespace {

// The keys of a film's figures, whose table is "film" or "second_film".
struct FilmKeys {
  explicit FilmKeys(const std::string& of_table)
      : table(of_table),
        a(table + ".solar_absorptance"),
        t(table + ".solar_transmittance"),
        r(table + ".solar_reflectance"),
        r_film(table + ".solar_reflectance_film_side"),
        shgc(table + ".shgc"),
        usable_sets(say("one of: {} alone; {} and {}; these three; {} and {}", a, t, r, shgc, t)) {}
  std::string table, a, t, r, r_film, shgc;
  Saying usable_sets;
};

[[noreturn]] void refuse(const Job& job, const Saying& problem) { throw BadInput(say("{}: {}", job.source, problem)); }

// Nothing usable: say what is missing, or why what is there cannot stand alone.
[[noreturn]] void refuse_set(const Job& job, const FilmKeys& film, const Reference& reference) {
  for (const std::string& key : {film.t, film.r, film.shgc}) {
    if (!number_of(job, key)) continue;
    refuse(job,
           say("{} = {:.4g}: is not enough by itself; the film needs {}", key, *number_of(job, key), film.usable_sets));
  }
  for (const JobKey& key : reference.job_keys) {
    if (key.refused.empty() || !number_of(job, key.name)) continue;
    refuse(job, say("{} = {:.4g}: {}", key.name, *number_of(job, key.name), Saying(key.refused)));
  }
  refuse(job, say("{}: its solar figures are missing; give {}", film.table, film.usable_sets));
}

// Two of T, R and A settle the third, but A with one other is not a set that a sheet prints: have it written out.
void require_third(const Job& job, const FilmKeys& film, const std::string& given, const std::string& missing,
                   double tolerance) {
  const std::optional<double> a = number_of(job, film.a), other = number_of(job, given);
  if (!a || !other || number_of(job, missing)) return;
  const double third = 1.0 - *a - *other;
  if (third < -tolerance) {
    refuse(job,
           say("{} = {:.4g} and {} = {:.4g} make {:.4g}, more than the whole", film.a, *a, given, *other, *a + *other));
  }
  refuse(job, say("{0}: is missing beside {1} and {2}; write the sheet's figure, {3:.3g} by the other two", missing,
                  film.a, given, std::max(0.0, third)));
}

void check_sums(const Job& job, const FilmKeys& film, double tolerance) {
  const std::optional<double> a = number_of(job, film.a), t = number_of(job, film.t);
  for (const std::string& reflectance : {film.r, film.r_film}) {
    const std::optional<double> r = number_of(job, reflectance);
    if (t && r && *t + *r > 1.0 + tolerance) {
      refuse(job,
             say("{} = {:.4g} and {} = {:.4g} make {:.4g}, more than the whole", film.t, *t, reflectance, *r, *t + *r));
    }
  }
  const std::optional<double> r = number_of(job, film.r);
  if (!a || !t || !r || std::abs(*t + *r + *a - 1.0) <= tolerance + 1e-9) return;
  refuse(job, say("{} = {:.4g}, {} = {:.4g} and {} = {:.4g} make {:.4g}; allowed: 1 within {:.3g}. By the first two "
                  "the absorptance is {:.3g}",
                  film.t, *t, film.r, *r, film.a, *a, *t + *r + *a, tolerance, std::max(0.0, 1.0 - *t - *r)));
}

// What comes in is the sun let through and a share of the sun taken up.
void check_shgc(const Job& job, const FilmKeys& film, double tolerance) {
  const std::optional<double> shgc = number_of(job, film.shgc), t = number_of(job, film.t), r = number_of(job, film.r);
  if (!shgc) return;
  if (t && *shgc < *t - tolerance) {
    refuse(job, say("{} = {:.4g}: cannot be below {} = {:.4g}, which is part of it", film.shgc, *shgc, film.t, *t));
  }
  if (r && *shgc > 1.0 - *r + tolerance) {
    refuse(job,
           say("{} = {:.4g}: cannot be above {:.4g}, what {} = {:.4g} leaves", film.shgc, *shgc, 1.0 - *r, film.r, *r));
  }
}

}  // namespace

void check_film(const Job& job, const Reference& reference) {
  const double tolerance = constant(reference, "sheet_sum_tolerance");
  for (const char* table : {"film", "second_film"}) {
    const FilmKeys film(table);
    const bool a = number_of(job, film.a).has_value(), t = number_of(job, film.t).has_value(),
               r = number_of(job, film.r).has_value(), shgc = number_of(job, film.shgc).has_value();
    const bool spoken_of = std::any_of(job.values.begin(), job.values.end(), [&](const auto& value) {
      return value.first.starts_with(std::string(table) + ".");
    });
    if (!spoken_of && table != std::string_view("film")) continue;
    if (!a && !(t && (r || shgc))) refuse_set(job, film, reference);
    require_third(job, film, film.t, film.r, tolerance);
    require_third(job, film, film.r, film.t, tolerance);
    check_sums(job, film, tolerance);
    check_shgc(job, film, tolerance);
  }
}

}  // namespace sunstrain
