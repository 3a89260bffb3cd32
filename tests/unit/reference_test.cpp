#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "sunstrain/condition.hpp"
#include "sunstrain/io/reference_load.hpp"

using namespace sunstrain;

namespace {

using Files = std::map<std::string, std::string>;

// The built-in tables with the first `from` of one file replaced.
Files changed(const std::string& file, const std::string& from, const std::string& to) {
  Files files = embedded_reference_files();
  std::string& text = files.at(file);
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  return files;
}

// What the loader says of a table that it refuses; empty when it takes it.
std::string refusal(const Files& files) {
  try {
    load_reference(files);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

bool says(const std::string& message, const std::vector<std::string>& parts) {
  INFO(message);
  for (const std::string& part : parts) {
    CAPTURE(part);
    CHECK(message.find(part) != std::string::npos);
  }
  return message.find('\n') == std::string::npos;
}

std::string rule_with(const std::string& when) {
  return "[[rule]]\nid = \"Z1\"\nmechanism = \"weaker edge\"\nseverity = \"ask\"\nwhen = " + when +
         "\ntext = \"t\"\nsource = \"s\"\ncertainty = \"judgement\"\n";
}

Condition condition_of(const std::string& when) {
  return load_rules("own.toml", rule_with(when), builtin_reference().job_keys).front().when;
}

std::string condition_refusal(const std::string& when) {
  try {
    condition_of(when);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

template <class Row>
void check_sources(const std::vector<Row>& rows, std::size_t least) {
  CHECK(rows.size() >= least);
  for (const Row& row : rows) CHECK(row.source.text.size() > 5);
}

template <class Row>
std::set<std::string> names(const std::vector<Row>& rows) {
  std::set<std::string> out;
  for (const Row& row : rows) out.insert(row.name);
  return out;
}

std::set<std::string> choices(const std::string& key, const std::set<std::string>& without = {}) {
  std::set<std::string> out;
  for (const JobKey& row : builtin_reference().job_keys) {
    if (row.name == key) out.insert(row.choices.begin(), row.choices.end());
  }
  for (const std::string& word : without) out.erase(word);
  return out;
}

}  // namespace

TEST_CASE("every row of the reference carries its source", "[reference]") {
  const Reference& r = builtin_reference();
  check_sources(r.tints, 5);
  check_sources(r.coatings, 4);
  check_sources(r.treatments, 3);
  check_sources(r.glass_kinds, 4);
  check_sources(r.thickness_factors, 3);
  check_sources(r.edge_finishes, 7);
  check_sources(r.nominal_thicknesses, 12);
  check_sources(r.frames, 10);
  check_sources(r.frame_colors, 5);
  check_sources(r.spacers, 3);
  check_sources(r.gases, 3);
  check_sources(r.indoor_shades, 4);
  check_sources(r.grounds, 6);
  check_sources(r.reference_glasses, 3);
  check_sources(r.places, 29);
  check_sources(r.rules, 20);
  check_sources(r.draws, 7);
  for (const auto& [name, row] : r.constants) {
    CAPTURE(name);
    CHECK(row.source.text.size() > 5);
    CHECK_FALSE(row.unit.empty());
  }
}

TEST_CASE("every word that a job may hold has its row", "[reference]") {
  const Reference& r = builtin_reference();
  CHECK(choices("lite.*.tint") == names(r.tints));
  CHECK(choices("lite.*.coating", {"none"}) == names(r.coatings));
  CHECK(choices("lite.*.treatment") == names(r.treatments));
  CHECK(choices("lite.*.kind") == names(r.glass_kinds));
  CHECK(choices("edge.finish") == names(r.edge_finishes));
  CHECK(choices("frame.kind") == names(r.frames));
  CHECK(choices("frame.color") == names(r.frame_colors));
  CHECK(choices("unit.spacer") == names(r.spacers));
  CHECK(choices("cavity.*.gas") == names(r.gases));
  CHECK(choices("inside.shade", {"none"}) == names(r.indoor_shades));
  CHECK(choices("site.place") == names(r.places));
  CHECK(choices("site.ground") == names(r.grounds));
  CHECK(choices("film.reference_glass") == names(r.reference_glasses));
}

TEST_CASE("values arrive in SI", "[reference]") {
  const Reference& r = builtin_reference();
  const Place& denver = row_named(r.places, "denver");
  CHECK(denver.latitude_rad == Approx(0.694938).margin(1e-6));  // 39.817 deg
  CHECK(denver.longitude_rad == Approx(-1.826487).margin(1e-6));
  CHECK(denver.coldest_k == Approx(255.75));
  CHECK(denver.hottest_k == Approx(307.75));
  CHECK(denver.tau_edition == 2009);
  CHECK(denver.tau_beam[0] == 0.251);
  CHECK(denver.tau_diffuse[11] == 2.615);
  CHECK(denver.daily_range_k[6] == 15.2);
  CHECK(denver.utc_offset_h == -7.0);
  CHECK(row_named(r.places, "calgary").tau_edition == 2013);

  CHECK(row_named(r.treatments, "tempered").prestress_pa == Approx(67e6));
  CHECK(row_named(r.reference_glasses, "double-clear").thicknesses_m == std::vector<double>{0.003, 0.003});
  const FrameKind& glued = row_named(r.frames, "structural-silicone");
  CHECK_FALSE(glued.outer_lip);
  CHECK(glued.seal_height_m == 0.0);
  CHECK(glued.soft_strip_to_m == Approx(0.022));
  const FrameKind& wood = row_named(r.frames, "wood");
  CHECK(wood.seal_thickness_m == Approx(0.003));
  CHECK(wood.single.inner_contact_m2k_w == Approx(0.0452).margin(5e-5));
  CHECK(wood.sealed.capacity_j_mk[0] == 1400.0);
  CHECK(wood.joint_area_m == 0.0);
  CHECK(constant(r, "edge_characteristic_pa") == 45e6);
  CHECK(constant(r, "weibull_low_eta_pa") == 33.1e6);
  CHECK_THROWS_AS(constant(r, "no_such_number"), std::out_of_range);
}

TEST_CASE("strength factors keep their order: a worse edge never bears more", "[reference]") {
  const Reference& r = builtin_reference();
  const char* order[] = {"damaged", "hidden", "as-cut", "ground", "seamed", "polished-documented"};
  for (std::size_t i = 1; i < std::size(order); ++i) {
    const EdgeFinish& worse = row_named(r.edge_finishes, order[i - 1]);
    const EdgeFinish& better = row_named(r.edge_finishes, order[i]);
    CHECK(worse.allowable_factor <= better.allowable_factor);
    CHECK(worse.odds_factor <= better.odds_factor);
  }
  CHECK(row_named(r.edge_finishes, "polished").allowable_factor == 1.0);  // no papers, no credit
  CHECK(constant(r, "material_factor_go") > constant(r, "material_factor_refer"));
}

// Source: solar transmittance of generic panes in the glass data of a public whole-building energy simulation,
// which is independent of Rubin's constants and of how we weighted them. Its 12 mm rows are scaled, not
// measured, and are left out.
TEST_CASE("tints agree with a second published set within 0.025", "[reference]") {
  struct Pane {
    const char* tint;
    double thickness_m, solar_transmittance;
  };
  const Pane published[] = {{"clear", 0.003, 0.837},    {"clear", 0.006, 0.775},  {"low-iron", 0.003, 0.899},
                            {"low-iron", 0.005, 0.889}, {"bronze", 0.003, 0.645}, {"bronze", 0.006, 0.482},
                            {"bronze", 0.010, 0.326},   {"gray", 0.003, 0.626},   {"gray", 0.006, 0.455},
                            {"green", 0.003, 0.635},    {"green", 0.006, 0.487}};
  for (const Pane& pane : published) {
    CAPTURE(pane.tint, pane.thickness_m);
    bool found = false;
    for (const TintRow& row : row_named(builtin_reference().tints, pane.tint).rows) {
      if (std::abs(row.thickness_m - pane.thickness_m) > 1e-9) continue;
      found = true;
      CHECK(row.solar_transmittance == Approx(pane.solar_transmittance).margin(0.025));
    }
    CHECK(found);
  }
}

// Source: the coated 6 mm panes of the same data; the coatings of glass.toml were taken off them, so on the
// same pane (bare 0.775, index 1.526) they must give back T and both reflectances to the printed digits.
TEST_CASE("a coating put back on its pane gives the pane's figures", "[reference]") {
  struct Pane {
    const char* coating;
    double transmittance, reflectance_glass, reflectance_coated, emissivity;
  };
  const Pane published[] = {{"low-e-hard", 0.68, 0.09, 0.10, 0.20},
                            {"low-e-soft", 0.60, 0.17, 0.22, 0.10},
                            {"low-e-selective", 0.43, 0.30, 0.42, 0.03},
                            {"reflective", 0.11, 0.27, 0.43, 0.47}};
  const double r = std::pow(0.526 / 2.526, 2), bare = 0.775;
  const double t = (std::sqrt(std::pow(1 - r, 4) + 4 * r * r * bare * bare) - std::pow(1 - r, 2)) / (2 * r * r * bare);
  for (const Pane& pane : published) {
    CAPTURE(pane.coating);
    const Coating& c = row_named(builtin_reference().coatings, pane.coating);
    const double d = 1 - r * c.rho_glass * t * t;
    CHECK((1 - r) * t * c.tau / d == Approx(pane.transmittance).margin(2e-4));
    CHECK(r + std::pow((1 - r) * t, 2) * c.rho_glass / d == Approx(pane.reflectance_glass).margin(2e-4));
    CHECK(c.rho_air + c.tau * c.tau * t * t * r / d == Approx(pane.reflectance_coated).margin(2e-4));
    CHECK(c.emissivity == pane.emissivity);
  }
}

// The ISO 15099 polynomials and the rows of EN 673 are two published tables of the same gases.
TEST_CASE("the two published tables of each gas agree", "[reference]") {
  const double kelvin[] = {263.15, 273.15, 283.15, 293.15};
  for (const Gas& gas : builtin_reference().gases) {
    CAPTURE(gas.name);
    for (std::size_t i = 0; i < 4; ++i) {
      const double t = kelvin[i];
      CHECK(gas.conductivity_a + gas.conductivity_b * t == Approx(gas.en673_conductivity[i]).epsilon(0.03));
      CHECK(gas.viscosity_a + gas.viscosity_b * t == Approx(gas.en673_viscosity[i]).epsilon(0.03));
      CHECK(101325.0 * gas.molar_mass_kg_mol / (8.314 * t) == Approx(gas.en673_density[i]).epsilon(0.03));
      CHECK(gas.heat_a + gas.heat_b * t == Approx(gas.en673_heat).epsilon(0.03));
    }
  }
}

TEST_CASE("a broken table is refused in one line that names file, row and key", "[reference]") {
  CHECK(says(refusal(changed("gases.toml", "heat_b", "heat_c")), {"gases.toml", "gas 1 (air)", "heat_b", "missing"}));
  CHECK(says(refusal(changed("shades.toml", "emissivity = 0.90", "emissivity = 0.90\ngloss = 1")),
             {"shades.toml", "light-blind", "gloss", "not known"}));
  CHECK(says(refusal(changed("grounds.toml", "source =", "# source =")), {"grounds.toml", "grass", "source"}));
  CHECK(says(refusal(changed("grounds.toml", "\"read\"", "\"seen\"")), {"grounds.toml", "grass", "certainty", "seen"}));
  CHECK(says(refusal(changed("grounds.toml", "0.26", "1.26")), {"grass", "solar_reflectance", "1.26", "0 to 1"}));
  CHECK(says(refusal(changed("grounds.toml", "0.26", "nan")), {"grounds.toml", "line", "finite"}));
  CHECK(says(refusal(changed("grounds.toml", "0.26", "\"a lot\"")), {"grass", "a lot", "number"}));
  CHECK(says(refusal(changed("grounds.toml", "\"dry-soil\"", "\"grass\"")), {"ground 2 (grass)", "twice"}));
  CHECK(says(refusal(changed("grounds.toml", "[[ground]]", "[[soil]]")), {"grounds.toml", "soil"}));
  CHECK(says(refusal(changed("glass.toml", "[[coating]]", "[[coating]")), {"glass.toml", "line"}));
  CHECK(says(refusal(changed("glass.toml", "[[coating]]", "[=]")), {"glass.toml", "line", "key"}));
  CHECK(says(refusal(changed("glass.toml", "annealed = true", "annealed = tr\n")), {"glass.toml", "line"}));
  CHECK(says(refusal(changed("glass.toml", "tau = 0.8387", "tau = 0.9387")), {"low-e-hard", "tau"}));
  CHECK(says(refusal(changed("glass.toml", "least_mm = 2.16", "least_mm = 2.60")), {"nominal_thickness", "least_mm"}));
  CHECK(says(refusal(changed("frames.toml", "capacity_j_mk = [0.0, ", "capacity_j_mk = [")),
             {"wood", "single", "capacity_j_mk", "4 numbers"}));
  CHECK(says(refusal(changed("frames.toml", "outer_lip = false", "outer_lip = true")),
             {"structural-silicone", "joint_area_m", "not known"}));
  CHECK(says(refusal(changed("constants.toml", "70e9", "\"70 GPa\"")), {"constants.toml", "glass_young_pa", "value"}));
  CHECK(says(refusal(changed("drivers.toml", "\"can do\"", "\"try\"")), {"driver 1", "act", "try", "find out"}));
  CHECK(says(refusal(changed("drivers.toml", "\"inside.heat\"", "\"inside.heating\"")), {"driver 1", "job_keys.toml"}));
  CHECK(
      says(refusal(changed("drivers.toml", "to = \"none\"", "to = \"off\"")), {"driver 1", "to", "off", "heat-trap"}));
  CHECK(says(refusal(changed("drivers.toml", "to = \"none\"", "step = 2")), {"driver 1", "step", "words"}));
  CHECK(says(refusal(changed("drivers.toml", "to = \"none\"", "to = \"none\"\nstep = 2")), {"driver 1", "one of"}));
  CHECK(says(refusal(changed("drivers.toml", "step = \"-5 %\"", "step = 0")), {"driver 8", "not be 0"}));
  CHECK(says(refusal(changed("drivers.toml", "how = \"Film the", "why = \"Film the")), {"driver 6", "how", "missing"}));
}

TEST_CASE("a broken CSV table is refused", "[reference]") {
  CHECK(says(refusal(changed("places.csv", "altitude_m", "height_m")), {"places.csv", "height_m", "not known"}));
  CHECK(says(refusal(changed("places.csv", ",altitude_m", "")), {"places.csv", "altitude_m", "missing"}));
  CHECK(says(refusal(changed("places.csv", ",1619,", ",1619,7,")), {"places.csv", "line 2", "fields"}));
  CHECK(says(refusal(changed("places.csv", ",1619,", ",high,")), {"albuquerque", "altitude_m", "high"}));
  CHECK(says(refusal(changed("places.csv", ",1619,", ",,")), {"albuquerque", "altitude_m", "empty"}));
  CHECK(says(refusal(changed("places.csv", ",2009,", ",2010,")), {"albuquerque", "tau_edition", "2009, 2013"}));
  CHECK(says(refusal(changed("places.csv", "atlanta", "albuquerque")), {"line 3", "twice"}));
  CHECK(says(refusal(changed("glass_solar.csv", "0.8426", "0.8626")), {"glass_solar.csv", "line 4", "clear", "fall"}));
  CHECK(says(refusal(changed("glass_solar.csv", "\"Rubin", "Rubin")), {"glass_solar.csv", "line 2", "fields"}));
  CHECK(says(refusal(changed("glass_solar.csv", "\"\n", "\n")), {"glass_solar.csv", "line 2", "quote is not closed"}));
  CHECK(
      says(refusal(changed("glass_solar.csv", "\"\n", "\" Sun\n")), {"glass_solar.csv", "line 2", "behind a closing"}));
}

TEST_CASE("a broken table of what samples draw is refused", "[reference]") {
  CHECK(
      says(refusal(changed("samples.toml", "[0, 0.1, 0.5, 0.9, 1]", "[0, 0.1, 0.5, 0.9]")), {"draw 1", "chance", "1"}));
  CHECK(says(refusal(changed("samples.toml", "[-8, -4, 0, 4, 7]", "[-8, -4, 0, 4]")), {"draw 1", "value", "chance"}));
  CHECK(says(refusal(changed("samples.toml", "[-8, -4, 0, 4, 7]", "[-8, 4, 0, 4, 7]")),
             {"draw 1", "value", "ascending"}));
  CHECK(says(refusal(changed("samples.toml", "[-8, -4, 0, 4, 7]", "[-80, -4, 0, 4, 7]")), {"draw 1", "value", "-20"}));
  CHECK(says(refusal(changed("samples.toml", "\"air_k\"", "\"air\"")), {"draw 1", "of", "beam_depth"}));
  CHECK(says(refusal(changed("samples.toml", "\"frame.sun\"\ncertainty", "\"frame.sum\"\ncertainty")),
             {"asks", "job key"}));
}

TEST_CASE("every table is needed; other files are left alone", "[reference]") {
  for (const char* name :
       {"glass.toml", "places.csv", "job_keys.toml", "rules.toml", "constants.toml", "samples.toml"}) {
    Files files = embedded_reference_files();
    files.erase(name);
    CHECK(says(refusal(files), {name, "missing"}));
  }
  Files files = embedded_reference_files();
  files["theory.md"] = "no table";
  CHECK(refusal(files).empty());
}

TEST_CASE("the version is a fingerprint of the texts", "[reference]") {
  const std::string version = builtin_reference().version;
  CHECK(version.size() == 16);
  CHECK(version.find_first_not_of("0123456789abcdef") == std::string::npos);
  CHECK(load_reference(embedded_reference_files()).version == version);
  CHECK(load_reference(changed("grounds.toml", "0.26", "0.27")).version != version);
  CHECK(load_reference(changed("rules.toml", "# ", "#  ")).version != version);
}

TEST_CASE("conditions as data", "[reference]") {
  const Condition bite = condition_of(R"({ fact = "frame.bite", above = "12.7 mm" })");
  CHECK(bite.kind == Condition::Kind::above);
  CHECK(bite.fact == "frame.bite");
  CHECK(bite.limit == Approx(0.0127));
  CHECK(condition_of(R"({ fact = "figure.stress_added_pa", at_most = 4e6 })").limit == 4e6);
  CHECK(condition_of(R"({ fact = "film.name", is = "Sample 5" })").words == std::vector<std::string>{"Sample 5"});
  CHECK(condition_of(R"({ fact = "lite.2.coating_surface", is = "3" })").fact == "lite.2.coating_surface");
  CHECK(condition_of(R"({ fact = "frame.bite", known = false })").kind == Condition::Kind::not_known);
  CHECK(condition_of(R"({ fact = "frame.bite", known = true })").kind == Condition::Kind::known);

  const Condition any = condition_of(
      R"({ any = [ { fact = "frame.kind", among = ["masonry", "steel-putty"] },
                   { none = [ { fact = "lite.2.kind", is = "float" } ] } ] })");
  CHECK(any.kind == Condition::Kind::any);
  REQUIRE(any.parts.size() == 2);
  CHECK(any.parts[0].words == std::vector<std::string>{"masonry", "steel-putty"});
  CHECK(holds(any, {{"frame.kind", std::string("masonry")}}) == Truth::yes);
  CHECK(holds(any, {{"frame.kind", std::string("wood")}, {"lite.2.kind", std::string("float")}}) == Truth::no);
  CHECK(holds(any, {{"frame.kind", std::string("wood")}}) == Truth::cannot_tell);
}

TEST_CASE("a condition that could never hold is refused", "[reference]") {
  CHECK(says(condition_refusal(R"({ fact = "frame.bight", above = "10 mm" })"),
             {"own.toml", "rule 1 (Z1)", "frame.bight"}));
  CHECK(says(condition_refusal(R"({ fact = "figure.filmed_absorbd", above = 0.5 })"),
             {"figure.filmed_absorbd", "the nearest is figure.filmed_absorbed"}));
  CHECK(says(condition_refusal(R"({ fact = "figure.blind_tight", known = false })"), {"known", "always known"}));
  CHECK(says(condition_refusal(R"({ fact = "figure.filmed_absorbed", above = 50 })"), {"above", "50"}));
  CHECK(says(condition_refusal(R"({ fact = "lite.*.coating_surface", is = "3" })"), {"lite.1.coating_surface"}));
  CHECK(says(condition_refusal(R"({ fact = "lite.4.kind", is = "wired" })"), {"lite.4.kind", "1 to 3"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite", above = 0.0127 })"), {"above", "0.0127", "unit"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite", above = "2 m" })"), {"above", "2 m", "frame.bite goes from"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.kind", is = "marble" })"), {"is", "marble", "masonry"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.kind", above = 3 })"), {"above", "a word"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite", is = "deep" })"), {"is", "deep"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite", above = "deep" })"), {"above", "deep"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite" })"), {"frame.bite", "test is missing"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite", above = "10 mm", below = "20 mm" })"), {"below", "one test"}));
  CHECK(says(condition_refusal(R"({ fact = "frame.bite", above = "10 mm", twice = true })"), {"twice", "not known"}));
  CHECK(says(condition_refusal(R"({ all = [] })"), {"all", "list of conditions"}));
  CHECK(says(condition_refusal(R"({ all = [ { fact = "frame.kind", is = 7 } ] })"), {"all 1", "is"}));
}

TEST_CASE("a broken rule or job key is refused", "[reference]") {
  CHECK(says(refusal(changed("rules.toml", "severity = \"refer\"", "severity = \"stop\"")),
             {"rules.toml", "stop", "refer"}));
  CHECK(says(refusal(changed("rules.toml", "mechanism = \"weaker edge\"", "mechanism = \"bad luck\"")), {"bad luck"}));
  CHECK(says(refusal(changed("rules.toml", "when = ", "if = ")), {"rules.toml", "rule 1", "when", "missing"}));
  CHECK(says(refusal(changed("job_keys.toml", "kind = \"choice\"", "kind = \"pick\"")),
             {"job_keys.toml", "pick", "choice"}));
  CHECK(says(refusal(changed("job_keys.toml", "middle = \"33 %\"", "middle = \"99 %\"")),
             {"job_keys.toml", "shading.share", "taken", "middle", "range"}));
  CHECK(says(refusal(changed("job_keys.toml", "bad = [\"snow\"]", "bad = [\"ice\"]")), {"site.ground", "bad", "ice"}));
  CHECK(says(refusal(changed("job_keys.toml", "bad = [\"snow\"]", "bad = []")), {"site.ground", "bad", "list"}));
  CHECK(says(refusal(changed("job_keys.toml", "minimum = \"0.05 m\"", "minimum = \"0.05\"")), {"pane.width", "0.05"}));
  CHECK(says(refusal(changed("job_keys.toml", "\"job.address\"", "\"job.name\"")), {"job.name", "twice"}));
}

TEST_CASE("job keys arrive with their ranges, words and takings", "[reference]") {
  const auto key = [](const std::string& name) { return row_named(builtin_reference().job_keys, name); };
  CHECK(key("pane.width").minimum == Approx(0.05));
  CHECK(key("pane.width").required);
  CHECK(key("pane.facing").choices.size() == 16);
  CHECK(key("site.daily_range").kind == JobKey::Kind::difference);
  CHECK(key("site.daily_range").maximum == Approx(30.0));
  CHECK_FALSE(key("film.visible_transmittance").refused.empty());
  CHECK_FALSE(key("job.note").about_glass);
  const JobKey share = key("shading.share");
  CHECK(share.applies.kind == Condition::Kind::is);
  REQUIRE(share.taken.size() >= 2);
  CHECK(share.taken.back().when.kind == Condition::Kind::always);
  CHECK(std::get<double>(share.taken.back().middle) == Approx(0.33));
  CHECK(key("pane.facing").taken.back().bad.size() == 5);
  CHECK(std::get<double>(key("pane.facing").taken.back().middle) == Approx(3.14159265));  // S, in radians
}
