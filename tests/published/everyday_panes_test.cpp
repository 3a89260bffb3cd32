// 39 everyday panes against an independent prototype in another language: a second opinion, not a measurement. Its
// frames and contacts are its author's judgement, the engine's come from a validated two-dimensional section, so single
// panes may part; as a set the two must rank the panes alike and sit at the same level.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <numeric>
#include <sstream>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"

using namespace sunstrain;

namespace {

using Row = std::map<std::string, std::string>;

std::vector<std::string> fields(const std::string& line) {
  std::vector<std::string> result;
  std::istringstream in(line);
  for (std::string field; std::getline(in, field, ',');) result.push_back(field);
  return result;
}

std::vector<Row> panes() {
  std::ifstream file(SUNSTRAIN_SOURCE_DIR "/tests/published/everyday_panes.csv");
  std::vector<std::string> names;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::string> values = fields(line);
    if (names.empty()) {
      names = values;
      continue;
    }
    if (values.size() != names.size())
      throw std::runtime_error("everyday_panes.csv: a row has too few fields: " + line);
    Row& row = rows.emplace_back();
    for (std::size_t i = 0; i < names.size(); ++i) row[names[i]] = values[i];
  }
  return rows;
}

Job job_of(const Row& row) {
  const Reference& reference = builtin_reference();
  Job job{"everyday_panes.csv, " + row.at("id"), {}};
  const auto set = [&](const std::string& key, const std::string& value) {
    set_key(job, key + "=" + value, reference);
  };
  set("pane.width", row.at("width_m") + " m");
  set("pane.height", row.at("height_m") + " m");
  set("pane.facing", row.at("facing"));
  set("glass.panes", row.at("panes"));
  const bool sealed = row.at("panes") == "2";
  for (const char* lite : {"lite.1.", "lite.2."}) {
    if (!sealed && lite[5] == '2') continue;
    set(std::string(lite) + "tint", row.at("tint"));
    set(std::string(lite) + "thickness", row.at("thickness_mm") + " mm");
    set(std::string(lite) + "coating", row.at("low_e") == "yes" && lite[5] == '2' ? "low-e-soft" : "none");
  }
  if (sealed) {
    set("cavity.1.width", "12 mm");
    set("cavity.1.gas", row.at("low_e") == "yes" ? "argon" : "air");
    set("unit.spacer", "metal");
  }
  if (row.at("low_e") == "yes") set("lite.2.coating_surface", "3");
  set("film.solar_transmittance", row.at("film_t"));
  set("film.solar_reflectance", row.at("film_r"));
  set("film.solar_reflectance_film_side", row.at("film_r_side"));
  set("film.reference_glass", "3-mm-clear");
  set("film.emissivity", row.at("film_emissivity"));
  set("film.surface", row.at("film_surface"));
  set("frame.kind", row.at("frame"));
  set("frame.bite", row.at("frame") == "wood" ? "12 mm" : "14 mm");
  set("shading.pattern", row.at("shadow"));
  if (row.at("shadow") != "none") set("shading.share", "0.25");
  set("inside.shade", row.at("shade"));
  if (row.at("shade") != "none") {
    set("inside.vented", "yes");
    set("inside.closure", "1");
    set("inside.gap", "50 mm");
  }
  set("inside.heat", "none");
  set("site.place", row.at("place"));
  const bool snowy = row.at("place") == "denver" || row.at("place") == "duluth";
  set("site.ground", snowy ? "snow" : "dry-soil");
  return resolve(job, Run::middle, {}, reference).job;
}

// Frame out of the beam or half in it; frame absorptance as in the prototype's whole jobs; no colder bottom edge.
double worst_mpa(const Row& row, bool filmed, double beam_share, ChainCache& cache) {
  Case pane = build_case(job_of(row), Run::middle, builtin_reference());
  pane.frame_beam_share = beam_share;
  pane.frame_solar_absorptance = row.at("frame") == "vinyl" ? 0.3 : 0.5;
  pane.bottom_edge_colder_k = 0.0;
  const YearPeaks peaks = worst_of_year(pane, filmed ? pane.after : pane.before, builtin_reference(), cache, false);
  if (peaks.worst_energy_residual > 1e-6) FAIL_CHECK("energy does not close: pane " + row.at("id"));
  double worst = 0.0;
  for (const LitePeak& lite : peaks.lites) worst = std::max(worst, lite.in_plane_pa() / 1e6);
  return worst;
}

std::vector<double> ranks(const std::vector<double>& values) {
  std::vector<double> result;
  for (double v : values) {
    const auto below = std::count_if(values.begin(), values.end(), [&](double w) { return w < v; });
    const auto equal = std::count(values.begin(), values.end(), v);
    result.push_back(static_cast<double>(below) + 0.5 * static_cast<double>(equal - 1));
  }
  return result;
}

// Spearman's: the correlation of the ranks.
double rank_correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const std::vector<double> x = ranks(a), y = ranks(b);
  const double mean = 0.5 * static_cast<double>(x.size() - 1);
  double xy = 0, xx = 0, yy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xy += (x[i] - mean) * (y[i] - mean);
    xx += (x[i] - mean) * (x[i] - mean);
    yy += (y[i] - mean) * (y[i] - mean);
  }
  return xy / std::sqrt(xx * yy);
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

struct Column {
  const char* name;
  bool filmed;
  double beam_share;
};

}  // namespace

TEST_CASE("Everyday panes: filmed peak stress ranks and levels as in an independent prototype") {
  // Filmed, the rows further off than 35 % (and 0.5 MPa), and why:
  // * 1, 3 and 25, single panes in wood, 1.3 to 1.6 times: the frame row. On the first of the six whole jobs the
  // section's
  //   wood in place of the prototype's, and nothing else, gives 1.3 times the stress with the frame out of the beam
  //   and 1.7 times with it in half the beam: the section's room side is 5 K colder, and less of the frame's sun gets
  //   to the edge.
  // * 11 and 15, single 6 mm with the frame in half the beam, 1.4 times: a third of the excess goes when every lite is
  // made
  //   one temperature through its thickness, as the prototype has it (its job 3); the rest is the frame row.
  // Blinds, 71 and 73, lie 0.75 to 0.83 times, though absorbed sun agrees to 0.01: the engine lets the frame's room
  // face see the warm gap behind the blind, the prototype leaves it to the room. With the room's air at the frame
  // (tried in a copy) they come to 0.86 to 0.96 vented and 1.03 to 1.15 tight. Unfilmed, single panes carry 0 to 5 MPa,
  // a small difference of middle and edge: information only.
  const std::vector<Row> rows = panes();
  REQUIRE(rows.size() == 39);
  ChainCache cache;
  for (const Column& column : {Column{"after_shade", true, 0.0}, Column{"after_half", true, 0.5},
                               Column{"before_shade", false, 0.0}, Column{"before_half", false, 0.5}}) {
    std::vector<double> ours, theirs, ratios;
    std::ostringstream far_off;
    for (const Row& row : rows) {
      const double their = std::stod(row.at(column.name)),
                   our = worst_mpa(row, column.filmed, column.beam_share, cache);
      ours.push_back(our);
      theirs.push_back(their);
      if (their >= 1.0) ratios.push_back(our / their);
      if (std::abs(our - their) <= std::max(0.35 * their, 0.5)) continue;
      far_off << "\n  " << row.at("id") << " " << row.at("frame") << ", " << row.at("place") << ": " << our
              << " against " << their;
    }
    INFO(column.name << ", off by more than 35 % and 0.5 MPa:" << far_off.str());
    CAPTURE(rank_correlation(ours, theirs), median(ratios));
    if (column.filmed) {
      CHECK(rank_correlation(ours, theirs) >= 0.9);
      CHECK(median(ratios) >= 0.85);
      CHECK(median(ratios) <= 1.2);
    }
  }
}
