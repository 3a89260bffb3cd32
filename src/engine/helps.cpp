#include "helps.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "film_strength.hpp"
#include "unknowns.hpp"

namespace sunstrain::internal {
namespace {

// What can be mended, as the key that is at fault and the word that it should have; absent it has that already.
constexpr Mend mends[]{{Help::Kind::no_heat_on_glass, "inside.heat", "none"},
                       {Help::Kind::vented_shade, "inside.vented", "yes"},
                       {Help::Kind::no_sign, "sign.side", "none"},
                       {Help::Kind::whole_film, "film.bare", "none"}};

std::optional<Help> lighter_film(const Assessment& a, const Choice& choice, const Reference& reference,
                                 ChainCache& cache) {
  constexpr int least = 10;  // about what clear glass with a clear film absorbs
  const auto stated = stated_absorptance(a.bad_end);
  if (!stated) return std::nullopt;
  Job job = a.job;  // the film may get lighter, its sheet's glass stays the one that was taken
  settle(job, "film.reference_glass", a.bad_end.values.at("film.reference_glass"));
  const auto ratio = [&](int percent) {
    return a.raised_by() * bad_end_ratio(with_absorptance(job, 0.01 * percent), choice, reference, cache);
  };
  const auto stays = [&](int percent) {
    try {
      return ratio(percent) <= 1.0;
    } catch (const BadInput&) {
      return false;  // not with the other unknowns as they are taken: no film to advise
    }
  };
  const int lighter = static_cast<int>(std::ceil(*stated * 100.0 - 1e-6)) - 1;
  const Percents possible = possible_percents(job, reference);
  const auto highest = highest_percent({std::max(least, possible.least), std::min(lighter, possible.most)}, stays);
  if (!highest) return std::nullopt;
  return Help{Help::Kind::lighter_film, 0.01 * *highest, ratio(*highest)};
}

}  // namespace

std::vector<Mend> mends_of(const Job& complete) {
  std::vector<Mend> apply;
  for (const Mend& mend : mends)
    if (word_of(complete, mend.key).value_or(mend.mended) != mend.mended) apply.push_back(mend);
  return apply;
}

Job with_mend(Job job, const Mend& mend) {
  settle(job, mend.key, std::string(mend.mended));
  return job;
}

std::vector<Help> helps_for(const Assessment& a, const Choice& choice, const Reference& reference, ChainCache& cache) {
  std::vector<Help> helps;
  for (const Mend& mend : mends_of(a.bad_end)) {
    const double ratio = a.raised_by() * bad_end_ratio(with_mend(a.job, mend), choice, reference, cache);
    if (ratio < 0.98 * a.stress_ratio) helps.push_back({mend.kind, 0.0, ratio});
  }
  if (const auto lighter = lighter_film(a, choice, reference, cache)) helps.push_back(*lighter);
  return helps;
}

}  // namespace sunstrain::internal
