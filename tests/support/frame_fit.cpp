#include "frame_fit.hpp"

#include <Eigen/Dense>
#include <cmath>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

namespace sunstrain::test {
namespace {

constexpr Drivers weathers[]{
    {-18, 21, 140, 274, 235}, {-18, 21, 0, 0, 0}, {32, 24, 140, 274, 235}, {0, 21, 300, 94, 235}};

double temperature_c(const Influence& i, const Drivers& d) {
  return i.outdoor * d.outdoor_k + i.room * d.room_k + i.b1 * d.sun1_w_m2 + i.b2 * d.sun2_w_m2 + i.c * d.frame_w_m2;
}

std::array<double*, 8> numbers(FrameFit& fit) {
  return {&fit.outer_area_m,          &fit.outer_resistance_mk_w, &fit.middle_conductance_w_mk,
          &fit.inner_resistance_mk_w, &fit.inner_area_m,          &fit.sun_area_m,
          &fit.outer_contact_m2k_w,   &fit.inner_contact_m2k_w};
}

// In logarithms, for none of the eight may fall to 0. A number that the section hardly tells stays near where it began:
// to be e times as large costs as much as one temperature that is off by this.
constexpr double held_k = 0.3;

struct Misses {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  FrameKind kind;
  bool sealed;
  const std::vector<FitTarget>* targets;
  Eigen::VectorXd begun;

  int inputs() const { return 8; }
  int values() const { return static_cast<int>(targets->size() * std::size(weathers)) + inputs(); }
  int operator()(const Eigen::VectorXd& logs, Eigen::VectorXd& misses) const {
    FrameKind tried = kind;
    const auto of = numbers(fit_of(tried, sealed));
    for (std::size_t i = 0; i < of.size(); ++i) *of[i] = std::exp(logs[static_cast<Eigen::Index>(i)]);
    const std::vector<double> k = misses_k(tried, *targets);
    misses << Eigen::Map<const Eigen::VectorXd>(k.data(), static_cast<Eigen::Index>(k.size())), held_k * (logs - begun);
    return 0;
  }
};

}  // namespace

FrameFit& fit_of(FrameKind& kind, bool sealed) { return sealed ? kind.sealed : kind.single; }

std::vector<FitTarget> fit_targets(const FrameShape& shape, std::size_t lites) {
  const std::vector<double> cavities_w_m2k = lites > 1 ? std::vector{6.3, 2.0} : std::vector{0.0};
  const std::vector<const char*> spacers = lites > 1 ? std::vector{"metal", "warm-edge"} : std::vector{"metal"};
  std::vector<FitTarget> targets;
  for (double bite_m : {0.012, 0.016, 0.020}) {
    std::vector<LitePlace> places;
    for (std::size_t lite = 0; lite < lites; ++lite) places.insert(places.end(), {{lite, 0.0}, {lite, bite_m}});
    for (double outdoor_w_m2k : {12.0, 30.0})
      for (const char* spacer : spacers)
        for (double cavity_w_m2k : cavities_w_m2k) {
          const Films films{outdoor_w_m2k, 8.0, cavity_w_m2k};
          const Spacer& row = row_named(builtin_reference().spacers, spacer);
          const std::vector<Influence> whole = section_influences({shape, lites, bite_m, row}, films, places);
          for (std::size_t p = 0; p < places.size(); ++p)
            targets.push_back({bite_m, films, spacer, lites, places[p].lite, places[p].depth_m, whole[p]});
        }
  }
  return targets;
}

std::vector<double> misses_k(const FrameKind& kind, const std::vector<FitTarget>& targets) {
  std::vector<double> misses;
  for (const FitTarget& target : targets) {
    Line line = heat_lines::line("wood", target.spacer, target.bite_m, target.lites);
    line.edge.frame = kind;
    LinearStrip strip(line, target.films);
    const Influence fitted = influence(strip, target.lite, target.depth_m);
    for (const Drivers& d : weathers) misses.push_back(temperature_c(fitted, d) - temperature_c(target.whole, d));
  }
  return misses;
}

double rms(const std::vector<double>& values) {
  double sum = 0.0;
  for (double value : values) sum += value * value;
  return std::sqrt(sum / static_cast<double>(values.size()));
}

FrameKind fitted_row(FrameKind start, const std::vector<FitTarget>& targets) {
  const bool sealed = targets.front().lites > 1;
  Eigen::VectorXd logs(8);
  const auto of = numbers(fit_of(start, sealed));
  for (std::size_t i = 0; i < of.size(); ++i) logs[static_cast<Eigen::Index>(i)] = std::log(*of[i]);
  Eigen::NumericalDiff<Misses> misses(Misses{start, sealed, &targets, logs}, 1e-8);
  Eigen::LevenbergMarquardt<Eigen::NumericalDiff<Misses>> search(misses);
  search.parameters.maxfev = 400;
  search.minimize(logs);
  for (std::size_t i = 0; i < of.size(); ++i) *of[i] = std::exp(logs[static_cast<Eigen::Index>(i)]);
  return start;
}

}  // namespace sunstrain::test
