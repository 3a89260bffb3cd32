// Internal: the same film in another strength, and the darkest of them that a pane takes.
#pragma once

#include <functional>
#include <optional>

#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain::internal {

inline constexpr const char* film_absorptance = "film.solar_absorptance";

// The film of a job in another strength: as much reflected as its sheet says, `absorptance` taken up, the rest let
// through. Where the job gives no reflectance beside its transmittance or absorptance, none is given here.
Job with_absorptance(const Job& job, double absorptance);

// By its sheet; nothing where that gives neither the absorptance nor transmittance and reflectance.
std::optional<double> stated_absorptance(const Job& job);

// Absorptances in whole percents, as sheets print them; empty when least > most.
struct Percents {
  int least, most;
};

// Those in which the job's film can be: lighter would pass more than its sheet's glass lets through, darker more than
// its reflectance leaves.
Percents possible_percents(const Job& job, const Reference& reference);

// The highest percent that stays, where the least does and those that stay lie side by side; nothing when the least
// does not. Bisects.
std::optional<int> highest_percent(Percents range, const std::function<bool(int)>& stays);

// All that stay, where they lie side by side but need not begin at the least. Fewer than `staying_step` of them in the
// midst of the range may be missed.
inline constexpr int staying_step = 5;
std::optional<Percents> staying_percents(Percents range, const std::function<bool(int)>& stays);

}  // namespace sunstrain::internal
