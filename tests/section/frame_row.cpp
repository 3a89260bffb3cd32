// Prints a row of reference/frames.toml for a frame whose section a file draws.
#include <fmt/core.h>

#include "support/frame_fit.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

constexpr const char* usage =
    "frame_row FILE\n"
    "FILE draws the frame's section as those in tests/section/frames do: materials in rectangles, W/mK, placed in mm\n"
    "from the glass's faces, its cut edge and the sightline. Heat capacities are not fitted: J/mK of each half of the\n"
    "frame, from its materials, by hand.\n";

void print_seals(const FrameKind& kind) {
  fmt::print("[[frame]]\nname = \"{}\"\n", kind.name);
  fmt::print(
      "seal_thickness_mm = {:.10g}\nseal_height_mm = {:.10g}\nseal_conductivity_w_mk = {:.10g}\nouter_lip = {}\n",
      kind.seal_thickness_m * 1e3, kind.seal_height_m * 1e3, kind.seal_conductivity_w_mk, kind.outer_lip);
  if (kind.outer_lip) return;
  fmt::print("soft_strip_to_mm = {:.10g}\nsoft_strip_resistance_m2k_w = {:.10g}\n", kind.soft_strip_to_m * 1e3,
             kind.soft_strip_resistance_m2k_w);
  fmt::print("joint_area_m = {:.10g}\njoint_resistance_mk_w = {:.10g}\n", kind.joint_area_m,
             kind.joint_resistance_mk_w);
}

void print_fit(const char* table, const FrameFit& fit, double rms_k, double u_w_m2k) {
  fmt::print("[frame.{}]  # strip less section {:.2f} K (root mean square, four weathers); frame U {:.2f} W/m2K\n",
             table, rms_k, u_w_m2k);
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

// The search begins at a row of the same sort.
FrameKind start_of(const FrameShape& shape) {
  const FrameKind& row = row_named(builtin_reference().frames, shape.seals.outer_lip ? "wood" : "structural-silicone");
  FrameKind start = shape.seals;
  start.single = row.single;
  start.sealed = row.sealed;
  return start;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    fmt::print(stderr, "{}", usage);
    return 2;
  }
  try {
    const FrameShape shape = read_frame_shape(words[1]);
    print_seals(shape.seals);
    for (bool sealed : {false, true}) {
      std::vector<FitTarget> targets = fit_targets(shape, sealed ? 2 : 1);
      if (sealed)
        for (FitTarget& triple : fit_targets(shape, 3)) targets.push_back(std::move(triple));
      FrameKind fitted = fitted_row(start_of(shape), targets);
      print_fit(sealed ? "sealed" : "single", fit_of(fitted, sealed), rms(misses_k(fitted, targets)),
                section_frame_u_w_m2k(shape, sealed ? 0.024 : 0.006, 0.015));
    }
  } catch (const std::runtime_error& refused) {
    fmt::print(stderr, "{}\n", refused.what());
    return 2;
  }
  return 0;
}
