// A job with nothing left open: every quantity that the physics needs, in SI. One case is one run of the
// chain: at the bad end (unknowns at their worst plausible value) or in the middle (most likely value).
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sunstrain/heat.hpp"
#include "sunstrain/optics.hpp"
#include "sunstrain/strength.hpp"
#include "sunstrain/stress.hpp"
#include "sunstrain/sun.hpp"

namespace sunstrain {

enum class Run { bad_end, middle };

// Where the beam reaches the glass. Lengths from the lower left corner of the visible pane, seen from outdoors.
struct ShadowPlan {
  enum class Pattern { none, head_band, side_band, l_shape, half, diagonal, narrow_frame, sun_patch };
  Pattern pattern = Pattern::none;                         // one that stands still all day
  double share = 0.0;                                      // of the pane's dimension, 0 to 1
  double pass = 0.0;                                       // of the beam, through that shadow (a tree, a lattice)
  std::optional<double> leafless_pass;                     // the same from leaf fall to bud: see in_month()
  bool southern = false;                                   // of the equator, which swaps the seasons
  double overhang_depth_m = 0.0, overhang_height_m = 0.0;  // projects, and sits this far above the glass
  double reveal_depth_m = 0.0;                             // the glass stands back by this from the face of the wall
  // Upright fins, seen from outdoors: they project from the wall, so far beside the glass.
  double left_fin_depth_m = 0.0, left_fin_distance_m = 0.0, right_fin_depth_m = 0.0, right_fin_distance_m = 0.0;
  double wall_distance_m = 0.0,
         wall_height_m = 0.0;  // a long wall opposite, its top so far above the bottom of the glass
  // An insect screen outdoors over half of the pane, and the share of the beam that it lets through.
  enum class Screen { none, bottom_half, left_half, right_half };
  Screen screen = Screen::none;
  double screen_pass = 1.0;
  // A part of the pane that takes up sun or gives off heat otherwise than the rest (GlazingState::other): a rectangle
  // in shares of the visible pane, 0 to 1, and what makes it so: "half-drawn blind", "sign", "sash in front", "bare
  // part".
  struct Part {
    std::string name;
    double left = 0.0, right = 1.0, bottom = 0.0, top = 1.0;
  };
  std::optional<Part> part;
  // Glazing bars that stand on the glass outdoors, evenly spaced, each so wide and so far out: upright and across.
  int upright_bars = 0, bars_across = 0;
  double bar_width_m = 0.0, bar_depth_m = 0.0;
  bool moves_sideways() const {
    return upright_bars > 0 || reveal_depth_m > 0.0 || left_fin_depth_m > 0.0 || right_fin_depth_m > 0.0;
  }
  bool moves() const { return bars_across > 0 || overhang_depth_m > 0.0 || wall_distance_m > 0.0 || moves_sideways(); }
  bool stands_still() const { return pattern != Pattern::none || screen != Screen::none; }  // some of it does
  bool any() const { return stands_still() || moves(); }
  bool uneven() const { return any() || part.has_value(); }
  // The plan as it is in a month: trees are bare in the winter half.
  ShadowPlan in_month(int month) const {
    ShadowPlan plan = *this;
    if (leafless_pass && in_winter_half(month, southern)) plan.pass = *leafless_pass;
    return plan;
  }
  // At every moment the light mirrors itself about the middle of the pane's width.
  bool mirrored_in_x() const {
    return !moves_sideways() && (pattern == Pattern::none || pattern == Pattern::head_band) &&
           (screen == Screen::none || screen == Screen::bottom_half) &&
           (!part || (part->left == 0.0 && part->right == 1.0));
  }
};

struct OtherPart;

// The glazing with or without its film: what optics and heat see.
struct GlazingState {
  std::vector<OpticalLite> optics;
  Glazing thermal;
  std::vector<OpticalLite> without_film{};   // where thermal.rim_m says that a rim is bare; else empty
  std::size_t optics_before = 0;             // so many of the optics are those of a sash in front, not of the glazing
  std::shared_ptr<const OtherPart> other{};  // over ShadowPlan::part; null: as everywhere
};

// What a sheet of glass is: a lite of the pane or one of the plies of a laminated lite, both counted from outdoors, or
// a panel before the pane (then `lite` says nothing).
struct Sheet {
  std::size_t lite = 0, ply = 0, plies = 1;
  bool panel = false;
};
std::size_t lites_of(const std::vector<Sheet>& sheets);  // of the pane

// What a lite absorbs of the sun, its plies together.
double lite_absorptance(const Absorption& absorption, Glazing::Joined lite);

struct RoomSide {
  RoomShade shade;
  double shade_reflectance = 0.0, shade_absorptance = 0.0;
  double winter_k, summer_k;  // room air and its surfaces on cold-clear and hot-clear days
  double forced_convection_w_m2k = 0.0, forced_air_k = 0.0;  // a supply vent on the glass; 0: none
  // Something opaque stuck to the room face sends this share of the sun that has passed the glazing back into it, and
  // gives the rest to that face.
  std::optional<double> sign_reflectance{};
  // Of all that lies behind the glazing, for sun.
  double back_reflectance() const { return sign_reflectance.value_or(shade.closure * shade_reflectance); }
};

// A sash that stands outdoors of the glass, across still air: resistances, from its outdoor face, of the sash to the
// middle of each of its lites and to its other face; of that air; and the emissivity of its outdoor face.
struct SashBefore {
  std::vector<double> to_lite_m2kw;
  double own_m2kw, gap_m2kw, emissivity;
};

// What a part of the pane has in place of the rest's glazing and room. As many lites, equally thick.
struct OtherPart {
  GlazingState state;
  RoomSide room;
  std::optional<SashBefore> sash{};
};

struct Case {
  double width_m, height_m;  // visible pane
  double tilt_rad, facing_rad;
  std::vector<Sheet> sheets;               // what the entries of every list of lites here stand for
  GlazingState before, after;              // without and with the film
  std::size_t filmed_lite;                 // the sheet that carries the film
  std::vector<EdgeDescription> strengths;  // per sheet
  EdgeSection edge;
  RoomSide room;
  ShadowPlan shadow;
  Reflectors reflectors;
  Place place;
  double ground_reflectance, winter_ground_reflectance;  // the second on cold-clear days of the winter half-year
  double frame_solar_absorptance, frame_beam_share;
  double outdoor_convection_w_m2k, sky_view;
  double bottom_edge_colder_k;  // of a sealed unit's room-side lite, 0 elsewhere
  bool bottom_is_colder(std::size_t sheet) const {
    return bottom_edge_colder_k > 0.0 &&
           before.thermal.joined(sheet).last + 1 + edge.panels_indoors == before.thermal.lites.size();
  }
  PaneElasticity elasticity;
  double sealed_altitude_m;  // where a sealed unit was closed
  Gas air;
  std::optional<SashBefore> sash{};  // before all of the pane: of a part taken as a pane of its own
};

// Outdoor convection in the wind near the glass, W/m2K: hc = a + b v, v in m/s, at least 0. ISO 6946 and ISO 15099,
// recalled.
double outdoor_convection_w_m2k(double wind_m_s, const Reference& reference);

// Every key that has a meaning for this job and is absent must have been filled by resolve() first.
// Throws BadInput where the values cannot be a pane (a film that cannot be on its reference glass, a
// surface that the unit does not have, ...).
Case build_case(const Job& complete, Run run, const Reference& reference);

// Of a job's shading keys. Throws BadInput where they do not go together.
ShadowPlan shadow_plan(const Job& complete);

// What a film's data sheet may mean, as interfaces, its reference glass taken off. `table`: whose keys, "film" or
// "second_film". One, unless the sheet gives solar absorptance alone: then in the middle run a likely reflectance, at
// the bad end every one that is possible on that glass, of which build_case keeps what makes the filmed glass take up
// most.
std::vector<Interface> film_readings(const Job& complete, const std::string& table, Run run,
                                     const Reference& reference);

// The least and the most solar reflectance that leaves a possible film, of one given by its solar absorptance alone.
// Throws BadInput where there is none.
struct ReflectanceRange {
  double least, most;
};
ReflectanceRange possible_reflectances(const Job& complete, const std::string& table, const Reference& reference);

}  // namespace sunstrain
