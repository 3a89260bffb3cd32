// What was not known: filled by the table, the worst kept, and never better than a value it could be.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "../../src/engine/unknowns.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

using test::job_of;

namespace {

const std::initializer_list<const char*> small_pane{
    "pane.width=0.9 m",  "pane.height=1.2 m", "film.solar_absorptance=0.45",
    "site.place=denver", "pane.facing=S",     "frame.kind=vinyl"};

}  // namespace

TEST_CASE("resolve fills every key that applies and leaves given ones alone") {
  const Job job = job_of(
      {"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.45", "glass.panes=1", "lite.1.tint=bronze"});
  const Resolved bad = resolve(job, Run::bad_end, {}, builtin_reference());
  CHECK(word_of(bad.job, "lite.1.tint") == "bronze");
  CHECK(word_of(bad.job, "film.surface") == "2");
  CHECK_FALSE(bad.job.values.contains("lite.2.tint"));
  CHECK_FALSE(bad.job.values.contains("unit.spacer"));
  for (const OpenKey& open : bad.open) {
    INFO(open.key);
    CHECK(bad.job.values.contains(open.key));
    CHECK_FALSE(job.values.contains(open.key));
    CHECK(std::find(open.candidates.begin(), open.candidates.end(), open.middle) != open.candidates.end());
  }
}

TEST_CASE("a choice takes that candidate") {
  const Job job = job_of(small_pane);
  const Job one = resolve(job, Run::bad_end, {{"glass.panes", 1}}, builtin_reference()).job;
  CHECK(word_of(one, "glass.panes") == "1");
  CHECK_FALSE(one.values.contains("lite.2.thickness"));
}

TEST_CASE("an unknown is never better than a value it could be", "[slow]") {
  const Job job = job_of(small_pane);
  ChainCache cache;
  const Reference& reference = builtin_reference();
  const Choice worst = internal::worst_choice(job, reference, cache);
  const double ratio = internal::bad_end_ratio(job, worst, reference, cache);
  for (const OpenKey& open : resolve(job, Run::bad_end, worst, reference).open) {
    for (const Value& value : open.candidates) {
      Job known = job;
      known.values[open.key] = value;
      INFO(open.key);
      // The rest stays unknown and is searched anew.
      const double with_it =
          internal::bad_end_ratio(known, internal::worst_choice(known, reference, cache), reference, cache);
      CHECK(with_it <= ratio * (1 + 1e-9));
    }
  }
}

TEST_CASE("assess names the unknown that decided and what each reading would give") {
  const Assessment a =
      assess(job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.30", "glass.panes=2",
                     "site.place=seattle", "pane.facing=S", "frame.kind=vinyl", "inside.shade=none"}),
             builtin_reference());
  REQUIRE_FALSE(a.unknowns.empty());
  const UnknownTaken& first = a.unknowns.front();
  CHECK(first.ratio_at_middle <= a.unknowns.back().ratio_at_middle);
  REQUIRE(first.readings.size() >= 2);
  bool worst_is_the_answer = false;
  for (const Reading& reading : first.readings) {
    CHECK(reading.stress_ratio <= a.stress_ratio * (1 + 1e-9));
    worst_is_the_answer = worst_is_the_answer || std::abs(reading.stress_ratio - a.stress_ratio) < 1e-9;
  }
  CHECK(worst_is_the_answer);
}

// Worst plausible for what is known: the age of the glass and the kind of frame rule things out.
TEST_CASE("what is known of age and frame rules out what cannot be there") {
  const auto taken = [](std::initializer_list<const char*> more, const char* key) {
    std::vector<const char*> all{"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.45"};
    all.insert(all.end(), more);
    Job job{"window", {}};
    for (const char* assignment : all) set_key(job, assignment, builtin_reference());
    for (const OpenKey& open : resolve(job, Run::bad_end, {}, builtin_reference()).open)
      if (open.key == key) return open;
    return OpenKey{};
  };
  const auto words = [](const OpenKey& open) {
    std::vector<std::string> all;
    for (const Value& value : open.candidates) all.push_back(std::get<std::string>(value));
    return all;
  };
  using Words = std::vector<std::string>;
  CHECK(words(taken({}, "glass.panes")) == Words{"2", "1"});
  CHECK(words(taken({"history.years_in_place=59 years"}, "glass.panes")) == Words{"2", "1"});
  CHECK(words(taken({"history.years_in_place=60 years"}, "glass.panes")) == Words{"1"});
  CHECK(words(taken({"frame.kind=steel-putty"}, "glass.panes")) == Words{"1", "2"});
  CHECK(std::get<std::string>(taken({"frame.kind=masonry"}, "glass.panes").middle) == "1");
  // What the job speaks of counts more than its age.
  CHECK(words(taken({"history.years_in_place=80 years", "unit.spacer=metal"}, "glass.panes")) == Words{"2"});
  CHECK(words(taken({"glass.panes=2"}, "lite.1.coating")) == Words{"low-e-soft", "none"});
  CHECK(words(taken({"glass.panes=2", "history.unit_age=45 years"}, "lite.1.coating")) == Words{"none"});
  CHECK(words(taken({"glass.panes=2", "history.years_in_place=44 years"}, "lite.1.coating")).size() == 2);
}
