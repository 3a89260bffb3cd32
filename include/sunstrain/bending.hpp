// What a difference of temperature through the thickness does to a lite whose frame keeps its edges straight.
#pragma once

#include "sunstrain/stress.hpp"

namespace sunstrain {

// Tension along the edge on the colder face, Pa, of a rectangular plate whose edges cannot leave their plane but are
// free to turn, as gaskets on both faces keep them. between_faces_k: of the one face less the other, K, the same all
// over; its sign does not matter. Free edges would bend to a dish without stress. With the moment along a straight edge
// M = alpha dT D (1 - nu^2)/h, D = E h^3/(12 (1 - nu^2)), sigma = 6 M/h^2:
//   sigma = E alpha dT/2, whatever the thickness and the sides.
// Source: S. P. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, simply supported rectangular plates
// heated nonuniformly (recalled, not read from the book).
double held_straight_pa(double between_faces_k, PaneElasticity elasticity);

}  // namespace sunstrain
