// What drives an answer: each input changed alone, the largest effect first.
#include "sunstrain/drivers.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "../../src/report/words.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using Act = DriverRow::Act;

namespace {

const Reference& tables() { return builtin_reference(); }

const Driver* find(const std::vector<Driver>& drivers, const std::string& key) {
  const auto found = std::find_if(drivers.begin(), drivers.end(), [&](const Driver& one) { return one.key == key; });
  return found == drivers.end() ? nullptr : &*found;
}

std::vector<Driver> tried_on(const Assessment& a, const Reference& reference) {
  ChainCache cache;
  return drivers_of(a, reference, cache);
}

std::string typed(const Driver& driver) {
  if (const std::string* word = std::get_if<std::string>(&driver.tried)) return *word;
  return std::to_string(std::get<double>(driver.tried));
}

}  // namespace

TEST_CASE("each driver's ratio is that of the job with its key so", "[slow]") {
  const Job job = test::complete_double({"inside.shade=dark-drape", "inside.heat=supply-vent", "film.bare=none"});
  const Assessment a = assess(job, tables());
  const std::vector<Driver> drivers = tried_on(a, tables());
  REQUIRE(drivers.size() > 10);
  for (const Driver& driver : drivers) {
    if (driver.key.starts_with("film.solar")) continue;  // below
    INFO(driver.key << " " << typed(driver));
    Job changed = job;
    settle(changed, driver.key, driver.tried);
    CHECK(driver.stress_ratio == Approx(a.raised_by() * assess(changed, tables()).stress_ratio).epsilon(1e-9));
    CHECK(a.bad_end.values.at(driver.key) == driver.taken);
    if (!driver.slope) continue;
    const double step = std::get<double>(driver.tried) - std::get<double>(driver.taken);
    CHECK(*driver.slope * step == Approx(driver.stress_ratio - a.stress_ratio).margin(1e-12));
  }
}

TEST_CASE("drivers come in the order of their effect, and none without any") {
  const Assessment a = assess(test::complete_double({"inside.shade=dark-drape"}), tables());
  const std::vector<Driver> drivers = tried_on(a, tables());
  double before = 1e9;
  for (const Driver& driver : drivers) {
    const double effect = std::abs(driver.stress_ratio - a.stress_ratio);
    CHECK(effect <= before);
    CHECK(effect >= 0.0005);
    before = effect;
  }
  // A clear pane in grass: of these there is nothing to change.
  for (const char* key : {"lite.1.tint", "lite.1.coating", "site.ground", "shading.pattern"})
    CHECK(!find(drivers, key));
}

TEST_CASE("a lighter film is tried in its sheet's own strength") {
  const Job job = test::complete_double({});  // by transmittance and reflectance
  const Assessment a = assess(job, tables());
  const double t = number_of(job, "film.solar_transmittance").value(),
               r = number_of(job, "film.solar_reflectance").value();
  const std::vector<Driver> drivers = tried_on(a, tables());
  const Driver* film = find(drivers, "film.solar_absorptance");
  REQUIRE(film);
  CHECK(film->act == Act::can_do);
  CHECK(std::get<double>(film->taken) == Approx(1.0 - t - r));
  CHECK(std::get<double>(film->tried) == Approx(1.0 - t - r - 0.05));
  Job lighter = job;
  settle(lighter, "film.solar_transmittance", t + 0.05);
  CHECK(film->stress_ratio == Approx(assess(lighter, tables()).stress_ratio).epsilon(1e-6));
  CHECK(film->stress_ratio < a.stress_ratio);
  CHECK(*film->slope > 0.0);
}

TEST_CASE("what is settled is not to be found out, and what is open is no given thing") {
  const Assessment known = assess(test::complete_double({"lite.1.treatment=annealed"}), tables());
  for (const Driver& driver : tried_on(known, tables())) CHECK(driver.act != Act::find_out);
  const Assessment open = assess(test::job_of({"pane.width=0.9 m", "pane.height=1.2 m", "film.solar_absorptance=0.45",
                                               "site.place=denver", "pane.facing=S", "frame.kind=vinyl"}),
                                 tables());
  const std::vector<Driver> drivers = tried_on(open, tables());
  std::set<std::string> found_out;
  for (const Driver& driver : drivers) {
    INFO(driver.key);
    const bool settled = open.job.values.contains(driver.key);
    if (driver.act == Act::find_out) {
      CHECK_FALSE(settled);
      CHECK_FALSE(driver.how.empty());
      found_out.insert(driver.key);
    } else if (driver.act == Act::given) {
      CHECK(settled);
      CHECK(driver.how.empty());
    }
  }
  CHECK(found_out.contains("lite.2.treatment"));
  for (const UnknownTaken& unknown : open.unknowns) {
    if (open.stress_ratio - unknown.ratio_at_middle > 0.001) CHECK(found_out.contains(unknown.key));
  }
  const Driver* mark = find(drivers, "lite.2.treatment");
  REQUIRE(mark);
  CHECK(mark->how.find("proves nothing") != std::string::npos);
}

// What the owner can change on the pane as it stands, and the choice of film; never the pane, its frame or its place.
TEST_CASE("nothing is advised that cannot be done on an installed pane") {
  for (const DriverRow& row : tables().drivers) {
    INFO(row.key);
    const std::string table = row.key.substr(0, row.key.find('.'));
    const bool can = table == "film" || table == "inside" || table == "sign" || row.key == "shading.screen";
    if (row.act == Act::can_do) CHECK(can);
    CHECK(row.how.empty() == (row.act == Act::given));
  }
}

TEST_CASE("slopes are told in steps that a person would take") {
  const auto text = [](const char* key, double slope, Units units) {
    for (const JobKey& row : tables().job_keys)
      if (row.name == key) return report::slope_text({}, row, slope, units);
    return std::string();
  };
  CHECK(text("film.solar_absorptance", 2.4, Units::metric) == "+0.024 per 1 %");
  CHECK(text("frame.bite", 4.0, Units::metric) == "+0.040 per 10 mm");
  CHECK(text("frame.bite", 4.0, Units::inch) == "+0.102 per 1 in");
  CHECK(text("lite.*.thickness", -18.0, Units::metric) == "-0.018 per 1 mm");
  CHECK(text("inside.temperature", 0.01, Units::metric) == "+0.010 per 1 K");
  CHECK(text("inside.temperature", 0.018, Units::inch) == "+0.010 per 1 F");
}

TEST_CASE("what can be done about a pane is what would help it, steps as well as changes") {
  const Assessment a =
      assess(test::complete_double({"frame.kind=aluminum", "inside.shade=dark-drape", "inside.gap=25 mm",
                                    "inside.vented=no", "inside.heat=supply-vent"}),
             tables());
  REQUIRE(a.figures != Verdict::go);
  std::size_t helped = 0;
  for (const Driver& driver : tried_on(a, tables())) {
    if (driver.act != Act::can_do || driver.key == "film.solar_absorptance") continue;
    INFO(driver.key);
    const auto help =
        std::find_if(a.helps.begin(), a.helps.end(), [&](const Help& one) { return one.words == driver.words; });
    const bool helps = driver.stress_ratio < 0.98 * a.stress_ratio;
    REQUIRE((help != a.helps.end()) == helps);
    if (!helps) continue;
    CHECK(help->stress_ratio == Approx(driver.stress_ratio).epsilon(1e-12));
    ++helped;
  }
  CHECK(helped >= 2);
  CHECK(helped + 1 >= a.helps.size());  // beside them a lighter film at most
}
