#include "random_job.hpp"

#include <random>

#include "job_text.hpp"

namespace sunstrain::test {
namespace {

using Texts = std::vector<std::string>;

}  // namespace

Job random_job(unsigned seed) {
  std::mt19937 draw(seed);
  const auto below = [&](std::size_t count) { return static_cast<std::size_t>(draw() % count); };
  const std::vector<Texts> choices{
      {"glass.panes=1", "glass.panes=2", "glass.panes=2", "glass.panes=1 or 2", ""},
      {"pane.facing=SE", "pane.facing=W", "pane.facing=S to W", "pane.facing=N or E", ""},
      {"frame.kind=vinyl", "frame.kind=aluminum-break", "frame.kind=wood or aluminum", "frame.kind=steel-putty"},
      // Two places where the same is plausible: where one may have snow and the other none, snow that is known can be
      // worse than any ground that is plausible with its place.
      {"site.place=denver", "site.place=houston", "site.place=miami or houston"},
      {"lite.1.thickness=4 mm", "lite.1.thickness=3 to 6 mm", "lite.1.thickness=3 or 6 mm", ""},
      {"lite.1.tint=bronze", "lite.1.tint=clear or gray", ""},
      {"inside.shade=none", "inside.shade=light-blind or none", "inside.shade=dark-drape", ""},
      {"frame.bite=10 mm", "frame.bite=8 to 16 mm", ""},
      {"frame.color=dark", "frame.color=white or bronze", ""},
      {"edge.finish=seamed", "edge.finish=seamed or as-cut", ""},
      {"site.ground=grass", "site.ground=snow or sand", ""},
      {"history.years_in_place=50 years", ""},
      {"film.reference_glass=3-mm-clear", "film.reference_glass=6-mm-clear or 3-mm-clear", ""},
      {"film.solar_absorptance=0.30", "film.solar_absorptance=0.25 to 0.45"}};
  Texts settings{"pane.width=0.9 m", "pane.height=1.2 m", "lite.1.kind=float"};
  for (const Texts& of_key : choices) {
    const std::string& setting = of_key[below(of_key.size())];
    if (!setting.empty()) settings.push_back(setting);
  }
  return job_text::with({"random", {}}, settings);
}

}  // namespace sunstrain::test
