// Internal: solvers and stress maps that several runs on one pane share.
#pragma once

#include <map>
#include <optional>

#include "sunstrain/assess.hpp"
#include "sunstrain/field.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain {

struct ChainCache::Store {
  std::map<std::vector<double>, std::shared_ptr<const EdgeStressSolver>> solvers;
  std::map<std::vector<double>, std::shared_ptr<const StripRamps>> ramps;
  std::map<std::vector<double>, std::shared_ptr<const StripStress>> maps;
  std::map<std::vector<double>, std::shared_ptr<const StripNodes>> nodes;
  std::map<std::vector<double>, std::shared_ptr<const SharpBorders>> sharp_borders;
  std::map<std::vector<double>, std::shared_ptr<const SoftBorders>> soft_borders;
  std::map<std::vector<double>, std::shared_ptr<const std::vector<double>>> colder_bottoms;
  std::map<std::vector<double>, std::vector<DesignDay>> years;
  std::vector<std::vector<StepLoads>> loads, shaded_loads;  // storage of the last run's days, used again by the next
  std::vector<LineDay> lines, shaded_lines;                 // shaded: no sun reaches the glass
  std::vector<LineDay> other_lines, other_shaded_lines;     // of a part of the pane that is otherwise
  std::map<std::vector<double>, std::optional<PlaneCheck>> plane_checks;
  // Lets go of the design years, which hardly two samples share, and of solvers, maps and answers once they are many.
  // Call it between runs: what they handed out is gone.
  void shed();

  std::map<Facts, double> bad_end_ratios;  // of completed jobs: many are asked for again
  // The job whose worst choice was last sought: its verdict is followed by what stands beside it.
  struct Sought {
    Job job;
    Choice worst;
  };
  std::optional<Sought> last_sought;
};

}  // namespace sunstrain
