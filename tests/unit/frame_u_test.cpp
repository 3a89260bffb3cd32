// A frame of its own transmittance beside sections whose material conducts more or less than its kind's.
#include "sunstrain/frame_u.hpp"

#include <catch2/catch.hpp>

#include "support/frame_fit.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

FrameShape shape_of(const std::string& kind) {
  return read_frame_shape(SUNSTRAIN_SOURCE_DIR "/tests/section/frames/" + kind + ".toml");
}
const FrameKind& row_of(const std::string& kind) { return row_named(builtin_reference().frames, kind); }

double section_u(const FrameShape& shape, bool sealed) {
  return section_frame_u_w_m2k(shape, sealed ? 0.024 : 0.006, 0.015);
}

// How far apart two frames' misses are: what the row gets wrong of the change between two sections.
double missed_k(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> difference;
  for (std::size_t i = 0; i < a.size(); ++i) difference.push_back(a[i] - b[i]);
  return rms(difference);
}

}  // namespace

TEST_CASE("Frame U: a row's transmittance is its section's") {
  for (const FrameKind& row : builtin_reference().frames) {
    if (row.body == FrameKind::Body::none) continue;
    CAPTURE(row.name);
    CHECK(row.single.u_value_w_m2k == Approx(section_u(shape_of(row.name), false)).margin(0.006));
    CHECK(row.sealed.u_value_w_m2k == Approx(section_u(shape_of(row.name), true)).margin(0.006));
  }
}

TEST_CASE("Frame U: the kind's own leaves the row as it is, the ends of the range are taken, beyond is refused") {
  for (const FrameKind& row : builtin_reference().frames) {
    for (const bool sealed : {false, true}) {
      CAPTURE(row.name, sealed);
      if (row.body == FrameKind::Body::none) {
        CHECK_THROWS_AS(frame_u_range(row, sealed), std::invalid_argument);
        continue;
      }
      const FrameFit& fit = sealed ? row.sealed : row.single;
      const FrameFit same = with_frame_u(row, sealed, fit.u_value_w_m2k);
      CHECK(same.middle_conductance_w_mk == Approx(fit.middle_conductance_w_mk).epsilon(1e-9));
      CHECK(same.outer_area_m == Approx(fit.outer_area_m).epsilon(1e-9));
      CHECK(same.outer_contact_m2k_w == Approx(fit.outer_contact_m2k_w).epsilon(1e-9));
      const FrameURange range = frame_u_range(row, sealed);
      CHECK(range.lowest_w_m2k < fit.u_value_w_m2k);
      CHECK(range.highest_w_m2k > fit.u_value_w_m2k);
      CHECK_NOTHROW(with_frame_u(row, sealed, range.lowest_w_m2k));
      CHECK(with_frame_u(row, sealed, range.highest_w_m2k).middle_conductance_w_mk > 0.0);
      CHECK_THROWS_AS(with_frame_u(row, sealed, 0.99 * range.lowest_w_m2k), std::invalid_argument);
      CHECK_THROWS_AS(with_frame_u(row, sealed, 1.01 * range.highest_w_m2k), std::invalid_argument);
    }
  }
}

TEST_CASE("Frame U: the changed row follows a section of that transmittance", "[slow]") {
  // The part of each section that another frame of its kind has of other stuff: the body, the break, the nose.
  struct Changed {
    const char* kind;
    std::size_t part;
  };
  const Changed changed = GENERATE(Changed{"wood", 0}, Changed{"vinyl", 0}, Changed{"aluminum-break", 1},
                                   Changed{"aluminum-wide-break", 1}, Changed{"curtain-wall", 1});
  const double factor = GENERATE(0.5, 2.0);
  const std::size_t lites = GENERATE(1u, 2u);
  const bool sealed = lites > 1;
  const FrameKind& row = row_of(changed.kind);
  FrameShape shape = shape_of(changed.kind);
  const std::vector<double> before = misses_k(row, fit_targets(shape, lites));
  shape.parts.at(changed.part).conductivity_w_mk *= factor;
  const std::vector<FitTarget> targets = fit_targets(shape, lites);
  FrameKind known = row;
  fit_of(known, sealed) = with_frame_u(row, sealed, section_u(shape, sealed));
  const double left_k = missed_k(misses_k(known, targets), before);
  const double unchanged_k = missed_k(misses_k(row, targets), before);
  CAPTURE(changed.kind, factor, lites, left_k, unchanged_k);
  CHECK(left_k < 0.5);
  // A single pane's edge hardly asks a solid frame's transmittance: 0.3 K for half or twice the conductivity. Nor does
  // the nose of a curtain wall move it: 0.15 K is nothing beside what a row is off by itself.
  if (sealed || row.body == FrameKind::Body::halves) CHECK(left_k < std::max(0.15, 0.65 * unchanged_k));
}

TEST_CASE("Frame U: between metal halves a lower one keeps the room-side edge warmer on a winter night") {
  // Not so in a solid frame, whose body brings the room's heat to the edge too: its section is 0.5 K colder there at
  // half the conductivity.
  for (const FrameKind& row : builtin_reference().frames) {
    if (row.body != FrameKind::Body::halves) continue;
    CAPTURE(row.name);
    const FrameURange range = frame_u_range(row, true);
    double edge_k = -1e9;
    for (int step = 4; step >= 0; --step) {
      const double u = range.lowest_w_m2k + step * (range.highest_w_m2k - range.lowest_w_m2k) / 4;
      Line line = heat_lines::line(row.name, "metal", 0.012, 2);
      line.edge.frame.sealed = with_frame_u(row, true, u);
      LinearStrip strip(line, {20.0, 8.0, 6.3});
      const internal::StripState night = strip.solve({-18.0, 21.0, 0.0, 0.0, 0.0});
      CAPTURE(u);
      CHECK(strip.at(night, 1, 0.0) > edge_k);
      edge_k = strip.at(night, 1, 0.0);
    }
  }
}
