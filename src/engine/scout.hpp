// Internal: how bad a pane stands as its unknowns are read, at a part of the cost of a run over the year.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/resolve.hpp"

namespace sunstrain::internal {

// The stress peaks on much the same days of the year as long as the sun on the pane is the same and the pane not much
// another: those days are looked for once for each sun, and anew where a pane stands much worse than the one they were
// found at; then they alone are run. With them run some that came next and some far from them: where one of these is
// the worst, or about as bad, the pane's own days are looked for.
class Scout {
 public:
  Scout(const Reference& reference, ChainCache& cache);

  // About the bad end's ratio with film as a choice reads the unknowns: in steps of half an hour, loosely settled.
  // Between readings that stand within 5 % of each other it erred by 1 % at most on 330 random jobs (six of them are in
  // tests/unit/scout_test.cpp). Nothing where the job cannot be.
  std::optional<double> about(const Job& job, const Choice& choice);
  // The same in full steps: bad_end_ratio() where the worst day is among those that are run.
  std::optional<double> closely(const Job& job, const Choice& choice);
  // Looks for the worst days of such a sun at this choice.
  void focus(const Job& job, const Choice& choice);

 private:
  struct WorstDays {
    std::vector<std::size_t> days;  // of the design year, the worst first, those far from them last
    double ratio;                   // where they were found
  };
  struct Work {
    MarchCare care;
    int steps_per_day;
    std::map<Facts, std::optional<double>> known;  // by the completed job
  };

  std::optional<double> ratio(const Job& job, const Choice& choice, Work& work);
  double ratio_of(const Job& complete, const Case& pane, const Work& work);
  WorstDays worst_days(const Case& pane) const;

  const Reference& reference_;
  ChainCache& cache_;
  Work about_, closely_;
  std::map<Facts, WorstDays> worst_days_;  // by what sets the sun
};

}  // namespace sunstrain::internal
