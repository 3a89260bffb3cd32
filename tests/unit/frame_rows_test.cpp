// The frame rows of reference/frames.toml against the section that they stand for, worked here: the section tool itself
// meets the standards' reference sections (tests/published/section_published_test.cpp).
#include <catch2/catch.hpp>

#include "support/frame_fit.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

struct Row {
  const char* name;
  BoxFrame shape;
};

// Softwood; vinyl taken as one material, with soft lips or on foam tape.
const Row rows[]{{"wood", {0.13, 0.052, 0.070, 0.060, 0.014, 0.003, 0.008, 0.30}},
                 {"vinyl", {0.17, 0.052, 0.070, 0.060, 0.010, 0.003, 0.008, 0.20}},
                 {"vinyl-foam", {0.17, 0.052, 0.070, 0.060, 0.010, 0.003, 0.008, 0.05}}};

}  // namespace

TEST_CASE("Frame rows: a row's eight numbers are what a fit to the frame's section gives", "[slow]") {
  const Row& row = rows[GENERATE(0, 1, 2)];
  const bool sealed = GENERATE(false, true);
  const FrameKind& kind = row_named(builtin_reference().frames, row.name);
  const std::vector<FitTarget> targets = fit_targets(row.shape, sealed);
  const double row_k = rms(misses_k(kind, targets));
  const double fitted_k = rms(misses_k(fitted_row(kind, sealed, targets), targets));
  CAPTURE(row.name, sealed, row_k, fitted_k);
  CHECK(fitted_k <= row_k);
  CHECK(row_k < 0.6);              // of some 40 K between outdoors and the room
  CHECK(row_k < fitted_k + 0.25);  // the row was fitted to bites of 8 mm too, and other airs
}
