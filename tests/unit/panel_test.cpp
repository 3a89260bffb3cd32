// A storm panel or secondary panel before the pane, shut or with air streaming behind it.
#include <algorithm>
#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/heat_lines.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

constexpr const char *gap = "panel.gap=75 mm", *thin = "panel.thickness=3 mm", *clear = "panel.tint=clear",
                     *annealed = "panel.treatment=annealed", *outdoors = "panel.side=outdoors",
                     *indoors = "panel.side=indoors";

YearPeaks winter_day(const Case& pane) {
  ChainCache cache;
  const DesignDay day = design_day(pane.place, 1, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad,
                                   pane.ground_reflectance, 144, builtin_reference());
  return worst_of_days(pane, pane.after, {&day, 1}, builtin_reference(), cache, false);
}

// Two sheets with 75 mm of air between them, in the sun; the second takes up most.
Line line_with_gap(double opening_m, bool to_room) {
  Line line = heat_lines::line("wood", "metal", 0.012, 2, 0.004);
  line.edge.sealed = false;
  line.edge.panels_outdoors = 1;
  line.glazing.cavities[0].width_m = 0.075;
  line.glazing.cavities[0].apart = true;
  line.glazing.cavities[0].opening_m = opening_m;
  line.glazing.cavities[0].to_room = to_room;
  return line;
}
StepLoads sunny() {
  StepLoads loads = heat_lines::loads(2, -5.0, 21.0, 10.0);
  loads.absorbed[0] = heat_lines::on_faces(60.0);
  loads.absorbed[1] = heat_lines::on_faces(350.0);
  return loads;
}

}  // namespace

TEST_CASE("Panel: it stands before the pane, and surfaces and lites stay the pane's own") {
  const Case storm = complete_double_case({outdoors, gap, thin, clear, annealed});
  REQUIRE(storm.sheets.size() == 3);
  CHECK(storm.sheets[0].panel);
  CHECK(lites_of(storm.sheets) == 2);
  CHECK(storm.filmed_lite == 2);
  CHECK(storm.before.thermal.cavities[0].apart);
  CHECK_FALSE(storm.before.thermal.cavities[1].apart);
  CHECK_FALSE(storm.bottom_is_colder(0));
  CHECK(storm.bottom_is_colder(2));
  const Case secondary = complete_double_case({indoors, gap, thin, clear, annealed});
  CHECK(secondary.sheets[2].panel);
  CHECK(secondary.filmed_lite == 1);
  CHECK(secondary.bottom_is_colder(1));
  CHECK_FALSE(secondary.bottom_is_colder(2));
  CHECK_THROWS_AS(complete_double_case({outdoors, gap, thin, clear, annealed, "panel.opening=80 mm"}), BadInput);
  CHECK_THROWS_AS(complete_double_case({outdoors, gap, thin, clear, annealed, "frame.kind=structural-silicone"}),
                  BadInput);
}

TEST_CASE("Panel: shut it keeps the pane warmer, and every sheet's energy closes, with a stream as well") {
  const YearPeaks alone = winter_day(complete_double_case({}));
  for (const char* side : {outdoors, indoors}) {
    CAPTURE(side);
    const Case shut = complete_double_case({side, gap, thin, clear, annealed});
    const Case open = complete_double_case({side, gap, thin, clear, annealed, "panel.opening=25 mm"});
    const std::size_t filmed = shut.filmed_lite;
    const YearPeaks with = winter_day(shut), streamed = winter_day(open);
    CHECK(with.worst_energy_residual < 1e-6);
    CHECK(streamed.worst_energy_residual < 1e-6);
    CHECK(with.lites[filmed].center_k > alone.lites[1].center_k - (side == outdoors ? 0.0 : 30.0));
    CHECK(streamed.lites[filmed].center_k < with.lites[filmed].center_k);
    for (const LitePeak& sheet : with.lites) CHECK(sheet.stress_pa > 0.0);
  }
}

TEST_CASE("Panel: the wider the slots, the cooler both faces; next to no slot is a shut gap") {
  const Gas& air = heat_lines::gas("air");
  const CenterBalance shut = steady_center(line_with_gap(0.0, false).glazing, sunny(), {}, air);
  double before_a = 1e3, before_b = 1e3;
  for (double opening_m : {1e-6, 0.002, 0.01, 0.03, 0.07}) {
    CAPTURE(opening_m);
    const CenterBalance c = steady_center(line_with_gap(opening_m, false).glazing, sunny(), {}, air);
    if (opening_m < 1e-5) {
      CHECK(c.mean_k[0] == Approx(shut.mean_k[0]).margin(0.01));
      CHECK(c.mean_k[1] == Approx(shut.mean_k[1]).margin(0.01));
    }
    CHECK(c.mean_k[0] < before_a);
    CHECK(c.mean_k[1] < before_b);
    before_a = c.mean_k[0];
    before_b = c.mean_k[1];
  }
}

TEST_CASE("Panel: a strip with a streamed gap ends, far from the frame, where the middle's own balance stands") {
  for (bool to_room : {false, true}) {
    const Line line = line_with_gap(0.02, to_room);
    std::vector<double> depth_m;
    const LineStep step = steady_line(line, sunny(), depth_m);
    const std::size_t cells = depth_m.size();
    CHECK(std::abs(step.residual_w_m) < 1e-6 * step.exchanged_w_m);
    for (std::size_t lite : {0u, 1u})
      CHECK(step.cell_k[(lite + 1) * cells - 1] == Approx(step.center.mean_k[lite]).margin(0.5));
    // By hand, at the faces: what crosses, what the stream takes and what stays closes for the pane behind it.
    const CenterBalance& c = step.center;
    const double to_panel = c.cavity_w_m2k[0] * (c.face_k[1][0] - c.face_k[0][1]),
                 to_stream = c.stream_w_m2k[0] * (c.face_k[1][0] - c.stream_k[0]),
                 to_room_side = c.room.conductance_w_m2k * (c.face_k[1][1] - c.room.temperature_k);
    CHECK(to_panel + to_stream + to_room_side == Approx(350.0).margin(0.02));
    CHECK(c.stream_k[0] == Approx(heat_lines::zero_c + (to_room ? 21.0 : -5.0)));
  }
}

TEST_CASE("Panel: the answer has figures for it, rules ask, and the sealed unit is the pane's alone") {
  const Assessment a = assess(complete_double({indoors, gap, thin, clear, annealed}), builtin_reference());
  REQUIRE(a.lites.size() == 3);
  CHECK(a.sheets[2].panel);
  CHECK(a.lites[2].after.peak_stress_pa > 0.0);
  REQUIRE(a.sealed.has_value());
  CHECK(a.sealed->after.state.lites.size() == 2);
  CHECK(a.sealed->after.gas_k.size() == 1);
  CHECK(std::any_of(a.rules.begin(), a.rules.end(), [](const Rule& rule) { return rule.id == "H8"; }));
}
