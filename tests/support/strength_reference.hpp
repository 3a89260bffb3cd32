// A small reference for the tests of edge strength: round numbers of its own where the test is about the
// mechanism, so that a change of the real tables cannot hide a wrong formula.
#pragma once

#include "sunstrain/reference.hpp"

namespace sunstrain::test {

inline Reference strength_reference() {
  Reference r;
  const auto put = [&](const char* name, double value) { r.constants[name] = {value, "", "", {}}; };
  put("edge_characteristic_pa", 45e6);
  put("cut_edge_factor", 0.8);
  put("duration_go_s", 6.0 * 3600.0);
  put("duration_coefficient", 0.663);
  put("duration_exponent_n", 16.0);
  put("material_factor_go", 1.8);
  put("material_factor_refer", 1.6);
  put("weibull_low_m", 7.0);
  put("weibull_low_eta_pa", 33.1e6);
  put("weibull_best_m", 9.0);
  put("weibull_best_eta_pa", 40e6);
  put("weibull_high_m", 9.0);
  put("weibull_high_eta_pa", 45e6);
  put("fatigue_n", 16.0);
  r.treatments = {{"annealed", 1.0, 0.0, 1.0, true, {}},
                  {"heat-strengthened", 2.2, 24e6, 2.2, false, {}},
                  {"tempered", 4.4, 67e6, 4.4, false, {}}};
  r.glass_kinds = {{"float", 1.0, {}}, {"patterned", 0.75, {}}, {"wired", 0.55, {}}};
  r.thickness_factors = {{0.020, 0.70, {}}, {0.0135, 0.83, {}}};  // out of order on purpose
  r.edge_finishes = {{"as-cut", 1.0, 1.0, {}},
                     {"seamed", 0.9 / 0.8, 1.1, {}},
                     {"polished-documented", 1.25, 1.2, {}},
                     {"hidden", 0.85, 0.85, {}},
                     {"damaged", 0.5, 0.5, {}}};
  return r;
}

}  // namespace sunstrain::test
