// The same bits whatever the number of threads: nothing is shared but what is constant.
#include <thread>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"
#include "support/pane_strips.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

// Each of `count` tasks once, dealt out over so many threads.
template <class Task>
void run_on(std::size_t threads, std::size_t count, Task task) {
  std::vector<std::thread> running;
  for (std::size_t t = 0; t < threads; ++t)
    running.emplace_back([=] {
      for (std::size_t i = t; i < count; i += threads) task(i);
    });
  for (std::thread& thread : running) thread.join();
}

}  // namespace

TEST_CASE("Threads: many on one solver and one table of borders give what one gives") {
  ShadowPlan overhang;
  overhang.overhang_depth_m = 0.6;
  const EdgeStressSolver solver = solver_for(overhang);
  const StripNodes few = few_nodes(strips().depth_m, bite_m);
  const StripRamps ramps(solver, glass_w, glass_h, few.depth_m);
  const SoftBorders borders(SharpBorders(ramps), blur_m);
  const std::vector<double> node_k = few.values(sun_adds(strips()));
  constexpr std::size_t fields = 64;
  const auto all_on = [&](std::size_t threads) {
    std::vector<std::vector<double>> stress(
        fields, std::vector<double>(4 * static_cast<std::size_t>(solver.points_per_side()), 0.0));
    run_on(threads, fields, [&](std::size_t i) {
      LitArea light{false, false, false, 0.0, glass_w, 0.0, glass_h * static_cast<double>(i) / fields};
      borders.add(node_k, light, stress[i]);
      StripStress(ramps, light, blur_m).add(node_k, stress[i]);
    });
    return stress;
  };
  const auto alone = all_on(1);
  CHECK(highest(alone[fields / 2]) > 1e6);
  CHECK(all_on(2) == alone);
  CHECK(all_on(5) == alone);
}

TEST_CASE("Threads: whole years of panes, a thread each, give what one after the other gives") {
  const std::vector<const char*> shadows{"shading.overhang_depth=0.6 m", "shading.left_fin_depth=0.4 m",
                                         "shading.pattern=L", "shading.pattern=none"};
  std::vector<Case> panes;
  for (const char* shadow : shadows) panes.push_back(complete_double_case({shadow}));
  const auto all_on = [&](std::size_t threads) {
    std::vector<double> peaks_pa(panes.size());
    run_on(threads, panes.size(), [&](std::size_t i) {
      ChainCache cache;
      for (const LitePeak& lite : worst_of_year(panes[i], panes[i].after, builtin_reference(), cache, false).lites)
        peaks_pa[i] = std::max(peaks_pa[i], lite.stress_pa);
    });
    return peaks_pa;
  };
  const auto alone = all_on(1);
  CHECK(alone[0] > 1e6);
  CHECK(all_on(2) == alone);
  CHECK(all_on(4) == alone);
}
