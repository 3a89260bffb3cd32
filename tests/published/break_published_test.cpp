// What a crack tells, against published figures and statements.
#include <catch2/catch.hpp>
#include <cmath>

#include "support/break_tables.hpp"

using namespace break_report;

namespace {

constexpr double m_per_in = 0.0254, pa_per_psi = 6894.757;

}  // namespace

TEST_CASE("Cracks: a first fork at two inches goes with 1,500 psi") {
  // L. Orr, Practical analysis of fractures in glass windows, Mater. Res. Stand. 12(1) (1972) 21-23 (recalled, not read
  // from the paper): no fork within 2 in of the origin is a break under about 1,500 psi, forks within 2 in one over it.
  // A round figure: 6 % allowed.
  const double line_pa = 1500.0 * pa_per_psi;
  CHECK(stress_from_length(sign_named("first fork"), 2.0 * m_per_in).likely_pa == Approx(line_pa).epsilon(0.06));
  // What is uncertain by 40 % about that line is the middle band, and no more than that.
  CHECK(tables().bands[1].from_pa == Approx(line_pa / 1.4).epsilon(0.06));
  CHECK(tables().bands[2].from_pa == Approx(line_pa * 1.4).epsilon(0.06));
  // One inch is on its upper side, four inches on its lower one.
  CHECK(stress_from_length(sign_named("first fork"), 1.0 * m_per_in).likely_pa > line_pa);
  CHECK(stress_from_length(sign_named("first fork"), 4.0 * m_per_in).likely_pa < line_pa);
  CHECK(bands_of(read({"origin.cracks=1", "origin.no_fork_within=2 in"}).stress) ==
        std::vector<std::string>{"low", "middle"});
}

TEST_CASE("Cracks: the constant from flaw size and toughness") {
  // J. Mecholsky and others on flaw and mirror sizes in glasses (summary read): the outer mirror radius is about 13
  // times the starting flaw. With K = 1.24 stress sqrt(flaw) for a half-penny flaw (recalled) and a toughness of
  // 0.75 MPa sqrt(m) of soda-lime glass (an open table of materials, read): stress sqrt(radius) = 2.18 MPa sqrt(m).
  const double toughness = 0.75e6, half_penny = 1.24, radius_per_flaw = 13.0;
  const double outer = toughness * std::sqrt(radius_per_flaw) / half_penny;
  const StressSign& fork = sign_named("first fork");
  CHECK(fork.constant_pa_sqrt_m == Approx(outer).epsilon(0.05));
  // The inner radius, 10 times the flaw, is reached before any fork is.
  CHECK(fork.least_pa_sqrt_m > toughness * std::sqrt(10.0) / half_penny);
}

TEST_CASE("Cracks: the constant of branching of soda-lime glass") {
  // ASTM C1678 and NIST SP 960-16, tables of mirror and branching constants, 2.28 MPa sqrt(m) for branching of
  // soda-lime glass (recalled, not read from them).
  for (const char* name : {"first fork", "no fork"}) {
    const StressSign& sign = sign_named(name);
    CHECK(sign.constant_pa_sqrt_m == Approx(2.28e6).epsilon(0.05));
    CHECK(sign.most_pa_sqrt_m >= 2.28e6);
  }
}

TEST_CASE("Cracks: the figure claims no more than tests of rods bear out") {
  // E. Shand, J. Am. Ceram. Soc. 42 (1959) (summary read): stress from the mirror's radius within 8 % of the test for
  // 80 % of glass rods. Edges of panes are less well known than rods: the range is wider.
  const StressRange range = stress_from_length(sign_named("first fork"), 0.05);
  CHECK(range.most_pa > 1.08 * range.likely_pa);
  CHECK(range.least_pa < 0.92 * range.likely_pa);
}

TEST_CASE("Cracks: square to edge and face is heat, one wandering crack little stress, branches more") {
  // Australian Glass and Glazing Association, technical fact sheet on thermal stress (summary read): a heat crack
  // starts at 90 degrees to edge and face; low stress is a single wandering crack, high stress branches near the
  // origin.
  const std::vector<std::string> square{"origin.place=edge", "origin.angle_to_edge=90 deg",
                                        "origin.angle_to_face=90 deg", "crack.path=wanders"};
  CHECK(read(square).result == BreakResult::consistent);
  CHECK(band_of(0.0, tables().bands) == read({"origin.cracks=1"}).stress.bands.front());
  const std::vector<std::string> near_fork = bands_of(read({"origin.first_fork=15 mm", "origin.cracks=3"}).stress);
  CHECK(near_fork == std::vector<std::string>{"high"});
}

TEST_CASE("Cracks: star and rings are a blow, a large mirror rather heat") {
  // An encyclopedia's entry on concentric fractures (read): heat cracks lack the radial and concentric system of a
  // blow. Encyclopaedia Britannica (read): a thermal fracture usually leaves a large mirror, a mechanical one often a
  // small one.
  CHECK(read({"crack.path=star-or-rings"}).result == BreakResult::not_consistent);
  const auto speaks = [](const char* setting) { return read({setting}).clues.front().speaks; };
  CHECK(speaks("origin.mirror=large") == Clue::Speaks::for_heat);
  CHECK(speaks("origin.mirror=small") == Clue::Speaks::against_heat);
}
