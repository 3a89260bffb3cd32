// Steps that the bound rules out cannot govern: the answer with them and without is the same to the last bit, on random
// panes. A sample of them in every run; SUNSTRAIN_RANDOM_JOBS=1000 in the environment (target pruning_whole) does them
// all.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>

#include "../../src/engine/year_parts.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"

using namespace sunstrain;

namespace {

std::size_t job_count() {
  const char* wanted = std::getenv("SUNSTRAIN_RANDOM_JOBS");
  return wanted == nullptr ? 12 : std::strtoul(wanted, nullptr, 10);
}

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

}  // namespace

TEST_CASE("the bound rules out no step that governs") {
  const Reference& reference = builtin_reference();
  std::mt19937 random(20250221);
  for (std::size_t i = 0; i < job_count(); ++i) {
    const Job job = resolve(random_job(random), Run::bad_end, {}, reference).job;
    const Case pane = build_case(job, Run::bad_end, reference);
    // Four days of the year, one a season: the day with the peak is among them or not, the comparison holds all the
    // same.
    std::vector<DesignDay> days;
    for (int month : {1, 4, 7, 10}) {
      days.push_back(design_day(pane.place, month, month == 7 ? DayKind::hot_clear : DayKind::cold_clear, pane.tilt_rad,
                                pane.facing_rad, pane.ground_reflectance, 144, reference));
      internal::add_reflected(pane, days.back());
    }
    ChainCache cache;
    const YearPeaks some = worst_of_days(pane, pane.after, days, reference, cache, false);
    const YearPeaks every = worst_of_days(pane, pane.after, days, reference, cache, false, Steps::all);
    INFO("job " << i);
    CHECK(some.worst_energy_residual < 1e-6);
    for (std::size_t lite = 0; lite < some.lites.size(); ++lite) {
      CHECK(some.lites[lite].stress_pa == every.lites[lite].stress_pa);
      CHECK(some.lites[lite].when.local_hour == every.lites[lite].when.local_hour);
      CHECK(some.lites[lite].when.month == every.lites[lite].when.month);
    }
  }
}
