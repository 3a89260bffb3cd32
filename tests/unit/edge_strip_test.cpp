// The strip of glass from its cut edge to the middle, with its frame: against closed forms, against a two-dimensional
// heat-flow section that is validated on its own (it meets ISO 10211 case 2 and the ISO 10077-2 wood section; the
// numbers here are that section's and its fitted strip's on a 0.2 mm grid), and for what must hold whatever the
// numbers.
#include <catch2/catch.hpp>
#include <map>
#include <numbers>

#include "support/linear_strip.hpp"

using namespace sunstrain;
using heat_lines::line;
using heat_lines::middle_less_edge_k;
using internal::StripSolver;
using internal::StripState;
using namespace sunstrain::test;

namespace {

// 0.003 in a; 3 % in b and c, and half of the last printed digit besides (b and c are printed to 0.0001).
void check_influence(const Influence& found, const Influence& expected) {
  CAPTURE(found.outdoor, found.room, found.b1, found.b2, found.c);
  CHECK(found.outdoor == Approx(expected.outdoor).margin(0.003));
  CHECK(found.room == Approx(expected.room).margin(0.003));
  CHECK(found.b1 == Approx(expected.b1).epsilon(0.03).margin(0.00005));
  CHECK(found.b2 == Approx(expected.b2).epsilon(0.03).margin(0.00005));
  CHECK(found.c == Approx(expected.c).epsilon(0.03).margin(0.00005));
}

constexpr const char* frames[]{
    "wood",        "vinyl",        "vinyl-foam",          "aluminum", "aluminum-break", "aluminum-wide-break",
    "steel-putty", "curtain-wall", "structural-silicone", "masonry",  "brick"};

// A pane at -18 C outside, 21 C inside, wind 5.5 m/s, sun 783 W/m2: filmed double 6/12/6, or what is given instead.
struct Winter {
  std::array<double, 2> absorbed{0.18, 0.35};
  double frame_absorptance = 0.3, sun_w_m2 = 783.0;
};

LineStep winter_double(const Line& section, const Winter& winter, std::size_t& cells) {
  StepLoads loads = heat_lines::loads(2, -18.0, 21.0, 26.0);
  for (std::size_t j = 0; j < 2; ++j) loads.absorbed[j] = heat_lines::on_faces(winter.absorbed[j] * winter.sun_w_m2);
  loads.frame_absorbed_w_m2 = winter.frame_absorptance * winter.sun_w_m2;
  std::vector<double> depth_m;
  const LineStep step = steady_line(section, loads, depth_m);
  cells = depth_m.size();
  return step;
}

double winter_d_k(const Line& section, const Winter& winter = {}) {
  std::size_t cells = 0;
  const LineStep step = winter_double(section, winter, cells);
  return middle_less_edge_k(step, 1, cells);
}

}  // namespace

TEST_CASE("Edge strip: influences of a single pane in unbroken aluminum as in the two-dimensional section") {
  LinearStrip strip(line("aluminum", "metal", 0.012, 1), {20.0, 8.0, 0.0});
  check_influence(influence(strip, 0, 0.0), {.7071, .2929, .0106, 0, .0217});
  check_influence(influence(strip, 0, 0.012), {.7228, .2772, .0173, 0, .0168});
  // The middle against the section itself (.7072 .2928 .0365): the fitted strip takes t/3 from face to mean there as
  // well, the engine t/2, which is exact for heat that crosses the pane and 2.7 % high for sun taken up in the bulk.
  check_influence(influence(strip, 0, strip.middle_m()), {.7072, .2928, .0365, 0, 0});
}

TEST_CASE("Edge strip: influences of a double unit with warm-edge spacer in vinyl") {
  LinearStrip strip(line("vinyl", "warm-edge", 0.012, 2), {20.0, 8.0, 6.3});
  check_influence(influence(strip, 1, 0.0), {.5360, .4640, .0146, .0344, .0093});
  check_influence(influence(strip, 1, 0.012), {.5148, .4852, .0157, .0467, .0078});
  check_influence(influence(strip, 1, strip.middle_m()), {.3716, .6284, .0193, .0798, 0});
  check_influence(influence(strip, 0, 0.0), {.7617, .2383, .0199, .0190, .0139});
}

TEST_CASE("Edge strip: influences of a double unit with metal spacer in aluminum with a break") {
  LinearStrip strip(line("aluminum-break", "metal", 0.015, 2), {30.0, 7.6, 6.15});
  check_influence(influence(strip, 1, 0.0), {.6197, .3803, .0083, .0188, .0110});
  check_influence(influence(strip, 1, 0.015), {.5768, .4232, .0093, .0338, .0090});
}

namespace {

// A pane that is nothing but a fin: k t = 0.006 W/K with a thickness that resists nothing, one frame temperature (an
// endless face, heated 40 K over the air), no clearance below the edge, no weaker corner.
Line plain_fin(double bite_m, double contact_w_m2k) {
  Line section = line("wood", "metal", bite_m, 1, 6e-6);
  section.glazing.material.conductivity_w_mk = 1000.0;
  section.edge.frame.single = {1e6, 1e-9, 1e6, 1.0, 0.0, 1e6, 0.0, 0.0, {}};
  section.edge.frame.seal_height_m = 0.0;
  section.edge.frame.seal_thickness_m = 1.0;
  section.edge.frame.seal_conductivity_w_mk = 0.5 * contact_w_m2k;
  section.edge.pocket_conductivity_w_mk = 0.0;
  section.edge.room_corner_factor = 1.0;
  return section;
}

// The same strip on equal cells.
internal::StripMesh fin_mesh(const Line& section, double contact_w_m2k, double cell_m) {
  internal::StripMesh mesh;
  mesh.frame = &section.edge.frame.single;
  mesh.outer_contact_w_mk.emplace_back();
  const auto cells = static_cast<std::size_t>(std::lround((section.edge.bite_m + 0.2) / cell_m));
  for (std::size_t i = 0; i <= cells; ++i) mesh.edge_m.push_back(static_cast<double>(i) * cell_m);
  for (std::size_t i = 0; i < cells; ++i) {
    const bool covered = mesh.edge_m[i + 1] < section.edge.bite_m + 1e-9;
    mesh.depth_m.push_back((static_cast<double>(i) + 0.5) * cell_m);
    mesh.width_m.push_back(cell_m);
    mesh.exposed.push_back(covered ? 0.0 : 1.0);
    mesh.outer_contact_w_mk[0].push_back(covered ? 0.5 * contact_w_m2k * cell_m : 0.0);
  }
  mesh.corner.assign(cells, 0.0);
  mesh.inner_contact_w_mk = mesh.outer_contact_w_mk;
  mesh.conduction_w_mk = {std::vector<double>(cells - 1, 0.006 / cell_m)};
  mesh.edge_to_outer_w_mk = mesh.edge_to_inner_w_mk = {0.0};
  return mesh;
}

}  // namespace

TEST_CASE("Edge strip: two zones of a fin, closed form") {
  // Exposed glass at air temperature T0, rebate at frame temperature Tf:
  // Ts = (T0/lo + Tf tanh(d/le)/le)/(1/lo + tanh(d/le)/le), Te = Tf + (Ts - Tf)/cosh(d/le), l = sqrt(k t/h).
  const double bite_m = GENERATE(0.010, 0.015, 0.020), contact = GENERATE(12.5, 20.0, 72.5, 125.0, 140.0);
  const double lo = std::sqrt(0.006 / 28.0), le = std::sqrt(0.006 / contact);
  const double pull = std::tanh(bite_m / le) / le;
  const double sight_k = (10.0 / lo + 50.0 * pull) / (1.0 / lo + pull);
  const double edge_k = 50.0 + (sight_k - 50.0) / std::cosh(bite_m / le);
  const auto exact = [&](double y) {
    if (y <= bite_m) return 50.0 + (edge_k - 50.0) * std::cosh(y / le);
    return 10.0 + (sight_k - 10.0) * std::exp(-(y - bite_m) / lo);
  };
  const auto worst_k = [&](LinearStrip&& strip) {
    const StripState state = strip.solve({10.0, 10.0, 0, 0, 20.0 * 40.0});
    REQUIRE(state.frame_k[1] == Approx(50.0).margin(1e-3));
    double worst = 0.0;
    for (std::size_t i = 0; i < strip.mesh().cells() && strip.mesh().depth_m[i] < bite_m + 0.05; ++i) {
      worst = std::max(worst, std::abs(state.cell_k[i] - exact(strip.mesh().depth_m[i])));
    }
    return worst;
  };
  CAPTURE(bite_m, contact, sight_k, edge_k);
  const Line section = plain_fin(bite_m, contact);
  const Films films{20.0, 8.0, 0.0};
  CHECK(worst_k(LinearStrip(section, films, fin_mesh(section, contact, 0.0002))) < 0.01);
  CHECK(worst_k(LinearStrip(section, films)) < 0.1);  // the engine's own cells of 1.6 mm: 0.25 % of the 40 K
}

TEST_CASE("Edge strip: outdoor and room influence add to one at every point of every frame") {
  for (const char* frame : frames) {
    for (std::size_t lites : {1u, 2u, 3u}) {
      CAPTURE(frame, lites);
      LinearStrip strip(line(frame, "stainless", 0.014, lites), {17.0, 7.7, 6.0});
      const StripState out = strip.solve({1, 0, 0, 0, 0}), in = strip.solve({0, 1, 0, 0, 0});
      double worst = 0.0;
      for (std::size_t i = 0; i < out.cell_k.size(); ++i)
        worst = std::max(worst, std::abs(out.cell_k[i] + in.cell_k[i] - 1.0));
      for (std::size_t i = 0; i < 4; ++i) worst = std::max(worst, std::abs(out.frame_k[i] + in.frame_k[i] - 1.0));
      CHECK(worst < 1e-11);
    }
  }
}

TEST_CASE("Edge strip: reciprocity") {
  // The conductances are symmetric, so a source at one place weighed at another is the same the other way round.
  for (const char* frame : frames) {
    CAPTURE(frame);
    LinearStrip strip(line(frame, "metal", 0.014, 2), {14.0, 7.7, 6.3});
    const internal::StripMesh& mesh = strip.mesh();
    const bool bare = !line(frame, "metal", 0.014, 2).edge.frame.outer_lip;
    const auto weighed = [&](const StripState& state, std::size_t lite) {
      double sum = 0.0;
      for (std::size_t i = 0; i < mesh.cells(); ++i) {
        const double sunlit = lite == 0 && bare ? 1.0 : mesh.exposed[i];
        sum += sunlit * mesh.width_m[i] * state.cell_k[lite * mesh.cells() + i];
      }
      return sum;
    };
    const StripState sun1 = strip.solve({0, 0, 1, 0, 0}), sun2 = strip.solve({0, 0, 0, 1, 0});
    CHECK(weighed(sun1, 1) == Approx(weighed(sun2, 0)).epsilon(1e-9));
    if (bare) continue;  // there part of the frame's sun falls on the joint
    const StripState frame_sun = strip.solve({0, 0, 0, 0, 1});
    CHECK(mesh.frame->sun_area_m * sun1.frame_k[0] == Approx(weighed(frame_sun, 0)).epsilon(1e-9));
    CHECK(mesh.frame->sun_area_m * sun2.frame_k[0] == Approx(weighed(frame_sun, 1)).epsilon(1e-9));
  }
}

TEST_CASE("Edge strip: with all at one temperature and no sun every point is at it, all day") {
  for (const char* frame : frames) {
    for (std::size_t lites : {1u, 2u, 3u}) {
      CAPTURE(frame, lites);
      const std::vector<StepLoads> day(48, heat_lines::loads(lites, 12.0, 12.0, 10.0));
      const LineDay result = march_day(line(frame, "metal", 0.012, lites), day, 1800.0);
      double worst = 0.0;
      for (double t : result.cell_k) worst = std::max(worst, std::abs(t - 285.15));
      for (const auto& step : result.frame_k)
        for (double t : step) worst = std::max(worst, std::abs(t - 285.15));
      CHECK(worst < 1e-6);
    }
  }
}

TEST_CASE("Edge strip: middle less edge of the filmed room-side lite, frame by frame, as in the section") {
  // Steady, -18/21 C, 5.5 m/s, 783 W/m2, absorbed 0.18/0.35, frame face absorbs 0.3, metal spacer, bite 12 mm.
  // The strip's fit to the section is stated good to 1.8 K at the edge (structural silicone 1.7).
  const std::map<std::string, double> section_k{{"wood", 23.2},
                                                {"vinyl", 23.4},
                                                {"vinyl-foam", 22.7},
                                                {"aluminum-wide-break", 22.6},
                                                {"aluminum-break", 23.8},
                                                {"aluminum", 27.7},
                                                {"steel-putty", 28.3},
                                                {"curtain-wall", 21.4},
                                                {"structural-silicone", 20.4},
                                                {"masonry", 26.9}};
  std::map<std::string, double> found;
  for (const auto& [frame, expected_k] : section_k) {
    CAPTURE(frame);
    found[frame] = winter_d_k(line(frame, "metal", 0.012, 2));
    CHECK(found[frame] == Approx(expected_k).margin(1.8));
  }
  // The order of the section; "a little below or equal" is given 0.5 K.
  CHECK(found["structural-silicone"] < found["curtain-wall"]);
  CHECK(found["curtain-wall"] < found["aluminum-wide-break"]);
  CHECK(found["aluminum-wide-break"] < found["vinyl-foam"] + 0.5);
  CHECK(found["vinyl-foam"] < found["wood"]);
  CHECK(found["wood"] < found["vinyl"] + 0.5);
  CHECK(found["vinyl"] < found["aluminum-break"] + 0.5);
  CHECK(found["aluminum-break"] < found["masonry"]);
  CHECK(found["masonry"] < found["aluminum"]);
  CHECK(found["aluminum"] < found["steel-putty"]);
}

TEST_CASE("Edge strip: what a warmer spacer, sun on the frame and a deeper bite may not do") {
  for (const char* frame : frames) {
    CAPTURE(frame);
    for (double sun : {0.0, 783.0}) {
      Winter winter;
      winter.sun_w_m2 = sun;
      const double metal = winter_d_k(line(frame, "metal", 0.012, 2), winter);
      const double stainless = winter_d_k(line(frame, "stainless", 0.012, 2), winter);
      const double warm = winter_d_k(line(frame, "warm-edge", 0.012, 2), winter);
      CHECK(metal > stainless);
      CHECK(stainless > warm);
    }
    double before = 1e9;
    for (double absorptance : {0.0, 0.3, 0.6, 0.9}) {
      Winter winter;
      winter.frame_absorptance = absorptance;
      const double d = winter_d_k(line(frame, "metal", 0.012, 2), winter);
      CHECK(d < before);
      before = d;
    }
    double own = 1.0;
    for (double bite : {0.008, 0.012, 0.016, 0.020}) {
      LinearStrip strip(line(frame, "metal", bite, 1), {20.0, 8.0, 0.0});
      const double b = influence(strip, 0, strip.mesh().depth_m[0]).b1;
      // On structural silicone the outer face is in the sun to its edge: a deeper joint shields nothing (2 % over 12
      // mm).
      CHECK(b < (std::string(frame) == "structural-silicone" ? 1.02 * own : own));
      own = b;
    }
  }
}

TEST_CASE("Edge strip: a single pane in unbroken aluminum has no winter night difference") {
  StepLoads night = heat_lines::loads(1, -18.0, 21.0, 26.0);
  std::vector<double> depth_m;
  const LineStep step = steady_line(line("aluminum", "metal", 0.012, 1), night, depth_m);
  CHECK(std::abs(middle_less_edge_k(step, 0, depth_m.size())) < 0.2);
}
