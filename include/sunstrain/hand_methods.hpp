// The same pane by hand methods of national standards, and against published limits: beside the answer, never over it.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// What a hand method asks of one lite in one hour.
struct HandCase {
  std::vector<double> absorbed_w_m2;  // of every lite in the sun, outdoors first
  std::size_t lite = 0;               // the one that is judged
  double outdoor_k, room_k;
  std::string shadow;                 // a row of the shadow factors: a pattern, "none" or "moving"
  std::string curtain = "none";       // a row of the curtain factors
  double curtain_gap_m = 0.0;         // from the glass
  std::string frame;                  // a row of the glazing factors
  double area_m2;                     // of the visible pane
  std::string treatment, glass_kind;  // of the lite
  double thickness_m;                 // of the lite
};

// stress = stress_pa_per_k x shadow x curtain x area x glazing x (middle - edge)
struct HandResult {
  std::string method, limit;
  double middle_k, edge_k;
  double shadow_factor, curtain_factor, area_factor, glazing_factor;
  double stress_pa, allowable_pa;  // allowable 0: the method has none for this glass
};

// By every method of the tables. middle: steady balance of the lites between outdoors and room, each with its absorbed
// sun, through the tables' film coefficients; edge: outdoor and room temperature in the shares h_o and h_i of their
// sum. Throws BadInput naming the rows where a name is none of the table's, std::invalid_argument for no lites.
std::vector<HandResult> by_hand(const HandCase& pane, const Reference& reference);

// How much of each published limit for this glass an edge stress, or the difference of middle and edge, takes up.
struct LimitUsed {
  std::string published;
  double stress_pa = 0.0, difference_k = 0.0;  // the limit: one of them
  double used;                                 // share
  Source source;
};
std::vector<LimitUsed> limits_used(double stress_pa, double difference_k, const std::string& treatment,
                                   const std::string& glass_kind, double thickness_m, const Reference& reference);

}  // namespace sunstrain
