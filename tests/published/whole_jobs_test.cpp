// The whole chain against six whole jobs worked by an independent prototype in another language: a second opinion, not
// a measurement. Each job's own day and its own frame network go in, and stresses are in plane, as the prototype knows
// no bending: the two chains are compared like for like.
//
// Where they disagree beyond the tolerances stated with the jobs, and who is wrong:
// * Job 3, filmed: 3.65 against 2.97 MPa, the middle 1.0 K hotter (18.2 against 17.2 C; edge and frame within 0.15 K).
//   The prototype lets a lite be one temperature through its thickness. The engine keeps the 3 mm between the mean
//   of a 6 mm lite and each face, which is right: steady, both faces cooled (20 and 8 W/m2K), a film that takes up S on
//   the room face, the mean rises by 0.0366 S with the glass's resistance and by 0.0357 S without. With the resistance
//   taken out the engine gives 17.2 C and 3.1 MPa. It is a difference of 1 K in a middle less edge of 5 K.
// * Job 7, filmed, room-side lite: the hour, 10.75 against 11.54. The stress has a flat top: the engine's middle less
//   edge at their hour is within 2 % of its highest. Neither is wrong; the hour of such a peak is not a firm number.
#include <toml++/toml.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "../../src/engine/loads.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"

using namespace sunstrain;

namespace {

constexpr double zero_c = 273.15;

double number(const toml::node_view<const toml::node>& node) {
  const auto value = node.value<double>();
  if (!value) throw std::runtime_error("whole_jobs.toml: a number is missing");
  return *value;
}

std::vector<double> numbers(const toml::node_view<const toml::node>& node) {
  std::vector<double> result;
  for (const auto& item : *node.as_array()) result.push_back(item.value<double>().value());
  return result;
}

const toml::table& file() {
  static const toml::table table = toml::parse_file(SUNSTRAIN_SOURCE_DIR "/tests/published/whole_jobs.toml");
  return table;
}

using Node = toml::node_view<const toml::node>;

// Hourly values at half past, linear to the mid-steps of ten minutes, the day closed on itself.
double at_hour(const std::vector<double>& hourly, double hour) {
  const double position = hour - 0.5 + 24.0;
  const auto below = static_cast<std::size_t>(position);
  const double share = position - static_cast<double>(below);
  return (1 - share) * hourly[below % 24] + share * hourly[(below + 1) % 24];
}

DesignDay day_of(const Node& job) {
  const auto air = numbers(job["air_c"]), sky = numbers(job["sky_c"]), beam = numbers(job["beam_w_m2"]),
             diffuse = numbers(job["diffuse_w_m2"]), cosine = numbers(job["cos_incidence"]);
  DesignDay day{static_cast<int>(number(job["month"])),
                job["kind"].value<std::string>() == "hot" ? DayKind::hot_clear : DayKind::cold_clear,
                600.0,
                {}};
  for (int i = 0; i < 144; ++i) {
    const double hour = (i + 0.5) / 6.0;
    day.steps.push_back({hour,
                         at_hour(air, hour) + zero_c,
                         at_hour(sky, hour) + zero_c,
                         {},
                         0.0,
                         0.0,
                         {at_hour(beam, hour), at_hour(diffuse, hour), 0.0, at_hour(cosine, hour)}});
  }
  return day;
}

// Glass as it is, or with a thousandth of its thickness, a thousand times as dense and conductive: the same sheet
// sideways and the same heat held, but one temperature through its thickness, as the prototype has it.
enum class Through { as_it_is, one_temperature };
double thinned(Through through) { return through == Through::as_it_is ? 1.0 : 1000.0; }

GlazingState glazing_of(const Node& job, bool filmed, Through through) {
  const double thin = thinned(through);
  GlazingState state{{}, {{}, {}, 1.5, {thin, thin * 2500.0, 750.0}}};
  const auto thickness = numbers(job["thickness_mm"]), transmittance = numbers(job["solar_transmittance"]);
  for (std::size_t j = 0; j < thickness.size(); ++j) {
    state.thermal.lites.push_back({thickness[j] / 1000.0 / thin, 0.84, 0.84});
    state.optics.push_back({bare_interface(), bare_interface(), bulk_transmittance(transmittance[j])});
  }
  if (thickness.size() > 1) {
    state.thermal.cavities.push_back({number(job["cavity_mm"]) / 1000.0, row_named(builtin_reference().gases, "air")});
  }
  if (filmed) {
    const Node film = job["film"];
    const FilmSheet sheet{number(film["transmittance"]), number(film["reflectance"]),
                          number(film["reflectance_film_side"])};
    state.optics.back().inner_face = film_interface(sheet, bulk_transmittance(0.837));
    state.thermal.lites.back().emissivity_inner = number(film["emissivity"]);
  }
  return state;
}

// The prototype's frame in the engine's terms: contact resistances from the mean of the lite, so the engine's own third
// of the thickness is taken off them; nodes that are their own faces (a resistance of nothing, 1e-6).
EdgeSection edge_of(const Node& job, const Glazing& glazing) {
  const Node frame = job["frame"];
  const auto capacity = numbers(frame["capacity_j_m2k"]);
  const double outer_m = number(frame["outdoor_width_m"]), inner_m = number(frame["room_width_m"]);
  const double bite_m = number(frame["bite_m"]),
               turning = glazing.lites[0].thickness_m / 3.0 / glazing.material.conductivity_w_mk;
  EdgeSection edge{};
  edge.frame.single = {outer_m, 1e-6,    number(frame["between_w_m2k"]) * outer_m,
                       1e-6,    inner_m, outer_m,
                       0.0,     0.0,     {0.0, capacity[0] * outer_m, capacity[1] * inner_m, 0.0}};
  edge.frame.sealed = edge.frame.single;
  edge.frame.seal_thickness_m = 1.0 / number(frame["contact_w_m2k"]) - turning;
  edge.frame.seal_conductivity_w_mk = 1.0;
  edge.bite_m = bite_m;
  edge.edge_clearance_m = 1.0;
  edge.butyl_conductivity_w_mk = 1.0;
  edge.spacer_to_m = bite_m;
  edge.room_corner_factor = 1.0;
  edge.spacer = {"", 1.0, 1.0, {}};
  if (const double spacer = number(job["spacer_w_mk"]); spacer > 0.0) {
    edge.sealed = true;
    edge.spacer.conductivity_w_mk = number(job["cavity_mm"]) / 1000.0 / (bite_m / spacer - 2.0 * turning);
  }
  return edge;
}

Case case_of(const Node& job, Through through) {
  Case pane{};
  pane.width_m = 1.2;
  pane.height_m = 1.5;
  pane.tilt_rad = 0.5 * std::numbers::pi;
  pane.facing_rad = number(job["facing_deg"]) * std::numbers::pi / 180.0;
  pane.before = glazing_of(job, false, through);
  pane.after = glazing_of(job, true, through);
  pane.filmed_lite = pane.after.optics.size() - 1;
  pane.edge = edge_of(job, pane.before.thermal);
  pane.room.winter_k = pane.room.summer_k = number(job["room_c"]) + zero_c;
  if (job["shadow"].value<std::string>() == "L") {
    pane.shadow.pattern = ShadowPlan::Pattern::l_shape;
    pane.shadow.share = 0.25;
  }
  pane.frame_solar_absorptance = number(job["frame"]["solar_absorptance"]);
  pane.frame_beam_share = number(job["frame"]["beam_share"]);
  pane.outdoor_convection_w_m2k = 14.0;
  pane.sky_view = 0.354;
  pane.elasticity = {70e9, 9e-6};
  pane.air = row_named(builtin_reference().gases, "air");
  return pane;
}

struct Tolerance {
  double absorbed, center_k, edge_k, frame_k, stress_share, stress_floor_mpa, hour;
};

Tolerance tolerance(bool filmed) {
  const Node t(file()["tolerance"]);
  return {number(t[filmed ? "absorbed_filmed" : "absorbed"]),
          number(t["center_k"]),
          number(t["edge_k"]),
          number(t["frame_k"]),
          number(t["stress_share"]),
          number(t["stress_floor_mpa"]),
          number(t["hour"])};
}

// What is compared of one lite; `stress` and `hour` false: a disagreement explained at the head of this file.
struct Compared {
  bool stress = true, hour = true;
};

void compare(const LitePeak& ours, const Node& theirs, const Tolerance& allowed, const Compared& compared) {
  const double stress = number(theirs["stress_mpa"]), found = ours.in_plane_pa() / 1e6;
  INFO("stress " << found << " against " << stress << " MPa, at " << ours.when.local_hour << " against "
                 << number(theirs["hour"]) << " h");
  if (compared.stress)
    CHECK(std::abs(found - stress) <= std::max(allowed.stress_share * stress, allowed.stress_floor_mpa));
  if (stress < 1.0) return;
  if (compared.hour) CHECK(ours.when.local_hour == Approx(number(theirs["hour"])).margin(allowed.hour));
  CHECK(ours.absorbed_w_m2 / ours.irradiance_w_m2 == Approx(number(theirs["absorbed"])).margin(allowed.absorbed));
  CHECK(ours.center_k - zero_c == Approx(number(theirs["center_c"])).margin(allowed.center_k));
  CHECK(ours.edge_k - zero_c == Approx(number(theirs["edge_c"])).margin(allowed.edge_k));
  CHECK(ours.frame_k[1] - zero_c == Approx(number(theirs["outer_frame_c"])).margin(allowed.frame_k));
  CHECK(ours.frame_k[2] - zero_c == Approx(number(theirs["inner_frame_c"])).margin(allowed.frame_k));
}

void compare_all(Through through) {
  const toml::array& jobs = *file()["job"].as_array();
  REQUIRE(jobs.size() == 6);
  for (const toml::node& entry : jobs) {
    const Node job(entry);
    const int id = static_cast<int>(number(job["id"]));
    const Case pane = case_of(job, through);
    const std::vector<DesignDay> days{day_of(job)};
    ChainCache cache;
    for (bool filmed : {false, true}) {
      const GlazingState& state = filmed ? pane.after : pane.before;
      const YearPeaks peaks = worst_of_days(pane, state, days, builtin_reference(), cache, false);
      CHECK(peaks.worst_energy_residual <= 1e-6);
      const Absorption normal = absorb_beam(state.optics, 0.0);
      const Node theirs = job[filmed ? "after" : "before"];
      REQUIRE(theirs.as_array()->size() == peaks.lites.size());
      for (std::size_t lite = 0; lite < peaks.lites.size(); ++lite) {
        INFO("job " << id << ", " << job["name"].value_or("") << (filmed ? ", filmed" : ", bare") << ", lite "
                    << lite + 1);
        CHECK(normal.lites[lite].total() == Approx(number(theirs[lite]["absorbed_normal"])).margin(0.01));
        compare(peaks.lites[lite], theirs[lite], tolerance(filmed),
                {!(through == Through::as_it_is && id == 3 && filmed), !(id == 7 && filmed && lite == 1)});
      }
    }
  }
}

const toml::node& job_numbered(int id) {
  for (const toml::node& entry : *file()["job"].as_array()) {
    if (static_cast<int>(number(Node(entry)["id"])) == id) return entry;
  }
  throw std::runtime_error("whole_jobs.toml: no such job");
}

}  // namespace

TEST_CASE("Six whole jobs worked by an independent prototype") { compare_all(Through::as_it_is); }

TEST_CASE("Six whole jobs with every lite at one temperature through its thickness, as the prototype has it") {
  compare_all(Through::one_temperature);
}

TEST_CASE("The prototype's job 3: the glass's own resistance is what parts the two answers") {
  const Node job(job_numbered(3));
  ChainCache cache;
  const std::vector<DesignDay> days{day_of(job)};
  const Case pane = case_of(job, Through::as_it_is), thin = case_of(job, Through::one_temperature);
  const LitePeak ours = worst_of_days(pane, pane.after, days, builtin_reference(), cache, false).lites[0];
  ChainCache other;
  const LitePeak lumped = worst_of_days(thin, thin.after, days, builtin_reference(), other, false).lites[0];
  CHECK(lumped.center_k - zero_c == Approx(17.232).margin(0.2));
  CHECK(lumped.in_plane_pa() / 1e6 == Approx(2.974).epsilon(0.05));
  // What is left of the difference in stress is E alpha times the difference of the middles: 0.63 MPa/K on a broad
  // pane.
  CHECK((ours.in_plane_pa() - lumped.in_plane_pa()) / 1e6 ==
        Approx(0.63 * (ours.center_k - lumped.center_k - (ours.edge_k - lumped.edge_k))).epsilon(0.1));
}

TEST_CASE("The prototype's job 7: a peak with a flat top") {
  const Node job(job_numbered(7));
  const Case pane = case_of(job, Through::as_it_is);
  const internal::AbsorptionTable table(pane.after, 0.0);
  std::vector<StepLoads> loads;
  for (const DayStep& step : day_of(job).steps)
    loads.push_back(internal::step_loads(pane, table, step, DayKind::cold_clear, 1.0));
  const LineDay day = march_day({pane.after.thermal, pane.edge, {}, pane.air}, loads, 600.0);
  const auto middle_less_edge_k = [&](double hour) {
    const auto inner_k = day.strip(static_cast<std::size_t>(hour * 6.0), 1);
    return inner_k.back() - inner_k.front();
  };
  double highest_k = 0.0;
  for (int i = 0; i < 144; ++i) highest_k = std::max(highest_k, middle_less_edge_k((i + 0.5) / 6.0));
  CHECK(middle_less_edge_k(11.542) > 0.98 * highest_k);
}
