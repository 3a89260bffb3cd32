#include "support/random_jobs.hpp"

#include <initializer_list>
#include <string>

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace sunstrain::test {

Job random_job(std::mt19937& random) {
  const auto pick = [&](std::initializer_list<const char*> of) {
    return std::string(of.begin()[random() % of.size()]);
  };
  const auto number = [&](double low, double high) {
    return std::to_string(std::uniform_real_distribution<double>(low, high)(random));
  };
  Job job{"random", {}};
  const auto set = [&](const std::string& assignment) { set_key(job, assignment, builtin_reference()); };
  set("pane.width=" + number(0.3, 2.4) + " m");
  set("pane.height=" + number(0.3, 2.4) + " m");
  set("pane.facing=" + number(0.0, 359.0) + " deg");
  set("glass.panes=" + pick({"1", "2"}));
  set("film.solar_absorptance=" + number(0.15, 0.7));
  set("film.reference_glass=3-mm-clear");
  set("frame.kind=" +
      pick({"wood", "vinyl", "aluminum", "aluminum-break", "steel-putty", "curtain-wall", "masonry", "brick"}));
  set("site.place=" + pick({"denver", "duluth", "phoenix", "seattle", "miami", "london-gatwick", "fairbanks"}));
  set("lite.1.tint=" + pick({"clear", "bronze", "gray"}));
  for (const char* lite : {"lite.1.", "lite.2."}) {
    if (std::string(lite) == "lite.2." && job.values.at("glass.panes") == Value(std::string("1"))) break;
    if (random() % 4 == 0) {
      set(std::string(lite) + "kind=laminated");
      set(std::string(lite) + "interlayer=" + pick({"0.38 mm", "0.76 mm", "1.52 mm"}));
    }
    if (random() % 4 == 0) set(std::string(lite) + "coating=" + pick({"low-e-hard", "low-e-soft", "reflective"}));
  }
  if (random() % 6 == 0) {
    set("second_film.solar_absorptance=" + number(0.1, 0.4));
    set("second_film.surface=" + pick({"1", "2"}));
  }
  if (random() % 6 == 0) set("film.surface=1");
  if (random() % 5 == 0) {
    set("panel.side=" + pick({"outdoors", "indoors"}));
    if (random() % 2 == 0) set("panel.opening=10 mm");
  }
  set("inside.shade=" + pick({"none", "none", "light-blind"}));
  switch (random() % 6) {
    case 0:
      set("shading.pattern=" + pick({"head-band", "side-band", "L", "half", "narrow-frame", "sun-patch"}));
      if (random() % 2 == 0) set("shading.pass=" + number(5.0, 90.0) + " %");
      if (random() % 3 == 0) set("shading.leafless_pass=" + number(5.0, 90.0) + " %");
      break;
    case 1:
      set("shading.overhang_depth=" + number(0.1, 1.5) + " m");
      set("shading.overhang_height=" + number(0.0, 0.5) + " m");
      break;
    case 2:
      set("shading.reveal_depth=" + number(0.05, 0.4) + " m");
      break;
    case 3:
      set("shading.left_fin_depth=" + number(0.1, 1.5) + " m");
      set("shading.left_fin_distance=" + number(0.0, 0.3) + " m");
      break;
    case 4:
      set("shading.wall_distance=" + number(2.0, 12.0) + " m");
      set("shading.wall_height=" + number(0.5, 8.0) + " m");
      if (random() % 2 == 0) set("shading.wall_reflectance=" + number(5.0, 80.0) + " %");
      break;
    default:
      break;
  }
  if (random() % 4 == 0) set("shading.screen=" + pick({"bottom-half", "left-half", "right-half"}));
  if (random() % 5 == 0) {
    set("shading.upright_bars=" + pick({"0", "1", "2"}));
    set("shading.bars_across=" + pick({"1", "2"}));
  }
  const bool panel = job.values.contains("panel.side");  // which goes without sign and sash
  switch (random() % 7) {
    case 3:
      if (!panel) set("sash.side=" + pick({"left", "top"}));
      break;
    case 0:
      set("film.bare=" + pick({"top", "bottom", "left", "right"}));
      set("film.bare_share=" + number(5.0, 90.0) + " %");
      break;
    case 1:
      set("inside.shade=dark-blind");
      set("inside.closure=" + number(10.0, 90.0) + " %");
      set("inside.drawn=" + pick({"from-top", "from-left"}));
      break;
    case 2:
      if (panel) break;
      set("sign.side=" + pick({"inside", "outside"}));
      set("sign.width=" + number(50.0, 200.0) + " mm");
      set("sign.height=" + number(50.0, 200.0) + " mm");
      set("sign.left=" + pick({"0", "40", "90"}) + " mm");
      set("sign.bottom=" + pick({"0", "40", "90"}) + " mm");
      break;
    default:
      break;
  }
  if (random() % 5 == 0) set("site.water_distance=" + number(0.0, 30.0) + " m");
  return job;
}

}  // namespace sunstrain::test
