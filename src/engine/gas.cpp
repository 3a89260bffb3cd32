// Gas properties and the convection across a cavity: ISO 15099 as the working route, EN 673 as the declared one.
#include <algorithm>
#include <cmath>

#include "exchange.hpp"

namespace sunstrain {
namespace {

// EN 673 Table 1 gives -10, 0, 10 and 20 C; between them linear, beyond them the last segment goes on
// (the convention of the Japanese public specification of the same method).
double en673_interpolated(const std::array<double, 4>& row, double temperature_k) {
  const double position = (temperature_k - 263.15) / 10.0;
  const auto segment = static_cast<std::size_t>(std::clamp(std::floor(position), 0.0, 2.0));
  return row[segment] + (position - static_cast<double>(segment)) * (row[segment + 1] - row[segment]);
}

// ISO 15099's three pieces for a vertical cavity. They do not quite meet at Ra = 1e4 and 5e4 (0.6 % apart), which
// would leave a balance that sits there with no answer: each piece passes into the next over 5 % of Ra.
double vertical_nusselt(double rayleigh) {
  const auto low = [&] { return 1.0 + 1.7596678e-10 * std::pow(rayleigh, 2.2984755); };
  const auto middle = [&] { return 0.028154 * std::pow(rayleigh, 0.4134); };
  const auto high = [&] { return 0.0673838 * std::cbrt(rayleigh); };
  const auto pass = [&](double at) { return std::clamp((rayleigh / at - 0.975) / 0.05, 0.0, 1.0); };
  if (const double w = pass(1e4); w < 1.0) return w > 0.0 ? (1.0 - w) * low() + w * middle() : low();
  const double w = pass(5e4);
  return w == 0.0 ? middle() : w == 1.0 ? high() : (1.0 - w) * middle() + w * high();
}

}  // namespace

GasState gas_state(const Gas& gas, double temperature_k, double pressure_pa) {
  return {gas.conductivity_a + gas.conductivity_b * temperature_k, gas.viscosity_a + gas.viscosity_b * temperature_k,
          gas.heat_a + gas.heat_b * temperature_k,
          pressure_pa * gas.molar_mass_kg_mol / (internal::gas_constant_j_mol_k * temperature_k)};
}

// The second stays below 1, and so below the first, until Ra s/H passes 0.242^(-1/0.272).
double internal::cavity_nusselt(double rayleigh, double width_over_height) {
  constexpr double reaches_one = 184.0;
  const double first = vertical_nusselt(rayleigh);
  if (rayleigh * width_over_height < reaches_one) return first;
  return std::max(first, 0.242 * std::pow(rayleigh * width_over_height, 0.272));
}

double cavity_convection_w_m2k(const Gas& gas, double width_m, double height_m, double face1_k, double face2_k) {
  return internal::cavity_convection_w_m2k<double>(gas, width_m, height_m, face1_k, face2_k);
}

double cavity_radiation_w_m2k(double emissivity1, double emissivity2, double face1_k, double face2_k) {
  return internal::cavity_radiation_w_m2k<double>(emissivity1, emissivity2, face1_k, face2_k);
}

double cavity_convection_en673_w_m2k(const Gas& gas, double width_m, double mean_k, double difference_k) {
  const double density = en673_interpolated(gas.en673_density, mean_k);
  const double viscosity = en673_interpolated(gas.en673_viscosity, mean_k);
  const double conductivity = en673_interpolated(gas.en673_conductivity, mean_k);
  // Gr = 9.81 s^3 dT rho^2 / (T_m mu^2), Pr = mu c / lambda, Nu = max(1, 0.035 (Gr Pr)^0.38)
  const double grashof = gravity_m_s2 * std::pow(width_m, 3) * std::abs(difference_k) * density * density /
                         (mean_k * viscosity * viscosity);
  const double prandtl = viscosity * gas.en673_heat / conductivity;
  const double nusselt = std::max(1.0, 0.035 * std::pow(grashof * prandtl, 0.38));
  return nusselt * conductivity / width_m;
}

double u_value_en673_w_m2k(const Glazing& glazing) {
  constexpr double mean_k = 283.0, total_difference_k = 15.0, outside_w_m2k = 25.0, uncoated = 0.837;
  const std::size_t cavities = glazing.cavities.size();
  const double inside_w_m2k = 3.6 + 4.1 * glazing.lites.back().emissivity_inner / uncoated;
  std::vector<double> conductance(cavities, 1.0);
  const auto filled = std::count_if(glazing.cavities.begin(), glazing.cavities.end(),
                                    [](const ThermalCavity& cavity) { return !cavity.solid(); });
  double cavity_resistance = static_cast<double>(filled);  // equal shares of the difference to begin with
  for (int round = 0; round < 50; ++round) {
    double sum = 0.0;
    for (std::size_t k = 0; k < cavities; ++k) {
      if (glazing.cavities[k].solid()) continue;
      const double difference_k = total_difference_k / conductance[k] / cavity_resistance;
      // hr = 4 sigma T_m^3 / (1/e1 + 1/e2 - 1)
      const double radiation = cavity_radiation_w_m2k(glazing.lites[k].emissivity_inner,
                                                      glazing.lites[k + 1].emissivity_outer, mean_k, mean_k);
      conductance[k] = radiation + cavity_convection_en673_w_m2k(glazing.cavities[k].gas, glazing.cavities[k].width_m,
                                                                 mean_k, difference_k);
      sum += 1.0 / conductance[k];
    }
    const bool settled = std::abs(sum - cavity_resistance) < 1e-12;
    cavity_resistance = sum;
    if (settled) break;
  }
  double resistance = 1.0 / outside_w_m2k + cavity_resistance + 1.0 / inside_w_m2k;
  for (const ThermalCavity& cavity : glazing.cavities)
    if (cavity.solid()) resistance += cavity.width_m / cavity.solid_w_mk;
  for (const ThermalLite& lite : glazing.lites) resistance += lite.thickness_m / glazing.material.conductivity_w_mk;
  return 1.0 / resistance;
}

}  // namespace sunstrain
