#include "helps.hpp"

#include <optional>

#include "unknowns.hpp"

namespace sunstrain::internal {
namespace {

// The same film in another strength: as much reflected, less absorbed, the rest let through.
Job with_absorptance(const Job& job, double absorptance) {
  Job other = job;
  for (const char* key : {"film.solar_transmittance", "film.shgc", "film.solar_reflectance_film_side"})
    other.values.erase(key);
  other.values["film.solar_absorptance"] = absorptance;
  return other;
}

std::optional<double> stated_absorptance(const Job& job) {
  if (const auto a = number_of(job, "film.solar_absorptance")) return a;
  const auto t = number_of(job, "film.solar_transmittance"), r = number_of(job, "film.solar_reflectance");
  if (t && r) return 1.0 - *t - *r;
  return std::nullopt;
}

// Bisection to a hundredth: finer than a data sheet.
std::optional<Help> lighter_film(const Assessment& a, const Choice& choice, const Reference& reference,
                                 ChainCache& cache) {
  constexpr double least = 0.10, resolution = 0.01;  // about what clear glass with a clear film absorbs
  const auto stated = stated_absorptance(a.job);
  if (!stated || *stated <= least) return std::nullopt;
  const auto ratio = [&](double absorptance) {
    try {
      return a.raised_by() * bad_end_ratio(with_absorptance(a.job, absorptance), choice, reference, cache);
    } catch (const BadInput&) {
      return 2.0;  // no such film: not one to advise
    }
  };
  double stays = least, ratio_there = ratio(least), fails = *stated;
  if (ratio_there > 1.0) return std::nullopt;
  while (fails - stays > resolution) {
    const double middle = 0.5 * (stays + fails), there = ratio(middle);
    if (there <= 1.0) {
      stays = middle;
      ratio_there = there;
    } else {
      fails = middle;
    }
  }
  return Help{Help::Kind::lighter_film, stays, ratio_there};
}

}  // namespace

std::vector<Help> helps_for(const Assessment& a, const Choice& choice, const Reference& reference, ChainCache& cache) {
  std::vector<Help> helps;
  const auto attempt = [&](Help::Kind kind, const char* key, const char* value) {
    Job other = a.job;
    other.values[key] = std::string(value);
    const double ratio = a.raised_by() * bad_end_ratio(other, choice, reference, cache);
    if (ratio < 0.98 * a.stress_ratio) helps.push_back({kind, 0.0, ratio});
  };
  if (word_of(a.bad_end, "inside.heat").value_or("none") != "none")
    attempt(Help::Kind::no_heat_on_glass, "inside.heat", "none");
  if (word_of(a.bad_end, "inside.vented").value_or("yes") == "no")
    attempt(Help::Kind::vented_shade, "inside.vented", "yes");
  if (word_of(a.bad_end, "sign.side").value_or("none") != "none") attempt(Help::Kind::no_sign, "sign.side", "none");
  if (word_of(a.bad_end, "film.bare").value_or("none") != "none") attempt(Help::Kind::whole_film, "film.bare", "none");
  if (const auto lighter = lighter_film(a, choice, reference, cache)) helps.push_back(*lighter);
  return helps;
}

}  // namespace sunstrain::internal
