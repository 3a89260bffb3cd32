// Cold water on the outdoor lite at its hottest: an event beside the answer, in none of its figures.
#include <algorithm>

#include "sunstrain/quench.hpp"
#include "trace_hour.hpp"

namespace sunstrain::internal {
namespace {

struct Water {
  const char *name, *flow, *temperature;  // as the answer calls it; its rows in constants.toml
};
constexpr Water waters[]{{"cloudburst", "rain_flow_kg_m2s", "rain_water_k"},
                         {"garden hose", "hose_flow_kg_m2s", "hose_water_k"}};

}  // namespace

// Of a laminated lite the outer ply is struck: its interlayer lets next to no heat through in those seconds.
// No film of water takes more from the glass than the water that comes can carry off, so its exchange is at most flow
// times heat capacity: that is what is taken.
std::vector<Figure> cold_water_figures(const GoverningHour& hour, const Reference& reference) {
  constexpr double zero_celsius_k = 273.15, pa_per_mpa = 1e6;
  const GlassMaterial& glass = hour.pane.after.thermal.material;
  const double thickness_m = hour.pane.after.thermal.lites.front().thickness_m;
  const double hot_k = hour.hottest_outdoor_lite_k;
  const double face_pa = constant(reference, "edge_characteristic_pa");
  const Saying outermost = hour.pane.sheets.front().panel ? Saying("panel") : saying("lite {}", 1);
  std::vector<Figure> figures{{saying("{}, middle, at its hottest", outermost), hot_k - zero_celsius_k, "C",
                               "of all design days, in the sun; an event for itself, in no verdict"}};
  for (const Water& water : waters) {
    const Saying name = water.name;
    const Constant& flow = reference.constants.find(water.flow)->second;
    const Constant& temperature = reference.constants.find(water.temperature)->second;
    const double film_w_m2k = flow.value * constant(reference, "water_heat_j_kgk");
    const double biot = film_w_m2k * thickness_m / glass.conductivity_w_mk;
    const QuenchPeak peak = quench_peak(biot);
    const double colder_k = peak.difference * std::max(0.0, hot_k - temperature.value);
    const double after_s = peak.fourier * glass.density_kg_m3 * glass.specific_heat_j_kgk * thickness_m * thickness_m /
                           glass.conductivity_w_mk;
    const double tension_pa = face_stress_pa(hour.pane.elasticity.young_pa, hour.pane.elasticity.expansion_per_k,
                                             constant(reference, "glass_poisson"), colder_k);
    figures.push_back({saying("{}: water", name), temperature.value - zero_celsius_k, "C",
                       saying("{}; {}", Saying(temperature.note), temperature.source.text)});
    figures.push_back({saying("{}: film, at most", name), film_w_m2k, "W/m2K",
                       saying("what it can carry off: {}", Saying(flow.note))});
    figures.push_back({saying("{}: face colder than the sheet by", name), colder_k, "K",
                       "plane wall cooled through one face, largest over time; Carslaw & Jaeger 3.11"});
    figures.push_back({saying("{}: after", name), after_s, "s", "the same"});
    figures.push_back({saying("{}: tension in the wet face", name), tension_pa / pa_per_mpa, "MPa",
                       "E alpha/(1 - nu) times that: the sheet neither bends nor is held; Timoshenko & Goodier"});
    figures.push_back({saying("{}: of a new face's characteristic strength", name), tension_pa / face_pa, "1",
                       "45 MPa, EN 572-1; scratches and grit leave less"});
  }
  return figures;
}

}  // namespace sunstrain::internal
