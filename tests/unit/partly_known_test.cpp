// Keys that are known in part: "5 to 7 mm", "none or low-e-soft", "low-e".
#include <algorithm>
#include <numbers>

#include "../../src/engine/unknowns.hpp"
#include "sunstrain/assess.hpp"
#include "support/job_text.hpp"

using namespace job_text;

namespace {

PartlyKnown partly(const char* key, const std::string& text) {
  Job job;
  set_key(job, std::string(key) + "=" + text, reference());
  REQUIRE_FALSE(job.values.contains(key));
  return job.partly.at(key);
}

std::vector<double> numbers(const PartlyKnown& known) {
  std::vector<double> all;
  for (const Value& value : known.values) all.push_back(std::get<double>(value));
  return all;
}

void check_numbers(const PartlyKnown& known, const std::vector<double>& expected) {
  const std::vector<double> all = numbers(known);
  REQUIRE(all.size() == expected.size());
  for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i] == Approx(expected[i]));
}

std::vector<std::string> words(const PartlyKnown& known) {
  std::vector<std::string> all;
  for (const Value& value : known.values) all.push_back(std::get<std::string>(value));
  return all;
}

using Words = std::vector<std::string>;

// A single pane in Denver, then the changes.
Job pane_with(const std::vector<std::string>& more) {
  std::vector<std::string> all{"pane.width=0.9 m",  "pane.height=1.2 m", "film.solar_absorptance=0.45",
                               "site.place=denver", "pane.facing=S",     "frame.kind=vinyl",
                               "glass.panes=1"};
  all.insert(all.end(), more.begin(), more.end());
  Job job = with({"pane.toml", {}}, all);
  check_job(job, reference());
  return job;
}

// What a job with these changes is refused with.
std::string pane_refusal(const std::vector<std::string>& more) {
  return refusal([&] { pane_with(more); });
}

}  // namespace

TEST_CASE("a range has its ends, three places between and the middle as likely") {
  const PartlyKnown lite = partly("lite.1.thickness", "5 to 7 mm");
  check_numbers(lite, {0.005, 0.0055, 0.006, 0.0065, 0.007});
  CHECK(std::get<double>(lite.likely) == Approx(0.006));
  REQUIRE(lite.range);
  CHECK(lite.range->first == Approx(0.005));
  CHECK(lite.range->second == 0.007);
  CHECK(numbers(partly("pane.width", "3 ft to 37 1/4 in")).back() == Approx(37.25 * 0.0254));
  CHECK(numbers(partly("pane.width", "36 TO 37 1/4 in")).front() == Approx(36 * 0.0254));
  CHECK(numbers(partly("film.solar_absorptance", "0.45 to 0.55")).front() == 0.45);
  CHECK(numbers(partly("film.solar_absorptance", "45 to 55 %")).front() == 0.45);
  CHECK(numbers(partly("inside.temperature", "18 to 24 C")).front() == Approx(291.15));
}

TEST_CASE("a range of ways to look out goes round by the right") {
  constexpr double deg = std::numbers::pi / 180.0;
  check_numbers(partly("pane.facing", "NW to NE"), {315 * deg, 337.5 * deg, 360 * deg, 22.5 * deg, 45 * deg});
  check_numbers(partly("pane.facing", "E to W"), {90 * deg, 135 * deg, 180 * deg, 225 * deg, 270 * deg});
}

TEST_CASE("alternatives stand as given, the first is likely") {
  const PartlyKnown coating = partly("lite.2.coating", "none or low-e-soft");
  CHECK(words(coating) == Words{"none", "low-e-soft"});
  CHECK(std::get<std::string>(coating.likely) == "none");
  CHECK_FALSE(coating.range);
  CHECK(words(partly("lite.2.coating", "low-e")) == Words{"low-e-hard", "low-e-soft", "low-e-selective"});
  CHECK(words(partly("lite.2.coating", "None or Low-E")) ==
        Words{"none", "low-e-hard", "low-e-soft", "low-e-selective"});
  CHECK(words(partly("frame.kind", "wood, vinyl or aluminum")) == Words{"wood", "vinyl", "aluminum"});
  check_numbers(partly("lite.1.thickness", "3, 4 or 6 mm"), {0.003, 0.004, 0.006});
  CHECK(numbers(partly("pane.facing", "S or SW")).front() == Approx(std::numbers::pi));
}

TEST_CASE("a word that is a choice and the start of others is that choice") {
  Job job;
  set_key(job, "frame.kind=aluminum", reference());
  CHECK(word_of(job, "frame.kind") == "aluminum");
}

TEST_CASE("the last word on a key counts, in part or whole") {
  Job job;
  set_key(job, "lite.1.tint=clear or bronze", reference());
  CHECK(speaks_of(job, "lite.1.tint"));
  set_key(job, "lite.1.tint=gray", reference());
  CHECK(job.partly.empty());
  CHECK(word_of(job, "lite.1.tint") == "gray");
  set_key(job, "lite.1.tint=clear or bronze", reference());
  CHECK(job.values.empty());
  set_key(job, "lite.1.tint=unknown", reference());
  CHECK_FALSE(speaks_of(job, "lite.1.tint"));
}

TEST_CASE("a range or a list that cannot be is refused") {
  const auto refused = [](const std::string& assignment, const Words& parts) {
    Job job;
    CHECK(says(refusal([&] { set_key(job, assignment, reference()); }), parts));
    CHECK_FALSE(speaks_of(job, assignment.substr(0, assignment.find('='))));
  };
  refused("lite.1.thickness=7 to 5 mm", {"lite.1.thickness", "7 to 5 mm", "least to the most"});
  refused("lite.1.thickness=6 to 6 mm", {"least to the most"});
  refused("lite.1.thickness=5 to 6 to 7 mm", {"two ends"});
  refused("lite.1.thickness=5 to 6 or 8 mm", {"a range and alternatives"});
  refused("lite.1.thickness=1 to 6 mm", {"allowed: 2 mm to 25 mm"});
  refused("lite.1.thickness=5 to 7", {"unit"});
  refused("lite.1.thickness=5 mm to unknown", {"\"unknown\" stands alone"});
  refused("lite.1.coating=none or low-f-soft", {"low-e-soft"});
  refused("lite.1.coating=none or none", {"named twice"});
  refused("lite.2.coating=low-e or low-e-soft", {"named twice"});
  refused("site.place=denver or seattle or chicago or boston or atlanta or miami or phoenix or helena or boise",
          {"names 9 values; 8 at most"});
}

TEST_CASE("texts and days are never alternatives") {
  Job job;
  set_key(job, "job.name=Orr or Sons, 5 to 7 Tallow Lane", reference());
  CHECK(word_of(job, "job.name") == "Orr or Sons, 5 to 7 Tallow Lane");
  CHECK_THROWS_AS(set_key(job, "job.date=2025-02-21 or 2025-02-22", reference()), BadInput);
}

TEST_CASE("every reading of a job is checked") {
  CHECK(says(pane_refusal({"film.surface=2 or 4"}), {"film.surface", "\"4\"", "1 to 2"}));
  CHECK(says(pane_refusal({"film.solar_absorptance=unknown", "film.solar_transmittance=0.3 to 0.9",
                           "film.solar_reflectance=0.3"}),
             {"0.75", "more than the whole"}));
  CHECK(says(pane_refusal({"shading.pattern=none or half", "shading.share=30 %"}),
             {"shading.share", "has no meaning here"}));
  CHECK_NOTHROW(pane_with({"shading.pattern=none or head-band", "shading.share=30 %"}));
  CHECK_NOTHROW(pane_with({"glass.panes=1 or 2", "lite.2.tint=bronze", "unit.spacer=warm-edge"}));
  CHECK(says(pane_refusal({"glass.panes=1 or 2", "lite.3.tint=bronze"}), {"lite.3.tint", "no such lite"}));
}

TEST_CASE("a key that hangs on an open one counts where it has a meaning") {
  const Job job = pane_with(
      {"shading.pattern=none or head-band", "shading.share=30 %", "glass.panes=1 or 2", "lite.2.tint=bronze"});
  const Job plain = with_parts_settled(job, Run::middle, {}, reference());
  CHECK(word_of(plain, "shading.pattern") == "none");
  CHECK_FALSE(speaks_of(plain, "shading.share"));
  CHECK_FALSE(speaks_of(plain, "lite.2.tint"));
  const Job other = with_parts_settled(job, Run::bad_end, {{"shading.pattern", 1}, {"glass.panes", 1}}, reference());
  CHECK(number_of(other, "shading.share") == 0.3);
  CHECK(word_of(other, "lite.2.tint") == "bronze");
}

TEST_CASE("a job that leaves keys open in part is never better than with any of their values") {
  const Job open = pane_with({"lite.1.thickness=4 to 8 mm", "frame.kind=wood or aluminum", "inside.shade=none",
                              "film.reference_glass=3-mm-clear", "film.solar_absorptance=0.30 or 0.45"});
  const Assessment a = assess(open, reference());
  ChainCache cache;
  for (const auto& [key, known] : open.partly) {
    for (const Value& value : known.values) {
      const Job settled = internal::with_value(open, key, value);
      INFO(key);
      const Choice worst = internal::worst_choice(settled, reference(), cache);
      CHECK(internal::bad_end_ratio(settled, worst, reference(), cache) <= a.stress_ratio * (1 + 1e-9));
    }
  }
  CHECK(a.unknowns.front().readings.size() > 1);
  CHECK(word_of(a.middle, "frame.kind") == "wood");
  CHECK(number_of(a.middle, "film.solar_absorptance") == 0.30);
}

TEST_CASE("every place inside a range is within its readings' worst by little") {
  // Of places that no reading stands for: the stress is smooth in these keys, so the worst of five places is near.
  const Job open = pane_with({"lite.1.thickness=3 to 10 mm"});
  ChainCache cache;
  const auto ratio = [&](const Job& job) {
    return internal::bad_end_ratio(job, internal::worst_choice(job, reference(), cache), reference(), cache);
  };
  const double worst = ratio(open);
  for (const double mm : {3.3, 3.9, 4.4, 5.7, 7.1, 7.9, 8.9, 9.7}) {
    Job inside = open;
    settle(inside, "lite.1.thickness", mm / 1000.0);
    CHECK(ratio(inside) <= 1.01 * worst);
  }
}

TEST_CASE("a rule that speaks for one of the alternatives asks, and the readings say what each gives") {
  const Assessment a = assess(pane_with({"lite.1.kind=float or patterned", "film.solar_absorptance=0.25",
                                         "film.reference_glass=3-mm-clear", "inside.shade=none"}),
                              reference());
  CHECK(a.figures == Verdict::go);
  CHECK(a.guidance == Verdict::caution);
  REQUIRE(a.open_rules.size() == 1);
  const OpenRule& open = a.open_rules.front();
  CHECK(open.rule.id == "W3");
  CHECK(open.rule.severity == Severity::ask);
  CHECK(open.key == "lite.1.kind");
  CHECK(std::get<std::string>(open.value) == "patterned");
  const auto kind = std::find_if(a.unknowns.begin(), a.unknowns.end(),
                                 [](const UnknownTaken& unknown) { return unknown.key == "lite.1.kind"; });
  REQUIRE(kind != a.unknowns.end());
  REQUIRE(kind->readings.size() == 2);
  CHECK(kind->readings[0].verdict == Verdict::go);
  CHECK(kind->readings[1].verdict == Verdict::refer);
  // As the likely one: then the rule itself speaks.
  const Assessment likely = assess(pane_with({"lite.1.kind=patterned or float"}), reference());
  CHECK(likely.guidance == Verdict::refer);
  CHECK(likely.open_rules.empty());
}

TEST_CASE("a rule on a range speaks for the part of it that the rule is about") {
  const auto rules_with = [&](const char* age) {
    Words ids;
    const Assessment a =
        assess(pane_with({"glass.panes=2", "lite.2.coating=none", "film.solar_absorptance=0.2", age}), reference());
    for (const OpenRule& open : a.open_rules) ids.push_back(open.rule.id);
    return ids;
  };
  CHECK(rules_with("history.unit_age=2 to 4 years").empty());
  CHECK(rules_with("history.unit_age=2 to 14 years").size() == 1);
}
