// Prints the [frame.single] and [frame.sealed] tables of reference/frames.toml for a frame of one solid material.
#include <fmt/core.h>

#include <cstdlib>

#include "support/frame_fit.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

constexpr const char* usage =
    "frame_row CONDUCTIVITY DEPTH DEPTH_SEALED VISIBLE OUTER_LEG SEAL SEAL_HEIGHT SEAL_CONDUCTIVITY\n"
    "lengths in mm, conductivities in W/mK; for softwood: frame_row 0.13 52 70 60 14 3 8 0.30\n"
    "heat capacities are not fitted: J/mK of each half of the frame, from its materials, by hand\n";

void print_fit(const char* table, const FrameFit& fit, double rms_k) {
  fmt::print("[frame.{}]  # strip less section: {:.2f} K (root mean square, four weathers)\n", table, rms_k);
  for (const auto& [name, value] : {std::pair("outer_area_m", fit.outer_area_m),
                                    {"outer_resistance_mk_w", fit.outer_resistance_mk_w},
                                    {"middle_conductance_w_mk", fit.middle_conductance_w_mk},
                                    {"inner_resistance_mk_w", fit.inner_resistance_mk_w},
                                    {"inner_area_m", fit.inner_area_m},
                                    {"sun_area_m", fit.sun_area_m},
                                    {"outer_contact_m2k_w", fit.outer_contact_m2k_w},
                                    {"inner_contact_m2k_w", fit.inner_contact_m2k_w}})
    fmt::print("{} = {:.10g}\n", name, value);
}

}  // namespace

int main(int count, char** words) {
  double given[8];
  bool good = count == 9;
  for (int i = 0; good && i < 8; ++i) {
    char* end = nullptr;
    given[i] = std::strtod(words[i + 1], &end);
    good = *end == '\0' && given[i] > 0.0;
  }
  if (!good) {
    fmt::print(stderr, "{}", usage);
    return 2;
  }
  constexpr double mm = 1e-3;
  const BoxFrame frame{given[0],      given[1] * mm, given[2] * mm, given[3] * mm,
                       given[4] * mm, given[5] * mm, given[6] * mm, given[7]};
  for (bool sealed : {false, true}) {
    FrameKind start = row_named(builtin_reference().frames, "wood");
    start.seal_thickness_m = frame.seal_thickness_m;
    start.seal_height_m = frame.seal_height_m;
    start.seal_conductivity_w_mk = frame.seal_conductivity_w_mk;
    const std::vector<FitTarget> targets = fit_targets(frame, sealed);
    const FrameKind fitted = fitted_row(start, sealed, targets);
    print_fit(sealed ? "sealed" : "single", sealed ? fitted.sealed : fitted.single, rms(misses_k(fitted, targets)));
  }
}
