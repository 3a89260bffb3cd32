// The glazing of a job: its sheets of glass, what lies on and between them, and its films.
#include "build_glazing.hpp"

#include <cmath>
#include <optional>

#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace internal {
namespace {

std::string lite_key(std::size_t lite, const char* what) { return "lite." + std::to_string(lite + 1) + "." + what; }
std::string cavity_key(std::size_t k, const char* what) { return "cavity." + std::to_string(k + 1) + "." + what; }

// A nominal thickness is a name: "1/4 in" and "6 mm" are one glass. The nearest class stands for it, where one is near.
double lite_thickness_m(const Job& job, std::size_t lite, const Reference& reference) {
  if (const auto measured = number_of(job, lite_key(lite, "measured_thickness"))) return *measured;
  constexpr double near_m = 0.00075;  // inch names lie up to 0.7 mm from their metric ones
  const double named = need_number(job, lite_key(lite, "thickness"));
  double nearest = named, distance = near_m;
  for (const NominalThickness& row : reference.nominal_thicknesses) {
    if (std::abs(row.nominal_m - named) >= distance) continue;
    distance = std::abs(row.nominal_m - named);
    nearest = row.nominal_m;
  }
  return nearest;
}

// How much a body lets through at several thicknesses, from inside.
struct Passed {
  double thickness_m, transmittance;
};

// Extinction -ln t / d varies slowly with thickness (the spectrum left over changes), so it is what one interpolates.
double body_transmittance(const std::vector<Passed>& rows, double thickness_m) {
  const auto extinction = [](const Passed& row) { return -std::log(row.transmittance) / row.thickness_m; };
  if (thickness_m <= rows.front().thickness_m) return std::exp(-extinction(rows.front()) * thickness_m);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (thickness_m > rows[i].thickness_m) continue;
    const double share = (thickness_m - rows[i - 1].thickness_m) / (rows[i].thickness_m - rows[i - 1].thickness_m);
    return std::exp(-((1 - share) * extinction(rows[i - 1]) + share * extinction(rows[i])) * thickness_m);
  }
  return std::exp(-extinction(rows.back()) * thickness_m);
}

double glass_transmittance(const Tint& tint, double thickness_m) {
  std::vector<Passed> rows;
  for (const TintRow& row : tint.rows) rows.push_back({row.thickness_m, bulk_transmittance(row.solar_transmittance)});
  return body_transmittance(rows, thickness_m);
}

double interlayer_transmittance(const Reference& reference, double thickness_m) {
  std::vector<Passed> rows;
  for (const Interlayer& row : reference.interlayers) rows.push_back({row.thickness_m, row.transmittance});
  return body_transmittance(rows, thickness_m);
}

// A laminated lite is two plies.
std::vector<Sheet> sheets_of(const Job& job, std::size_t lites) {
  std::vector<Sheet> sheets;
  if (panel_of(job) == "outdoors") sheets.push_back({0, 0, 1, true});
  for (std::size_t lite = 0; lite < lites; ++lite) {
    const std::size_t plies = need_word(job, lite_key(lite, "kind")) == "laminated" ? 2 : 1;
    for (std::size_t ply = 0; ply < plies; ++ply) sheets.push_back({lite, ply, plies, false});
  }
  if (panel_of(job) == "indoors") sheets.push_back({0, 0, 1, true});
  return sheets;
}

// The lite's glass, bare, and of a laminated one its interlayer: an own sheet's transmittance is that of all of it.
void add_lite(const Job& job, std::size_t lite, std::size_t plies, const Reference& reference, GlazingState& state) {
  const double emissivity = constant(reference, "glass_emissivity");
  const double thickness_m = lite_thickness_m(job, lite, reference);
  const auto sheet = number_of(job, lite_key(lite, "solar_transmittance"));
  double bulk =
      sheet ? bulk_transmittance(*sheet)
            : glass_transmittance(row_named(reference.tints, need_word(job, lite_key(lite, "tint"))), thickness_m);
  if (plies == 1) {
    state.optics.push_back({bare_interface(), bare_interface(), bulk});
    state.thermal.lites.push_back({thickness_m, emissivity, emissivity});
    return;
  }
  const double between_m = need_number(job, lite_key(lite, "interlayer"));
  const double passed = interlayer_transmittance(reference, between_m);
  if (sheet) bulk /= passed;
  if (bulk > 1.0) {
    throw BadInput("{}: {}: more than its interlayer lets through, {} with glass that takes up nothing", job.source,
                   lite_key(lite, "solar_transmittance"), std::to_string(bare_transmittance(passed)).substr(0, 5));
  }
  const double outer_m = number_of(job, lite_key(lite, "outer_ply")).value_or(0.5 * thickness_m);
  if (outer_m >= thickness_m) {
    throw BadInput("{}: {}: must be less than the plies together, {} mm", job.source, lite_key(lite, "outer_ply"),
                   std::to_string(thickness_m * 1e3).substr(0, 4));
  }
  const Interface half = interlayer_half(passed);
  state.optics.push_back({bare_interface(), half, std::pow(bulk, outer_m / thickness_m)});
  state.optics.push_back({half, bare_interface(), std::pow(bulk, 1.0 - outer_m / thickness_m)});
  state.thermal.lites.push_back({outer_m, emissivity, emissivity});
  state.thermal.cavities.push_back(
      {between_m,
       {},
       constant(reference, "interlayer_conductivity_w_mk"),
       constant(reference, "interlayer_density_kg_m3") * constant(reference, "interlayer_specific_heat_j_kgk")});
  state.thermal.lites.push_back({thickness_m - outer_m, emissivity, emissivity});
}

// A panel and the gap between it and the pane.
void add_panel(const Job& job, const Reference& reference, GlazingState& state) {
  const double emissivity = constant(reference, "glass_emissivity"), thickness_m = need_number(job, "panel.thickness");
  const bool indoors = panel_of(job) == "indoors";
  ThermalCavity gap{need_number(job, "panel.gap"), row_named(reference.gases, "air")};
  gap.apart = true;
  gap.opening_m = number_of(job, "panel.opening").value_or(0.0);
  gap.to_room = indoors;
  if (gap.opening_m > gap.width_m) throw BadInput("{}: panel.opening: cannot be wider than panel.gap", job.source);
  if (indoors) state.thermal.cavities.push_back(gap);
  state.optics.push_back({bare_interface(), bare_interface(),
                          glass_transmittance(row_named(reference.tints, need_word(job, "panel.tint")), thickness_m)});
  state.thermal.lites.push_back({thickness_m, emissivity, emissivity});
  if (!indoors) state.thermal.cavities.push_back(gap);
}

// Surfaces count from outdoors, 1: the outer face of lite 0. Inside laminated glass there are none, and a panel's do
// not count.
struct Face {
  std::size_t sheet;
  bool outer;
};
Face face_of_surface(const Job& job, const std::string& key, const std::vector<Sheet>& sheets) {
  const std::size_t lites = lites_of(sheets);
  const int surface = instance_number("surface." + need_word(job, key));
  if (surface < 1 || static_cast<std::size_t>(surface) > 2 * lites) {
    throw BadInput("{}: {} = {}: the glazing has surfaces 1 to {}", job.source, key, surface, 2 * lites);
  }
  const std::size_t lite = static_cast<std::size_t>(surface - 1) / 2;
  const bool outer = surface % 2 == 1;
  std::size_t sheet = 0;
  while (sheets[sheet].panel || sheets[sheet].lite != lite || (!outer && sheets[sheet].ply + 1 < sheets[sheet].plies))
    ++sheet;
  return {sheet, outer};
}

// Over what is there already.
void put_on_face(GlazingState& state, Face face, const Interface& layer, double emissivity) {
  Interface& interface = face.outer ? state.optics[face.sheet].outer_face : state.optics[face.sheet].inner_face;
  interface = laid_over(layer, interface);
  ThermalLite& lite = state.thermal.lites[face.sheet];
  (face.outer ? lite.emissivity_outer : lite.emissivity_inner) = emissivity;
}

GlazingState glazing_without_film(const Job& job, const std::vector<Sheet>& sheets, const Reference& reference) {
  GlazingState state;
  state.thermal.height_m = need_number(job, "pane.height");
  state.thermal.material = {constant(reference, "glass_conductivity_w_mk"), constant(reference, "glass_density_kg_m3"),
                            constant(reference, "glass_specific_heat_j_kgk")};
  const std::size_t lites = lites_of(sheets);
  for (const Sheet& sheet : sheets) {
    if (sheet.panel) {
      add_panel(job, reference, state);
      continue;
    }
    if (sheet.ply > 0) continue;
    if (sheet.lite > 0) {
      const std::size_t k = sheet.lite - 1;
      state.thermal.cavities.push_back(
          {need_number(job, cavity_key(k, "width")), row_named(reference.gases, need_word(job, cavity_key(k, "gas")))});
    }
    add_lite(job, sheet.lite, sheet.plies, reference, state);
  }
  for (std::size_t lite = 0; lite < lites; ++lite) {
    const std::string kind = need_word(job, lite_key(lite, "coating"));
    if (kind == "none") continue;
    const Coating& coating = row_named(reference.coatings, kind);
    put_on_face(state, face_of_surface(job, lite_key(lite, "coating_surface"), sheets),
                {coating.tau, coating.rho_glass, coating.rho_air}, coating.emissivity);
  }
  return state;
}

// A film of the job: the face it goes on, and what its sheet may mean.
struct Film {
  Face face;
  std::vector<Interface> readings;
  double emissivity;
};

Film film_of(const Job& job, const std::string& table, Run run, const std::vector<Sheet>& sheets,
             const Reference& reference) {
  Film film{face_of_surface(job, table + ".surface", sheets), film_readings(job, table, run, reference),
            need_number(job, table + ".emissivity")};
  const double weathering = number_of(job, table + ".weathering").value_or(0.0);
  for (Interface& reading : film.readings) reading = weathered(reading, weathering);
  return film;
}

// One state a reading of the film's sheet.
std::vector<GlazingState> with_film(const GlazingState& under, const Film& film) {
  std::vector<GlazingState> filmed(film.readings.size(), under);
  for (std::size_t i = 0; i < filmed.size(); ++i) put_on_face(filmed[i], film.face, film.readings[i], film.emissivity);
  return filmed;
}

// What a blind, or a sign on the room face, sends back of the sun that gets through to it, and what it takes up.
struct Behind {
  double reflectance, absorptance;
};
Behind behind_of(const Job& job, const RoomSide& room) {
  if (word_of(job, "sign.side").value_or("none") != "inside")
    return {room.back_reflectance(), room.shade.closure * room.shade_absorptance};
  return {need_number(job, "sign.reflectance"), 1.0};  // nothing passes it
}

// What the lites that are filmed take up together, with what lies right behind the glass.
double taken_up(const GlazingState& state, const Film& film, const std::optional<Film>& second, const Behind& behind) {
  const Absorption absorption = absorb_beam(state.optics, 0.0, behind.reflectance);
  const Glazing::Joined lite = state.thermal.joined(film.face.sheet);
  double sum = lite_absorptance(absorption, lite) + absorption.transmitted * behind.absorptance;
  if (second && (second->face.sheet < lite.first || second->face.sheet > lite.last))
    sum += lite_absorptance(absorption, state.thermal.joined(second->face.sheet));
  return sum;
}

// The glass as it stands and with its film; a second film is on it already or goes on with the film, under it where
// both share a face. With several readings of their sheets, those with which most of the sun is taken up once both are
// on: a second film that is read as a mirror would keep the sun from the film over it, and a film that is read as one
// from the blind or sign behind.
void lay_films(const Job& job, Run run, const Reference& reference, Case& pane) {
  const Film film = film_of(job, "film", run, pane.sheets, reference);
  const Behind behind = behind_of(job, pane.room);
  std::optional<Film> second;
  if (word_of(job, "second_film.surface")) second = film_of(job, "second_film", run, pane.sheets, reference);
  GlazingState under;
  double most = -1.0;
  for (const GlazingState& below : second ? with_film(pane.before, *second) : std::vector{pane.before}) {
    for (const GlazingState& filmed : with_film(below, film)) {
      const double absorbed = taken_up(filmed, film, second, behind);
      if (absorbed <= most) continue;
      most = absorbed;
      under = below;
      pane.after = filmed;
    }
  }
  if (second && need_word(job, "second_film.already_on") == "yes") pane.before = under;
  pane.filmed_lite = film.face.sheet;
  pane.after.thermal.rim_m = number_of(job, "film.edge_gap").value_or(0.0);
  pane.after.thermal.rim_lite = film.face.sheet;
  if (pane.after.thermal.rim_m > 0.0) pane.after.without_film = under.optics;
}

std::vector<EdgeDescription> edge_descriptions(const Job& job, const std::vector<Sheet>& sheets,
                                               const Glazing& glazing) {
  std::vector<EdgeDescription> edges;
  const std::string finish = need_word(job, "edge.finish");
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    if (sheets[i].panel) {  // nobody has said anything of its edge
      edges.push_back({need_word(job, "panel.treatment"), "float", glazing.lites[i].thickness_m, "hidden", "as-cut"});
      continue;
    }
    const std::size_t lite = sheets[i].lite;
    edges.push_back({need_word(job, lite_key(lite, "treatment")), need_word(job, lite_key(lite, "kind")),
                     glazing.lites[i].thickness_m, finish, finish == "hidden" ? "as-cut" : finish});
  }
  return edges;
}

}  // namespace

std::string panel_of(const Job& job) { return word_of(job, "panel.side").value_or("none"); }

void build_glazing(const Job& job, Run run, const Reference& reference, Case& pane) {
  const int lites = instance_number("glass." + need_word(job, "glass.panes"));
  pane.sheets = sheets_of(job, static_cast<std::size_t>(lites));
  pane.before = glazing_without_film(job, pane.sheets, reference);
  lay_films(job, run, reference, pane);
  pane.strengths = edge_descriptions(job, pane.sheets, pane.before.thermal);
}

}  // namespace internal

std::size_t lites_of(const std::vector<Sheet>& sheets) {
  std::size_t lites = 0;
  for (const Sheet& sheet : sheets) lites += !sheet.panel && sheet.ply == 0 ? 1 : 0;
  return lites;
}

double lite_absorptance(const Absorption& absorption, Glazing::Joined lite) {
  double sum = 0.0;
  for (std::size_t sheet = lite.first; sheet <= lite.last; ++sheet) sum += absorption.lites[sheet].total();
  return sum;
}

}  // namespace sunstrain
