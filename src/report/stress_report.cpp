#include "sunstrain/report/stress_report.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "words.hpp"

namespace sunstrain {

using report::side_word;

std::string stress_text_report(const TemperatureGrid& grid, const GridStress& result, const Language& language,
                               int width) {
  const EdgeStress& stress = result.stress;
  std::string text = tell(language, "Pane {:.3f} x {:.3f} m\n", grid.width_m(), grid.height_m());
  text += tell(language, "Highest edge tension  {:.2f} MPa on the {} edge, {:.3f} m from its {} end\n",
               stress.peak_pa / 1e6, told(language, side_word(stress.peak_side)), stress.peak_position_m,
               report::end_word(language, stress.peak_side));
  text +=
      tell(language, "Good to about         {:.2f} MPa (10 mm and more from a corner)\n\n", result.accuracy_pa / 1e6);
  constexpr int shown = 9;
  text += fmt::format("{:<8}{:>8}", tell(language, "edge"), tell(language, "at"));
  for (int i = 0; i < shown; ++i) text += fmt::format("{:>6.0f} %", 100.0 * i / (shown - 1));
  text += "\n";
  for (Side side : all_sides) {
    const auto& at = stress.position_m[static_cast<std::size_t>(side)];
    const auto& pa = stress.stress_pa[static_cast<std::size_t>(side)];
    text += fmt::format("{:<8}{:>8}", told(language, side_word(side)), "MPa");
    for (int i = 0; i < shown; ++i) {
      const double where = at.front() + (at.back() - at.front()) * i / (shown - 1);
      const auto next = static_cast<std::size_t>(std::lower_bound(at.begin(), at.end(), where) - at.begin());
      const std::size_t upper = std::clamp<std::size_t>(next, 1, at.size() - 1);
      const double share = (where - at[upper - 1]) / (at[upper] - at[upper - 1]);
      text += fmt::format("{:>8.2f}", ((1 - share) * pa[upper - 1] + share * pa[upper]) / 1e6);
    }
    text += "\n";
  }
  return text + report::labeled("",
                                tell(language,
                                     "Tension positive; positions from the left or from the bottom, as seen from "
                                     "outdoors. --json has every point."),
                                0, width);
}

std::string stress_json(const TemperatureGrid& grid, const GridStress& result) {
  nlohmann::ordered_json json{
      {"width_m", grid.width_m()},
      {"height_m", grid.height_m()},
      {"peak_edge_stress_mpa", result.stress.peak_pa / 1e6},
      {"peak_at", {{"edge", side_word(result.stress.peak_side)}, {"position_m", result.stress.peak_position_m}}}};
  for (Side side : all_sides) {
    auto points = nlohmann::ordered_json::array();
    const auto index = static_cast<std::size_t>(side);
    for (std::size_t i = 0; i < result.stress.position_m[index].size(); ++i) {
      points.push_back({{"position_m", result.stress.position_m[index][i]},
                        {"stress_mpa", result.stress.stress_pa[index][i] / 1e6}});
    }
    json["edges"][side_word(side)] = std::move(points);
  }
  json["accuracy_mpa"] = result.accuracy_pa / 1e6;
  return json.dump(2) + "\n";
}

}  // namespace sunstrain
