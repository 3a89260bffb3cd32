#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "job_check.hpp"

namespace sunstrain {

namespace {

constexpr const char* key_a = "film.solar_absorptance";
constexpr const char* key_t = "film.solar_transmittance";
constexpr const char* key_r = "film.solar_reflectance";
constexpr const char* key_r_film = "film.solar_reflectance_film_side";
constexpr const char* key_shgc = "film.shgc";

constexpr const char* usable_sets =
    "one of: film.solar_absorptance alone; film.solar_transmittance and film.solar_reflectance; these three; "
    "film.shgc and film.solar_transmittance";

[[noreturn]] void refuse(const Job& job, const std::string& problem) {
  throw BadInput(fmt::format("{}: {}", job.source, problem));
}

// Nothing usable: say what is missing, or why what is there cannot stand alone.
[[noreturn]] void refuse_set(const Job& job, const Reference& reference) {
  for (const char* key : {key_t, key_r, key_shgc}) {
    if (!number_of(job, key)) continue;
    refuse(job, fmt::format("{} = {:.4g}: is not enough by itself; the film needs {}", key, *number_of(job, key),
                            usable_sets));
  }
  for (const JobKey& key : reference.job_keys) {
    if (key.refused.empty() || !number_of(job, key.name)) continue;
    refuse(job, fmt::format("{} = {:.4g}: {}", key.name, *number_of(job, key.name), key.refused));
  }
  refuse(job, fmt::format("film: its solar figures are missing; give {}", usable_sets));
}

// Two of T, R and A settle the third, but A with one other is not a set that a sheet prints: have it written out.
void require_third(const Job& job, const char* given, const char* missing, double tolerance) {
  const std::optional<double> a = number_of(job, key_a), other = number_of(job, given);
  if (!a || !other || number_of(job, missing)) return;
  const double third = 1.0 - *a - *other;
  if (third < -tolerance) {
    refuse(job, fmt::format("{} = {:.4g} and {} = {:.4g} make {:.4g}, more than the whole", key_a, *a, given, *other,
                            *a + *other));
  }
  refuse(job, fmt::format("{0}: is missing beside {1} and {2}; write the sheet's figure, {3:.3g} by the other two",
                          missing, key_a, given, std::max(0.0, third)));
}

void check_sums(const Job& job, double tolerance) {
  const std::optional<double> a = number_of(job, key_a), t = number_of(job, key_t);
  for (const char* reflectance : {key_r, key_r_film}) {
    const std::optional<double> r = number_of(job, reflectance);
    if (t && r && *t + *r > 1.0 + tolerance) {
      refuse(job, fmt::format("{} = {:.4g} and {} = {:.4g} make {:.4g}, more than the whole", key_t, *t, reflectance,
                              *r, *t + *r));
    }
  }
  const std::optional<double> r = number_of(job, key_r);
  if (!a || !t || !r || std::abs(*t + *r + *a - 1.0) <= tolerance + 1e-9) return;
  refuse(job,
         fmt::format("{} = {:.4g}, {} = {:.4g} and {} = {:.4g} make {:.4g}; allowed: 1 within {:.3g}. By the first two "
                     "the absorptance is {:.3g}",
                     key_t, *t, key_r, *r, key_a, *a, *t + *r + *a, tolerance, std::max(0.0, 1.0 - *t - *r)));
}

// What comes in is the sun let through and a share of the sun taken up.
void check_shgc(const Job& job, double tolerance) {
  const std::optional<double> shgc = number_of(job, key_shgc), t = number_of(job, key_t), r = number_of(job, key_r);
  if (!shgc) return;
  if (t && *shgc < *t - tolerance) {
    refuse(job,
           fmt::format("{} = {:.4g}: cannot be below {} = {:.4g}, which is part of it", key_shgc, *shgc, key_t, *t));
  }
  if (r && *shgc > 1.0 - *r + tolerance) {
    refuse(job, fmt::format("{} = {:.4g}: cannot be above {:.4g}, what {} = {:.4g} leaves", key_shgc, *shgc, 1.0 - *r,
                            key_r, *r));
  }
}

}  // namespace

void check_film(const Job& job, const Reference& reference) {
  const double tolerance = constant(reference, "sheet_sum_tolerance");
  const bool a = number_of(job, key_a).has_value(), t = number_of(job, key_t).has_value(),
             r = number_of(job, key_r).has_value(), shgc = number_of(job, key_shgc).has_value();
  if (!a && !(t && (r || shgc))) refuse_set(job, reference);
  require_third(job, key_t, key_r, tolerance);
  require_third(job, key_r, key_t, tolerance);
  check_sums(job, tolerance);
  check_shgc(job, tolerance);
}

}  // namespace sunstrain
