// A sealed unit as the gas between its lites warms: pressure, bending of the lites, load on the edge seal.
#pragma once

#include <vector>

namespace sunstrain {

// A plate held so that its edges stay in plane but may turn (simply supported), small deflections: per Pa of uniform
// pressure the volume it sweeps, the deflection and the highest bending stress in its middle.
struct PlateResponse {
  double volume_m3, deflection_m, stress;
};

// short_m <= long_m in any order, thickness_m > 0, poisson 0 to 0.5. Navier's double series (Timoshenko and
// Woinowsky-Krieger, Theory of Plates and Shells, chapter 5), summed to 1e-6. Throws std::invalid_argument.
PlateResponse plate_response(double short_m, double long_m, double thickness_m, double young_pa, double poisson);

struct SealedUnit {
  double width_m, height_m;         // between the spacer's inner faces
  std::vector<double> thickness_m;  // of the lites, outdoors to indoors, two or more
  std::vector<double> cavity_m;     // one fewer
  double young_pa, poisson;
  double sealed_k, sealed_pa;  // the gas when the unit was closed
  // Of laminated lites, whose plies slide on each other over hours: thickness_m is then what one sheet as stiff would
  // have, (sum of the plies' cubes)^(1/3), and this the thickest ply, which bends hardest. Empty: none is laminated.
  // The two effective thicknesses of EN 16612 without shear transfer, recalled, not read from the standard.
  std::vector<double> thickest_ply_m{};
};

struct SealedLite {
  double net_pa;        // pressure difference that bends it, positive towards outdoors
  double deflection_m;  // in its middle, signed alike
  double bending_pa;    // highest bending stress, in its middle; small deflections: too high once it bends by half its
                        // thickness
};
struct SealedState {
  std::vector<double> isochoric_pa;  // per cavity: overpressure if the lites could not give
  std::vector<double> gauge_pa;      // per cavity: overpressure as they do
  double stiffness;  // share of the first cavity's isochoric pressure that is left: near 0 for large units
  std::vector<SealedLite> lites;
  double edge_seal_n_m;  // highest mean pull or push on an edge seal per meter
};

// Ideal gas in every cavity, V + sum of the volumes that its two lites sweep:
//   p0 = p_sealed T / T_sealed - p_outside,   p + (p_outside/V) [f_a (p - p_before) + f_b (p - p_after)] = p0,
// f the lites' swept volume per Pa. For two lites p = phi p0 with phi = 1/(1 + (a/a*)^4) of EN 16612's and DIN
// 18008-2's annexes (recalled, not read from the standards); three and more are the same gas laws coupled. The seal's
// mean load is the pressure on the pane over its edge length, p a b / 2(a + b). gas_k: per cavity. Throws
// std::invalid_argument on shapes that differ.
SealedState sealed_state(const SealedUnit& unit, const std::vector<double>& gas_k, double outside_pa);

}  // namespace sunstrain
