// How dark a film a pane takes: the highest solar absorptance that stays go, and that stays caution, as the pane is
// and after each thing about it that can be mended.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "sunstrain/assess.hpp"

namespace sunstrain {

// The films that stay within a line, in whole percents of the sun that film and the glass of its sheet take up
// together: no film that can be does, those up to `solar_absorptance` do, or every one that can be. Where the lightest
// do not, for a film on an outer lite shades the lites behind it, they begin at `from`.
struct Reach {
  enum class Kind { no_film, up_to, every_film };
  Kind kind = Kind::no_film;
  double solar_absorptance = 0.0;  // 0 to 1; 0 for no_film
  double from = 0.0;               // the lightest that there can be, or above it; 0 for no_film
};

struct FilmLimit {
  Reach verdict;           // figures and guidance
  Reach figures;           // figures alone
  std::vector<Rule> held;  // rules that shut out the next darker film; of no_film even the lightest
  Assessment with;  // with the darkest film that stays; of no_film with the lightest. Its `unknowns`, `helps` and
                    // `shadow` are left empty
};

struct PaneLimits {
  std::string mended;  // words of a row of reference/drivers.toml; empty: the pane as it is
  FilmLimit go, caution;
};

struct FilmLimits {
  Job job;                          // as given
  double lightest, darkest;         // the films that can be, as absorptance
  std::vector<PaneLimits> panes;    // as it is first
  std::optional<double> reflected;  // of the sun by the job's film, which is kept; nothing: whatever is worst
};

// Bisects over whole percents; every film tried is assessed as `assess` does it, so that with the absorptance found
// the verdict is the line's, and with a hundredth more it is not. The search rests on the films that stay lying side by
// side, five or more of them where they do not begin with the lightest. The film's absorptance, transmittance and SHGC
// in `job` are left aside, and may be absent; its reflectance is kept. `tried`, if any, is called after each film.
// Throws as `assess`.
FilmLimits film_limits(const Job& job, const Reference& reference, const std::function<void()>& tried = {});

}  // namespace sunstrain
