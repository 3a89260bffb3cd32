#include "sunstrain/sealed_unit.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace sunstrain {
namespace {

void require(bool good, const char* what) {
  if (!good) throw std::invalid_argument(what);
}

double cubed(double x) { return x * x * x; }

}  // namespace

// w = 16 q/(pi^6 D) sum over odd m, n of sin(m pi x/a) sin(n pi y/b) / (m n (m^2/a^2 + n^2/b^2)^2), and its moments.
PlateResponse plate_response(double short_m, double long_m, double thickness_m, double young_pa, double poisson) {
  require(short_m > 0.0 && long_m > 0.0 && thickness_m > 0.0, "a plate needs a size");
  require(young_pa > 0.0 && poisson >= 0.0 && poisson < 0.5, "a plate needs an elasticity");
  constexpr int last = 199;
  const double a = std::min(short_m, long_m), b = std::max(short_m, long_m);
  const double stiffness_nm = young_pa * cubed(thickness_m) / (12.0 * (1.0 - poisson * poisson));
  double volume = 0.0, middle = 0.0, moment = 0.0;
  for (int m = 1; m <= last; m += 2) {
    for (int n = 1; n <= last; n += 2) {
      const double mn = static_cast<double>(m) * n, across = m * m / (a * a), along = n * n / (b * b);
      const double term = 1.0 / (mn * (across + along) * (across + along));
      const double sign = ((m + n) / 2) % 2 == 1 ? 1.0 : -1.0;  // sin(m pi/2) sin(n pi/2)
      volume += term / mn;
      middle += sign * term;
      moment += sign * term * (across + poisson * along);
    }
  }
  constexpr double pi = std::numbers::pi;
  const double amplitude = 16.0 / (std::pow(pi, 6) * stiffness_nm);
  return {amplitude * 4.0 * a * b / (pi * pi) * volume, amplitude * middle,
          16.0 / std::pow(pi, 4) * moment * 6.0 / (thickness_m * thickness_m)};
}

SealedState sealed_state(const SealedUnit& unit, const std::vector<double>& gas_k, double outside_pa) {
  const std::size_t lites = unit.thickness_m.size(), cavities = unit.cavity_m.size();
  require(lites >= 2 && cavities + 1 == lites, "a sealed unit needs two lites or more, and one cavity fewer");
  require(unit.thickest_ply_m.empty() || unit.thickest_ply_m.size() == lites, "one thickest ply a lite");
  require(gas_k.size() == cavities, "a sealed unit needs one gas temperature a cavity");
  require(unit.sealed_k > 0.0 && unit.sealed_pa > 0.0 && outside_pa > 0.0, "pressures and temperatures are absolute");
  std::vector<PlateResponse> plates;
  for (double thickness_m : unit.thickness_m)
    plates.push_back(plate_response(unit.width_m, unit.height_m, thickness_m, unit.young_pa, unit.poisson));
  const double area_m2 = unit.width_m * unit.height_m;
  const auto n = static_cast<Eigen::Index>(cavities);
  Eigen::MatrixXd a = Eigen::MatrixXd::Identity(n, n);
  Eigen::VectorXd isochoric(n);
  for (std::size_t k = 0; k < cavities; ++k) {
    require(gas_k[k] > 0.0 && unit.cavity_m[k] > 0.0, "a cavity needs a width and an absolute temperature");
    const auto i = static_cast<Eigen::Index>(k);
    const double per_volume = outside_pa / (area_m2 * unit.cavity_m[k]);
    isochoric[i] = unit.sealed_pa * gas_k[k] / unit.sealed_k - outside_pa;
    a(i, i) += per_volume * (plates[k].volume_m3 + plates[k + 1].volume_m3);
    if (k > 0) a(i, i - 1) -= per_volume * plates[k].volume_m3;
    if (k + 1 < cavities) a(i, i + 1) -= per_volume * plates[k + 1].volume_m3;
  }
  const Eigen::VectorXd gauge = a.partialPivLu().solve(isochoric);
  SealedState state;
  state.isochoric_pa.assign(isochoric.data(), isochoric.data() + n);
  state.gauge_pa.assign(gauge.data(), gauge.data() + n);
  state.stiffness = 1.0 / a(0, 0);
  for (std::size_t j = 0; j < lites; ++j) {
    const double before = j > 0 ? state.gauge_pa[j - 1] : 0.0, after = j < cavities ? state.gauge_pa[j] : 0.0;
    const double net_pa = after - before;
    const double ply_share = unit.thickest_ply_m.empty() ? 1.0 : unit.thickest_ply_m[j] / unit.thickness_m[j];
    state.lites.push_back({net_pa, net_pa * plates[j].deflection_m, std::abs(net_pa) * plates[j].stress * ply_share});
  }
  double most_pa = 0.0;
  for (double pa : state.gauge_pa) most_pa = std::max(most_pa, std::abs(pa));
  state.edge_seal_n_m = most_pa * area_m2 / (2.0 * (unit.width_m + unit.height_m));
  return state;
}

}  // namespace sunstrain
