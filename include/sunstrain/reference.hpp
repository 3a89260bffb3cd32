// The tables the engine runs on. Every row comes from a file in reference/ and carries its source.
// The library never reads a file: src/io/reference_load.cpp parses the copies embedded in the binary.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/condition.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/language.hpp"

namespace sunstrain {

// How far a figure may be trusted: read in the source named, recalled from memory of it, computed
// here from sources named, common practice without a source, or our own judgement.
enum class Certainty { read, recalled, derived, common_practice, judgement };

struct Source {
  std::string text;
  Certainty certainty = Certainty::read;
};

// ---- job keys (reference/job_keys.toml) ---------------------------------------------------------

// How a key is taken when nobody knows it: the first row whose `when` holds for what is known.
struct Taking {
  Condition when;          // on the job's other keys
  std::vector<Value> bad;  // plausible values; the run at the bad end keeps the worst of them
  Value middle;            // the most likely value, for the middle run
  std::string why;         // one phrase for the printed answer
};

struct JobKey {
  enum class Kind {
    text,
    choice,
    length,
    thickness,
    temperature,
    difference,  // of two temperatures, K ("15 K", "27 F")
    fraction,
    angle,
    u_value,  // thermal transmittance, W/m2K
    number,
    years,
    hour,  // of the day, 0 to 24 ("9:30", "2 pm")
    date
  };
  std::string name;  // "lite.*.tint": a star stands for a number from 1 up
  Kind kind = Kind::text;
  std::string unit;                     // of the printed range: "mm", "C", "deg", "-"
  double minimum = 0.0, maximum = 0.0;  // SI, inclusive; for numbers only
  // The words allowed; of an angle, the words that it takes as well ("SE"). Counts are words too: "1", "2".
  std::vector<std::string> choices;
  bool required = false;
  bool whole = false;         // a number that counts something
  bool about_glass = true;    // false: names, notes and papers, never "unknown" in the answer
  bool personal = false;      // may name a person or where one lives
  Condition applies;          // the key has a meaning only when this holds (cavity: two panes)
  std::vector<Taking> taken;  // empty: absent means "none of it" and is not an unknown
  std::string sentence;       // what it is, for --template and messages
  std::string question;       // how to find out, one line
  std::string example;        // a value as one types it
  std::string refused;        // not empty: a figure of the trade that cannot be used, and what to ask instead
};

// ---- glass (reference/glass_solar.csv, glass.toml) -----------------------------------------------

// Solar transmittance at normal incidence of one bare pane of a tint at several thicknesses.
struct TintRow {
  double thickness_m, solar_transmittance;
};
struct Tint {
  std::string name;
  std::vector<TintRow> rows;
  Source source;
};

// A coating as an interface glass/air (optics.hpp), and the long-wave emissivity of its face.
struct Coating {
  std::string name;
  double tau, rho_glass, rho_air, emissivity;
  bool soft;  // does not last in the open air
  Source source;
};

// Solar transmittance of a clear interlayer from glass to glass.
struct Interlayer {
  double thickness_m, transmittance;
  Source source;
};

struct Treatment {  // annealed, heat-strengthened, tempered
  std::string name;
  double allowable_factor;
  double prestress_pa;
  double eta_cap_factor;
  bool annealed;
  Source source;
};
struct GlassKind {
  std::string name;
  double allowable_factor;
  Source source;
};  // float, patterned, wired
struct ThicknessFactor {
  double above_m;
  double allowable_factor;
  Source source;
};
struct EdgeFinish {
  std::string name;
  double allowable_factor;
  double odds_factor;
  Source source;
};
struct NominalThickness {
  double nominal_m, least_m;
  Source source;
};

// How wide the spacers of sealed units are.
struct SpacerWidth {
  double width_m;
  bool usual;  // the everyday ones
  Source source;
};

// ---- frame, spacer, gas, shade ------------------------------------------------------------------

// One contact zone between a lite's face and a frame node, measured from the cut edge inwards
// ("to_m" up to and including) or, with from_sightline, from the sightline outwards.
struct FrameFit {  // the eight fitted numbers of facts edge.md 7.2 for one glazing class
  double outer_area_m, outer_resistance_mk_w, middle_conductance_w_mk, inner_resistance_mk_w, inner_area_m, sun_area_m,
      outer_contact_m2k_w, inner_contact_m2k_w;
  // heat held per metre of edge, J/(m K): outer face, outer node, inner node, inner face
  std::array<double, 4> capacity_j_mk;
  double u_value_w_m2k = 0.0;  // thermal transmittance of its section, ISO 10077-2; 0: body none
};
struct FrameKind {
  std::string name;
  // What conducts through the frame: one material, two metal halves and what joins them, or a wall or joint that has no
  // transmittance of its own.
  enum class Body { none, solid, halves };
  Body body = Body::none;
  FrameFit single, sealed;                                         // one lite; sealed unit
  double seal_thickness_m, seal_height_m, seal_conductivity_w_mk;  // height 0: over the whole bite
  bool outer_lip = true;  // false: structural silicone, the outer lite is bare to its edge
  // Structural silicone only (0 elsewhere): a soft strip on the room face from the bite to this depth, and the
  // half joint between neighboring lites.
  double soft_strip_to_m = 0.0, soft_strip_resistance_m2k_w = 0.0, joint_area_m = 0.0, joint_resistance_mk_w = 0.0;
  Source source;
};
struct FrameColor {
  std::string name;
  double solar_absorptance;
  Source source;
};
struct Spacer {
  std::string name;
  double conductivity_w_mk, seal_conductivity_w_mk;
  Source source;
};

// Gas property = a + b T(K), ISO 15099; `en673` holds the four rows -10, 0, 10, 20 C of EN 673.
struct Gas {
  std::string name;
  double conductivity_a, conductivity_b, viscosity_a, viscosity_b, heat_a, heat_b, molar_mass_kg_mol;
  std::array<double, 4> en673_density, en673_viscosity, en673_conductivity;
  double en673_heat;
  Source source;
};
struct IndoorShade {
  std::string name;
  double solar_reflectance, solar_transmittance, emissivity;
  Source source;
};
struct Ground {
  std::string name;
  double solar_reflectance;
  Source source;
};
struct ReferenceGlass {
  std::string name;
  std::vector<double> thicknesses_m;
  Source source;
};  // film data sheets

// ---- place (reference/places.csv) ----------------------------------------------------------------

struct Place {
  std::string name;
  double latitude_rad, longitude_rad, altitude_m, utc_offset_h;
  double coldest_k;  // 99.6 % heating dry bulb
  double hottest_k;  // 0.4 % cooling dry bulb
  double hottest_month_range_k;
  int tau_edition;  // 2009 or 2013: which coefficients go with the taus
  std::array<double, 12> tau_beam, tau_diffuse, daily_range_k;
  Source source;
};

// ---- rules (reference/rules.toml) ------------------------------------------------------------------

enum class Severity { note, ask, refer };
struct Rule {
  std::string id;         // "W1"
  std::string mechanism;  // one of: weaker edge, colder edge, hotter middle, not modelled, history and consent, on the
                          // day; of a user's own rule it may be empty
  Severity severity = Severity::note;
  Condition when;
  std::string text, training;
  Source source;
  bool users_own = false;
};

// ---- drivers (reference/drivers.toml) ---------------------------------------------------------------

// What is tried on a pane to see what drives its answer.
struct DriverRow {
  enum class Act { can_do, find_out, given };  // on the installed pane or by the film; where not known; neither
  std::string key;                             // "lite.*.treatment": of each lite that there is
  Act act = Act::given;
  std::optional<Value> to;  // what it is compared with, or
  double step = 0.0;        // how far it is moved, SI, not 0
  std::string words, how;
  Source source;
};

struct Constant {
  double value;
  std::string unit, note;
  Source source;
};

// ---- hand methods and published limits (reference/hand_methods.toml) ------------------------------

struct HandMethod {
  std::string name;
  double stress_pa_per_k;
  std::string limit;  // a PublishedLimit's `published`
  Source source;
};
struct HandNetwork {
  std::string name;
  double outdoor_w_m2k, room_w_m2k, cavity_w_m2k;
  Source source;
};
struct NamedFactor {
  std::string name;
  double factor;
  Source source;
};
struct CurtainFactor {
  std::string name;
  double near, far, far_from_m;  // far: so far from the glass, and over
  Source source;
};
struct AreaFactor {
  std::string name;
  std::vector<double> area_m2, factor;  // ascending; straight between them, level beyond
  Source source;
};
// One of stress_pa and difference_k is over 0.
struct PublishedLimit {
  std::string name, published, treatment, kind;  // kind empty: any that has no row of its own
  double above_m, stress_pa, difference_k;
  Source source;
};
struct HandTables {
  std::vector<HandMethod> methods;
  std::vector<HandNetwork> networks;
  std::vector<NamedFactor> shadow_factors, glazing_factors;
  std::vector<CurtainFactor> curtain_factors;
  std::vector<AreaFactor> area_factors;
  std::vector<PublishedLimit> limits;
};

// A file of a user's own rules; all of them are among Reference::rules.
struct OwnRules {
  std::string file;
  std::string version;  // fingerprint of its text
  std::size_t count = 0;
};

// ---- samples (reference/samples.toml) ----------------------------------------------------------------

// What samples draw beside a job's unknown keys, where `when` holds: it lies at value[i] or below with the likelihood
// chance[i], which goes from 0 to 1; straight between two of them.
struct Draw {
  enum class Of {
    air_k,                   // outdoor air above the design days'
    beam_depth,              // of a clear sky, times this
    wind_m_s,                // near the glass
    frame_beam_share,        // 0 to 1
    bottom_colder_k,         // Case::bottom_edge_colder_k
    film_reflectance,        // 0 to 1: from the least that leaves a possible film to the most
    second_film_reflectance  // the same
  };
  std::string name;
  Of of;
  Condition when;
  std::vector<double> chance, value;  // ascending
  std::string asks;                   // the job key that finds it out; empty: nobody can know it beforehand
  Source source;
};

// ---- pictures (reference/warmth_scale.csv) -------------------------------------------------------------

// A color of the scale from cool (share 0) to warm (1); red, green, blue 0 to 1 (sRGB).
struct ScaleColor {
  double share, red, green, blue;
  Source source;
};

struct Reference {
  Language language;    // of the sentences in the tables, and of what is said of an answer
  std::string version;  // of the tables in English: a fingerprint
  std::optional<OwnRules> own_rules;
  std::vector<JobKey> job_keys;
  std::string template_of = "check";  // the command whose --template lists them
  std::vector<Tint> tints;
  std::vector<Coating> coatings;
  std::vector<Interlayer> interlayers;
  std::vector<Treatment> treatments;
  std::vector<GlassKind> glass_kinds;
  std::vector<ThicknessFactor> thickness_factors;
  std::vector<EdgeFinish> edge_finishes;
  std::vector<NominalThickness> nominal_thicknesses;
  std::vector<SpacerWidth> spacer_widths;
  std::vector<FrameKind> frames;
  std::vector<FrameColor> frame_colors;
  std::vector<Spacer> spacers;
  std::vector<Gas> gases;
  std::vector<IndoorShade> indoor_shades;
  std::vector<Ground> grounds;
  std::vector<ReferenceGlass> reference_glasses;
  std::vector<Place> places;
  std::vector<Rule> rules;
  std::vector<DriverRow> drivers;
  HandTables hand;
  std::vector<Draw> draws;
  std::vector<ScaleColor> warmth_scale;                    // from cool to warm, two or more
  std::map<std::string, Constant, std::less<>> constants;  // reference/constants.toml
};

// The value of a named constant, in the SI unit that its row states. Throws std::out_of_range with the name.
double constant(const Reference& reference, std::string_view name);

// The row called `name`. Throws BadInput naming the table's rows when there is none.
template <class Row>
const Row& row_named(const std::vector<Row>& rows, std::string_view name) {
  for (const Row& row : rows) {
    if (row.name == name) return row;
  }
  std::string known;
  for (const Row& row : rows) known += (known.empty() ? "" : ", ") + row.name;
  throw BadInput("\"{}\" is not one of: {}", name, known);
}

}  // namespace sunstrain
