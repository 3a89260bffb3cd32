#include "sunstrain/strength.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

namespace sunstrain {

namespace {

// The Weibull scale eta belongs to this load and this length: they define the number, as the gram
// defines a mass, and are no property of glass.
constexpr double weibull_reference_s = 3.0;
constexpr double weibull_reference_m = 1.0;
constexpr double seconds_per_hour = 3600.0;

void require(bool met, const char* what) {
  if (!met) throw std::invalid_argument(std::string("edge strength: ") + what);
}

// The factor of the thickest class that the lite exceeds; thinner glass than every class has 1.
double thickness_factor(double thickness_m, const std::vector<ThicknessFactor>& rows) {
  double above_m = -1.0, factor = 1.0;
  for (const ThicknessFactor& row : rows) {
    if (thickness_m > row.above_m && row.above_m > above_m) {
      above_m = row.above_m;
      factor = row.allowable_factor;
    }
  }
  return factor;
}

double glass_factor(const EdgeDescription& edge, const Reference& reference) {
  return thickness_factor(edge.thickness_m, reference.thickness_factors) *
         row_named(reference.glass_kinds, edge.glass_kind).allowable_factor;
}

// The point's own history as one stress held for the reference load:
// sigma_eq = [ (1/t0) integral max(0, sigma - prestress)^n dt ]^(1/n). The peak is taken out first so
// that the sixteenth powers stay near 1.
double equivalent_stress_pa(const EdgeHistory& history, std::size_t point, double prestress_pa, double n) {
  double peak = 0.0;
  for (const auto& step : history.stress_pa) peak = std::max(peak, step[point] - prestress_pa);
  if (peak <= 0.0) return 0.0;
  double sum_s = 0.0;
  for (const auto& step : history.stress_pa) {
    const double tension = std::max(0.0, step[point] - prestress_pa);
    sum_s += history.step_s * std::pow(tension / peak, n);
  }
  return peak * std::pow(sum_s / weibull_reference_s, 1.0 / n);
}

std::vector<double> equivalent_stresses_pa(const EdgeHistory& history, double prestress_pa, double n) {
  require(history.step_s > 0.0, "the time step must be above 0");
  require(n > 0.0, "the fatigue exponent must be above 0");
  for (const auto& step : history.stress_pa) {
    require(step.size() == history.point_length_m.size(), "every step needs one stress a point");
  }
  std::vector<double> stresses_pa(history.point_length_m.size());
  for (std::size_t point = 0; point < stresses_pa.size(); ++point) {
    stresses_pa[point] = equivalent_stress_pa(history, point, prestress_pa, n);
  }
  return stresses_pa;
}

// B = sum over the edge of (length / 1 m) (sigma_eq / eta)^m.
double risk_of(const std::vector<double>& stresses_pa, const std::vector<double>& lengths_m, const WeibullLine& line) {
  require(line.m > 0.0 && line.eta_pa > 0.0, "Weibull m and eta must be above 0");
  double risk = 0.0;
  for (std::size_t point = 0; point < stresses_pa.size(); ++point) {
    risk += lengths_m[point] / weibull_reference_m * std::pow(stresses_pa[point] / line.eta_pa, line.m);
  }
  return risk;
}

double probability_of(double risk) { return -std::expm1(-risk); }

}  // namespace

double duration_factor(double load_duration_s, const Reference& reference) {
  require(load_duration_s > 0.0, "a load must last longer than no time");
  const double hours = load_duration_s / seconds_per_hour;
  const double k_mod =
      constant(reference, "duration_coefficient") * std::pow(hours, -1.0 / constant(reference, "duration_exponent_n"));
  return std::min(1.0, k_mod);
}

AllowableStress allowable_stress(const EdgeDescription& edge, const Reference& reference) {
  // f_gd = k_e k_mod f_gk / gamma_M, as the standard writes it; then what lies outside of it.
  const double characteristic_pa = constant(reference, "edge_characteristic_pa") *
                                   constant(reference, "cut_edge_factor") *
                                   duration_factor(constant(reference, "duration_go_s"), reference);
  const double glass = glass_factor(edge, reference) * row_named(reference.treatments, edge.treatment).allowable_factor;
  const auto finish = [&](const std::string& name) {
    return row_named(reference.edge_finishes, name).allowable_factor;
  };
  return {.go_pa = characteristic_pa / constant(reference, "material_factor_go") * glass * finish(edge.finish_bad),
          .refer_pa =
              characteristic_pa / constant(reference, "material_factor_refer") * glass * finish(edge.finish_middle)};
}

double static_fatigue_factor(double from_s, double to_s, double n) {
  require(from_s > 0.0 && to_s > 0.0 && n > 0.0, "durations and fatigue exponent must be above 0");
  return std::pow(from_s / to_s, 1.0 / n);
}

double weibull_risk(const EdgeHistory& history, const WeibullLine& line, double prestress_pa, double fatigue_n) {
  return risk_of(equivalent_stresses_pa(history, prestress_pa, fatigue_n), history.point_length_m, line);
}

double breakage_probability(const EdgeHistory& history, const WeibullLine& line, double prestress_pa,
                            double fatigue_n) {
  return probability_of(weibull_risk(history, line, prestress_pa, fatigue_n));
}

namespace {

// The day of an edge: what sets its risk by any Weibull line.
class EdgeDay {
 public:
  EdgeDay(const EdgeHistory& history, const EdgeDescription& edge, const Reference& reference)
      : history_(history),
        reference_(reference),
        treatment_(row_named(reference.treatments, edge.treatment)),
        glass_(glass_factor(edge, reference)),
        whole_pa_(equivalent_stresses_pa(history, 0.0, constant(reference, "fatigue_n"))),
        net_pa_(treatment_.prestress_pa == 0.0
                    ? whole_pa_
                    : equivalent_stresses_pa(history, treatment_.prestress_pa, constant(reference, "fatigue_n"))) {}

  double risk(const std::string& line_name, const std::string& finish) const {
    const double m = constant(reference_, "weibull_" + line_name + "_m");
    const double eta_pa = constant(reference_, "weibull_" + line_name + "_eta_pa") * glass_ *
                          row_named(reference_.edge_finishes, finish).odds_factor;
    // Heat-treated glass is no stronger than its prestress plus a plain edge, nor than the published
    // multiple of a plain edge: the higher of the two risks counts.
    const double by_prestress = risk_of(net_pa_, history_.point_length_m, {m, eta_pa});
    const double by_cap = risk_of(whole_pa_, history_.point_length_m, {m, eta_pa * treatment_.eta_cap_factor});
    return std::max(by_prestress, by_cap);
  }

 private:
  const EdgeHistory& history_;
  const Reference& reference_;
  const Treatment& treatment_;
  double glass_;
  // The same history, once as it acts on the glass and once with the prestress taken off.
  std::vector<double> whole_pa_, net_pa_;
};

}  // namespace

Odds breakage_odds(const EdgeHistory& history, const EdgeDescription& edge, const Reference& reference) {
  const EdgeDay day(history, edge, reference);
  // The weakest line goes with the edge at its worst, the other two with the likely edge. Lines of
  // different m cross far above any stress of a window (78 MPa and up, where long edges have all but
  // surely broken); sorting keeps the band a band there too.
  std::array<double, 3> band{probability_of(day.risk("low", edge.finish_bad)),
                             probability_of(day.risk("best", edge.finish_middle)),
                             probability_of(day.risk("high", edge.finish_middle))};
  std::sort(band.begin(), band.end());
  return {.low = band[0], .best = band[1], .high = band[2]};
}

double likely_risk(const EdgeHistory& history, const EdgeDescription& edge, const Reference& reference) {
  return EdgeDay(history, edge, reference).risk("best", edge.finish_middle);
}

}  // namespace sunstrain
