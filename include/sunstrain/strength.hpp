// What the edge bears: the allowable stress that the verdict uses, and, apart from it, the odds.
#pragma once

#include <span>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// The lines of one lite, Pa.
struct AllowableStress {
  double go_pa, refer_pa;
};

struct EdgeDescription {
  std::string treatment, glass_kind;
  double thickness_m;
  std::string finish_bad, finish_middle;  // rows of reference edge finishes, for the go and refer lines
};

// go = 45 MPa x 0.8 x k_mod(6 h) / 1.8 x factors, refer = the same with 1.6 x factors of the middle run.
// Source: design strength of EN 16612 for a cut edge under a six-hour load, recalled, not read from the standard.
AllowableStress allowable_stress(const EdgeDescription& edge, const Reference& reference);

// k_mod = 0.663 t^(-1/16), t in hours, at most 1. t_s > 0. EN 16612, recalled.
double duration_factor(double load_duration_s, const Reference& reference);

// (t_from/t_to)^(1/n): what a strength given for t_from is worth for t_to (same n).
double static_fatigue_factor(double from_s, double to_s, double n);

// Stress history at points along the edges: history[step][point], Pa, equal steps.
struct EdgeHistory {
  double step_s;
  std::vector<double> point_length_m;          // length of edge that each point stands for
  std::vector<std::vector<double>> stress_pa;  // [step][point]
};

// Two-parameter Weibull with static fatigue: B = sum over points (length/1 m) (sigma_eq/eta)^m,
// sigma_eq = [ (1/3 s) integral max(0, sigma - prestress)^n dt ]^(1/n), P = 1 - exp(-B).
struct WeibullLine {
  double m, eta_pa;
};
double breakage_probability(const EdgeHistory& history, const WeibullLine& line, double prestress_pa, double fatigue_n);

// Weibull risk B itself (P = 1 - exp(-B)).
double weibull_risk(const EdgeHistory& history, const WeibullLine& line, double prestress_pa, double fatigue_n);

struct Odds {
  double low, best, high;
};  // ordered: low <= best <= high

// The band m=7/33.1, m=9/40, m=9/45 MPa with the edge's factors (the weakest line with finish_bad, the
// others with finish_middle), prestress of the treatment subtracted and eta at most eta_cap_factor times plain.
Odds breakage_odds(const EdgeHistory& history, const EdgeDescription& edge, const Reference& reference);

// The Weibull risk B behind the best of the three: of its own line, m=9/40.
double likely_risk(const EdgeHistory& history, const EdgeDescription& edge, const Reference& reference);

}  // namespace sunstrain
