// Internal: the hour that governs an answer, with everything that was worked on the way to it.
#pragma once

#include "sunstrain/trace.hpp"
#include "year_parts.hpp"

namespace sunstrain::internal {

struct GoverningHour {
  GoverningHour(const Assessment& assessment, const Reference& reference);

  const DayStep& sky() const { return day->steps[step]; }
  double edge_k() const;    // at the cut edge, a colder bottom counted in
  double middle_k() const;  // in the sun

  Case pane;
  std::size_t lite, step = 0;
  ChainCache cache;
  AbsorptionTable table;
  const DesignDay* day = nullptr;
  StepLoads loads;
  DayStrips strips{};
  LitArea lit;
  double blur_m = 0.0;
  const EdgeStressSolver* solver = nullptr;
  std::vector<double> stress_pa;  // along the edge as the solver reports it, bending included
  EdgePeak peak;                  // of it
  double bending_pa = 0.0;
  double hottest_outdoor_lite_k = 0.0;  // its middle in the sun, all parts of the pane, over all design days
  double residual_share = 0.0;          // of energy in this step
};

// The working, stage by stage.
// A TraceFigure whose words wait for their language.
struct Figure {
  Saying what;
  double value;
  std::string unit;
  Saying how;
};

std::vector<Figure> sun_figures(const GoverningHour& hour, const Reference& reference);
std::vector<Figure> optics_figures(const GoverningHour& hour);
std::vector<Figure> heat_figures(const GoverningHour& hour, const Reference& reference);
std::vector<Figure> field_figures(const GoverningHour& hour);
std::vector<Figure> stress_figures(const GoverningHour& hour, const Reference& reference);
std::vector<Figure> plane_figures(const GoverningHour& hour, const Assessment& assessment, const Reference& reference);
std::vector<Figure> strength_figures(const GoverningHour& hour, const Assessment& assessment,
                                     const Reference& reference);
std::vector<Figure> cold_water_figures(const GoverningHour& hour, const Reference& reference);

}  // namespace sunstrain::internal
