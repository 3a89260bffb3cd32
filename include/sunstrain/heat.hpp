// How hot each lite is at its middle and towards its edge, and the frame, step by step through a day.
//
// Every lite is a strip that conducts from its cut edge to its middle. In the frame's bite its faces
// touch two frame nodes (outdoor half, room half); the lites of a sealed unit meet through the
// spacer. The far end of the strip is the middle of the pane. theory.md "Heat" and "Edge".
// One such strip ("line") is worked for glass in the sun and one for glass in shadow.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "sunstrain/per_lite.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

inline constexpr double stefan_boltzmann_w_m2k4 = 5.670374419e-8;  // CODATA 2018, exact from defined constants
inline constexpr double gravity_m_s2 = 9.81;                       // as ISO 15099 and EN 673 take it

// ---- gas in a cavity --------------------------------------------------------------------------------

struct GasState {
  double conductivity_w_mk, viscosity_pa_s, heat_j_kgk, density_kg_m3;
};

// Properties at a temperature and pressure: linear polynomials and the ideal gas law. ISO 15099, Annex B.
GasState gas_state(const Gas& gas, double temperature_k, double pressure_pa = 101325.0);

// Convective conductance across a vertical cavity between two faces, W/m2K. width_m > 0, height_m > 0.
// ISO 15099 5.3.3.5 (vertical). Never less than conduction.
double cavity_convection_w_m2k(const Gas& gas, double width_m, double height_m, double face1_k, double face2_k);

// Long-wave exchange between two parallel faces as a conductance, W/m2K:
// sigma (T1^2 + T2^2)(T1 + T2)/(1/e1 + 1/e2 - 1).
double cavity_radiation_w_m2k(double emissivity1, double emissivity2, double face1_k, double face2_k);

// The declared way: EN 673 convective conductance at mean temperature T_m and difference dT (vertical).
double cavity_convection_en673_w_m2k(const Gas& gas, double width_m, double mean_k, double difference_k);

// ---- the glazing --------------------------------------------------------------------------------------

struct ThermalLite {
  double thickness_m, emissivity_outer, emissivity_inner;
};
// What lies between two sheets of glass: gas, or the interlayer that joins two plies.
struct ThermalCavity {
  double width_m;
  Gas gas;
  double solid_w_mk = 0.0, solid_j_m3k = 0.0;  // of an interlayer; 0: gas
  bool solid() const { return solid_w_mk > 0.0; }
  // Before a panel: the two stand in rebates of their own, without a spacer; air may stream through slots of this
  // height at head and sill, from the room or from outdoors.
  bool apart = false;
  double opening_m = 0.0;
  bool to_room = false;
};
struct GlassMaterial {
  double conductivity_w_mk, density_kg_m3, specific_heat_j_kgk;
};

struct Glazing {
  std::vector<ThermalLite> lites;  // sheets of glass, outdoors to indoors, one or more; of a laminated lite its plies
  std::vector<ThermalCavity> cavities;  // one fewer than lites
  double height_m;                      // of the visible pane: sets the convection
  GlassMaterial material;
  // A film that stops short of the sightline leaves a bare rim this wide on its lite.
  double rim_m = 0.0;
  std::size_t rim_lite = 0;

  // The sheets, first and last, that interlayers join to this one.
  struct Joined {
    std::size_t first, last;
  };
  Joined joined(std::size_t sheet) const {
    Joined lite{sheet, sheet};
    while (lite.first > 0 && cavities[lite.first - 1].solid()) --lite.first;
    while (lite.last < cavities.size() && cavities[lite.last].solid()) ++lite.last;
    return lite;
  }
};

// Declared U-value, W/m2K. EN 673 (he 25, hi from the room-side emissivity, 15 K over the cavities, mean 10 C).
double u_value_en673_w_m2k(const Glazing& glazing);

// A blind or drape near the glass: its cover of the pane (0 to 1), its gap, open or tight at head and sill.
struct RoomShade {
  double closure = 0.0, gap_m = 0.05, emissivity = 0.9;
  bool vented = true;
};

// What surrounds the glazing in one step, and the sun it takes up.
struct FaceSources {
  double outer_face_w_m2, bulk_w_m2, inner_face_w_m2;
};
struct StepLoads {
  double outdoor_air_k, outdoor_convection_w_m2k, sky_k,
      sky_view;                                              // the rest of the outdoor view is at air temperature
  double room_air_k, room_radiant_k, room_convection_w_m2k;  // convection 0: natural, from the temperatures
  PerLite<FaceSources> absorbed;
  double shade_absorbed_w_m2;  // by the blind, per area of blind
  double frame_absorbed_w_m2;  // by the frame's outer face
  double rim_less_w_m2 = 0.0;  // how much less the bare rim absorbs than the filmed lite does
};

// One linearized exchange with a surrounding: q = conductance (T - temperature).
struct Exchange {
  double conductance_w_m2k, temperature_k;
};

// Room side of the glass, W/m2K and effective temperature: natural convection (ISO 15099 8.3.2.2) or the
// forced value, radiation, and a blind's ventilated gap (ISO 15099 clause on ventilated layers).
Exchange room_exchange(double face_k, double face_emissivity, double height_m, const StepLoads& loads,
                       const RoomShade& shade, const Gas& air);
// Outdoor side: convection plus long-wave to sky and surroundings.
Exchange outdoor_exchange(double face_k, double face_emissivity, const StepLoads& loads);

// The exchanges of one step in the middle of the pane, settled with its temperatures.
struct CenterBalance {
  PerLite<double> mean_k;                 // mean through the thickness
  PerLite<std::array<double, 2>> face_k;  // outer, inner face
  Exchange outdoor, room;                 // at the faces; `room` behind the blind where there is one
  Exchange open_room;                     // without a blind: what the frame beside it exchanges with
  PerLite<double> cavity_w_m2k;           // face to face, per cavity
  // Of a cavity that air streams through: from each of its faces to the air that comes in, and that air; else 0.
  PerLite<double> stream_w_m2k, stream_k;
};

// Steady balance of the middle of the pane (no storage, no edge).
CenterBalance steady_center(const Glazing& glazing, const StepLoads& loads, const RoomShade& shade, const Gas& air);

// Net heat from the glazing into the room, W/m2, of a center balance (transmitted sun not included).
double heat_into_room_w_m2(const CenterBalance& balance, double room_face_k);

// ---- the edge ------------------------------------------------------------------------------------------

struct EdgeSection {
  FrameKind frame;
  bool sealed;    // which fit of the frame's numbers
  double bite_m;  // depth of glass behind the sightline
  Spacer spacer;
  double pocket_conductivity_w_mk, edge_clearance_m, butyl_thickness_m, butyl_conductivity_w_mk;
  double spacer_from_m, spacer_to_m;                // from the cut edge
  double room_corner_factor, room_corner_length_m;  // weaker room-side film next to the sightline
  // Panels before the pane, one sheet each, in the outer or the inner half of the frame; the fit is the pane's own.
  std::size_t panels_outdoors = 0, panels_indoors = 0;
};

// One strip in one step. Temperatures are means through the thickness.
struct LineStep {
  CenterBalance center;
  std::vector<double> cell_k;     // [lite * cells + cell], from the cut edge to the middle
  std::array<double, 4> frame_k;  // outer face, outer node, inner node, inner face
  double residual_w_m;            // energy that the step's balance leaves over, per metre of edge
  double exchanged_w_m;           // absorbed sun plus gross exchange, per metre of edge
};

// One strip through a day, or through the part of it that begins with first_step: what is told of a step stands at
// [step - first_step].
struct LineDay {
  std::size_t first_step = 0;
  std::vector<double> depth_m;  // of each cell's middle, from the cut edge
  std::size_t lites = 0;
  std::vector<double> cell_k;             // [(step * lites + lite) * cells + cell]
  std::vector<double> mean_k;             // [step * lites + lite]: in the middle of the pane
  std::vector<double> face_difference_k;  // [step * lites + lite]: there, outdoor face less room face
  std::vector<Exchange> outdoor, room;
  std::vector<double> cavity_w_m2k;  // [step * (lites - 1) + cavity]
  std::vector<std::array<double, 4>> frame_k;
  std::vector<double> residual_w_m, exchanged_w_m;

  std::size_t steps() const { return outdoor.size(); }
  bool tells_of(std::size_t step) const { return step >= first_step && step - first_step < steps(); }
  std::span<const double> strip(std::size_t step, std::size_t lite) const {
    return std::span(cell_k).subspan(((step - first_step) * lites + lite) * depth_m.size(), depth_m.size());
  }
  double between_faces_k(std::size_t step, std::size_t lite) const {
    return face_difference_k[(step - first_step) * lites + lite];
  }
};

struct Line {
  Glazing glazing;
  EdgeSection edge;
  RoomShade shade;
  Gas air;
};

// How carefully a day is marched, K: what no face of the middle moves by in the last round of its balance (rounds close
// in by a factor of four and more, so 5e-4 leaves 0.0001 K), what a blind's balance leaves over, and by how much the
// end of a day may miss its beginning (0.05 K are 0.03 MPa).
struct MarchCare {
  double settled_k = 5e-4, blind_settled_k = 1e-6, closed_k = 0.05;
};

// Marches the strip through one day of equal steps, repeated until the day closes on itself
// (MarchCare::closed_k at midnight, 12 days at most), by the second-order backward formula (BDF2).
// The loads' `absorbed` must have one entry a lite. Throws std::invalid_argument on shapes that differ.
LineDay march_day(const Line& line, std::span<const StepLoads> loads, double step_s);

// Many days of one line, side by side: each comes out to the last bit as march_day gives it alone. All of the same
// number of steps. `into` may hold days of before: their storage is used again.
void march_days(const Line& line, std::span<const std::vector<StepLoads>> days, double step_s,
                std::vector<LineDay>& into, MarchCare care = {});

// Where days of one line would have gone under other loads from first_step on: loads[i] are those of day i's steps from
// there, equally many for all. Both states before first_step are the day's own (it is taken to repeat).
void march_aside(const Line& line, std::span<const LineDay> days, std::span<const std::vector<StepLoads>> loads,
                 std::size_t first_step, double step_s, std::vector<LineDay>& into, MarchCare care = {});

// Stretches of real weather of one line, side by side, each once through from a steady start. The first lead_in steps
// of each let it forget that start (two days for a light frame, more for masonry) and are not kept. All of the same
// number of steps.
void march_spans(const Line& line, std::span<const std::vector<StepLoads>> spans, std::size_t lead_in, double step_s,
                 std::vector<LineDay>& into);

// The steady strip for one set of loads: for checks.
LineStep steady_line(const Line& line, const StepLoads& loads, std::vector<double>& depth_m);

}  // namespace sunstrain
