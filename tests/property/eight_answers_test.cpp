// What eight quick answers at the window are good for: film, size, panes, coating, mark, frame, facing and shade, the
// rest not known. Where there is nothing wrong they must not send everybody to the maker.
#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/job_text.hpp"

using namespace sunstrain;

namespace {

// Mild: a winter whose design minimum is -6 C or more. Our word for it.
std::vector<std::string> mild_places() {
  std::vector<std::string> names;
  for (const Place& place : builtin_reference().places)
    if (place.coldest_k >= 273.15 - 6.0) names.push_back(place.name);
  return names;
}

Assessment answered(const std::string& place, const std::string& frame, const std::string& facing,
                    const std::vector<std::string>& pane) {
  std::vector<std::string> answers{"pane.width=0.9 m",    "pane.height=1.2 m",     "site.place=" + place,
                                   "frame.kind=" + frame, "pane.facing=" + facing, "lite.1.treatment=annealed",
                                   "inside.shade=none"};
  answers.insert(answers.end(), pane.begin(), pane.end());
  const Job job = job_text::with({"window", {}}, answers);
  check_job(job, builtin_reference());
  return assess(job, builtin_reference());
}

void for_each_window(const std::vector<std::string>& pane, void (*check)(const Assessment&)) {
  REQUIRE(mild_places().size() >= 6);
  for (const std::string& place : mild_places()) {
    for (const char* frame : {"vinyl", "aluminum", "unknown"}) {
      for (const char* facing : {"SE", "S", "W"}) {
        INFO(place << ", " << frame << ", " << facing);
        check(answered(place, frame, facing, pane));
      }
    }
  }
}

}  // namespace

TEST_CASE("eight quick answers: a light film on clear single glass is go", "[slow]") {
  for_each_window({"glass.panes=1", "lite.1.coating=none", "film.solar_absorptance=0.20"},
                  [](const Assessment& a) { CHECK(a.verdict == Verdict::go); });
}

TEST_CASE("eight quick answers: a film of 0.40 on a clear double unit is never refer on figures", "[slow]") {
  for_each_window({"glass.panes=2", "lite.1.coating=none", "lite.2.coating=none", "film.solar_absorptance=0.40"},
                  [](const Assessment& a) { CHECK(a.figures != Verdict::refer); });
}
