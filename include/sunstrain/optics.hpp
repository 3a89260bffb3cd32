// How much of the sun each lite absorbs, with the film on the surface it is on.
// A pane is front interface - glass bulk - back interface; a film or coating is an interface with
// three numbers. The whole glazing is one stack of such elements in flux form. theory.md "Optics".
#pragma once

#include <span>
#include <string>
#include <vector>

namespace sunstrain {

// Refractive index of soda-lime glass used for every interface glass/air (textbooks: 1.526).
inline constexpr double glass_refractive_index = 1.526;

// Reflectance of the face between air and a clear stuff of refractive index n (>= 1) for unpolarized light, angle of
// incidence in the air (rad, 0 to pi/2). Fresnel, the mean of both polarizations.
double fresnel_reflectance(double incidence_rad, double n);

// The boundary between glass and air at normal incidence, bare, coated or filmed.
// tau: transmittance, the same both ways; rho_glass, rho_air: reflectance seen from inside the glass
// and from the air. 0 <= each, tau + rho <= 1.
struct Interface {
  double tau, rho_glass, rho_air;
  bool bare = false;      // Fresnel only: no layer on the glass
  bool in_glass = false;  // glass on the other side as well, and nothing sent back: a part of an interlayer
};

// Bare glass/air: r = ((n-1)/(n+1))^2, tau = 1 - r.
Interface bare_interface();

// Internal (bulk) transmittance t of a bare pane from its solar transmittance T, index 1.526:
// T = (1-r)^2 t / (1 - r^2 t^2) solved for t. 0 < T <= (1-r)/(1+r); throws std::invalid_argument otherwise.
double bulk_transmittance(double solar_transmittance);

// The solar transmittance of a bare pane with bulk transmittance t; inverse of the above.
double bare_transmittance(double bulk_transmittance);

// What a data sheet says of a film on its reference glass, film on the face away from the sun.
struct FilmSheet {
  double solar_transmittance, solar_reflectance, solar_reflectance_film_side;
};

// The film's interface, taken off a reference glass of one pane (bulk transmittance t).
// Closed form: X = (R - r)/((1-r)^2 t^2); rho_g = X/(1 + r t^2 X); D = 1 - r rho_g t^2;
// tau = T D/((1-r) t); rho_a = R_film - tau^2 t^2 r/D. Derived in theory.md.
// Throws std::domain_error with a sentence that names the figure that is wrong when the sheet is
// impossible on that glass (reflectance out of bounds by more than 0.005, negative absorptance beyond 0.015).
// Inside that rounding of a printed sheet the layer is taken as one that absorbs, or reflects, nothing.
Interface film_interface(const FilmSheet& sheet, double reference_bulk_transmittance);

// The same when the sheet was measured with the film on the room face of a clear double unit whose
// two panes have bulk transmittance t each: the inner pane is taken out of the unit first.
Interface film_interface_from_double(const FilmSheet& sheet, double reference_bulk_transmittance);

// A film laid on a face that carries a layer already (a coating, another film), the two as one interface: the layer
// under it keeps what it does in glass and gives up its boundary to air, for adhesive and film have about the index of
// glass. A bare face takes the film as it is. theory.md "Optics"; derived here.
Interface laid_over(const Interface& film, const Interface& under);

// A film outdoors once dirt and wear take up this share (0 to below 1) of what crosses its outer face, on the way in
// and on the way back: tau (1 - w), rho_air (1 - w)^2. Judgement: dirt as a thin layer that scatters nothing back.
Interface weathered(const Interface& film, double taken_up);

// Half of an interlayer, as the face of each of the two plies that it joins: its index is about that of glass, so it
// sends nothing back. interlayer_transmittance: of the whole of it from glass to glass, 0 to 1.
Interface interlayer_half(double interlayer_transmittance);

// One sheet of glass of the glazing as built: a lite, or a ply of a laminated one. outer_face faces outdoors.
struct OpticalLite {
  Interface outer_face, inner_face;
  double bulk_transmittance;  // at normal incidence, of the whole thickness
};

// Fractions of the incident sun, each 0 to 1.
struct LiteAbsorption {
  double outer_face, bulk, inner_face;
  double total() const { return outer_face + bulk + inner_face; }
};
struct Absorption {
  double transmitted;  // leaves the last lite for the room and does not come back (a blind's share counted in)
  double reflected;    // sent back outdoors
  std::vector<LiteAbsorption> lites;  // outdoors to indoors
};

// Sharing out of a beam at an angle of incidence (0 to < pi/2), s and p polarization kept apart
// through the whole stack. back_reflectance: of whatever is behind the last lite (a light blind), 0 to < 1.
// Fresnel for bare faces; a layer's own absorption grows with the path through it (index of glass),
// its reflectance keeps its normal value plus the Fresnel rise of the air boundary.
// Closes: transmitted + reflected + sum of lites = 1 to rounding. 1 to 8 sheets; throws std::invalid_argument.
Absorption absorb_beam(std::span<const OpticalLite> lites, double incidence_rad, double back_reflectance = 0.0);

// The same for diffuse light, isotropic over the hemisphere (Gauss-Legendre over the angle).
Absorption absorb_diffuse(std::span<const OpticalLite> lites, double back_reflectance = 0.0);

}  // namespace sunstrain
