#include "center_balance.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace sunstrain {
namespace internal {
namespace {

// Half the glass lies between a lite's mean and each of its faces.
double half_resistance_m2k_w(const Glazing& glazing, std::size_t lite) {
  return 0.5 * glazing.lites[lite].thickness_m / glazing.material.conductivity_w_mk;
}

void renew_exchanges(const Glazing& glazing, const StepLoads& loads, const RoomShade& shade, const Gas& air,
                     CenterBalance& balance) {
  balance.outdoor = outdoor_exchange(balance.face_k.front()[0], glazing.lites.front().emissivity_outer, loads);
  balance.room = room_exchange(balance.face_k.back()[1], glazing.lites.back().emissivity_inner, glazing.height_m, loads,
                               shade, air);
  balance.open_room = shade.closure > 0.0
                          ? room_exchange(balance.face_k.back()[1], glazing.lites.back().emissivity_inner,
                                          glazing.height_m, loads, {}, air)
                          : balance.room;
  for (std::size_t k = 0; k < glazing.cavities.size(); ++k) {
    const double from_k = balance.face_k[k][1], to_k = balance.face_k[k + 1][0];
    balance.cavity_w_m2k[k] =
        cavity_radiation_w_m2k(glazing.lites[k].emissivity_inner, glazing.lites[k + 1].emissivity_outer, from_k, to_k) +
        cavity_convection_w_m2k(glazing.cavities[k].gas, glazing.cavities[k].width_m, glazing.height_m, from_k, to_k);
  }
}

// Exchanges that swing between two values (a buoyant stream that reverses, say) meet in between.
void halve_change(const CenterBalance& before, CenterBalance& balance) {
  const auto meet = [](const Exchange& a, Exchange& b) {
    b = {0.5 * (a.conductance_w_m2k + b.conductance_w_m2k), 0.5 * (a.temperature_k + b.temperature_k)};
  };
  meet(before.outdoor, balance.outdoor);
  meet(before.room, balance.room);
  for (std::size_t k = 0; k < balance.cavity_w_m2k.size(); ++k) {
    balance.cavity_w_m2k[k] = 0.5 * (before.cavity_w_m2k[k] + balance.cavity_w_m2k[k]);
  }
}

// The lites' means for given exchanges: a tridiagonal system, a lite a row (Thomas algorithm).
void solve_means(const Glazing& glazing, const StepLoads& loads, const Storage& storage, CenterBalance& balance) {
  const std::size_t n = glazing.lites.size();
  double diagonal[8], coupling[8], right[8];
  for (std::size_t j = 0; j < n; ++j) {
    const double capacity = heat_capacity_j_m2k(glazing, j);
    diagonal[j] = capacity * storage.weight_per_s;
    right[j] = loads.absorbed[j].bulk_w_m2;
    if (storage.weight_per_s > 0.0) right[j] += capacity * storage.history_k_per_s[j];
    coupling[j] = 0.0;
  }
  const auto surface = [&](std::size_t j, const Exchange& exchange, double source) {
    const double path = 1.0 + half_resistance_m2k_w(glazing, j) * exchange.conductance_w_m2k;
    diagonal[j] += exchange.conductance_w_m2k / path;
    right[j] += exchange.conductance_w_m2k / path * exchange.temperature_k + source / path;
  };
  surface(0, balance.outdoor, loads.absorbed.front().outer_face_w_m2);
  surface(n - 1, balance.room, loads.absorbed.back().inner_face_w_m2);
  for (std::size_t k = 0; k + 1 < n; ++k) {
    // Q = (Tj - T2 + ra Sa - rb Sb)/(ra + 1/h + rb) from lite to lite; the sources sit on the two faces.
    const double ra = half_resistance_m2k_w(glazing, k), rb = half_resistance_m2k_w(glazing, k + 1);
    const double u = 1.0 / (ra + 1.0 / balance.cavity_w_m2k[k] + rb);
    const double sa = loads.absorbed[k].inner_face_w_m2, sb = loads.absorbed[k + 1].outer_face_w_m2;
    diagonal[k] += u;
    diagonal[k + 1] += u;
    coupling[k] = u;
    right[k] += sa - u * (ra * sa - rb * sb);
    right[k + 1] += sb + u * (ra * sa - rb * sb);
  }
  for (std::size_t j = 1; j < n; ++j) {
    const double factor = coupling[j - 1] / diagonal[j - 1];
    diagonal[j] -= factor * coupling[j - 1];
    right[j] += factor * right[j - 1];
  }
  for (std::size_t j = n; j-- > 0;) {
    balance.mean_k[j] = (right[j] + (j + 1 < n ? coupling[j] * balance.mean_k[j + 1] : 0.0)) / diagonal[j];
  }
}

void renew_faces(const Glazing& glazing, const StepLoads& loads, CenterBalance& balance) {
  const std::size_t n = glazing.lites.size();
  const auto surface_k = [&](std::size_t j, const Exchange& exchange, double source) {
    const double r = half_resistance_m2k_w(glazing, j);
    return (balance.mean_k[j] + r * (exchange.conductance_w_m2k * exchange.temperature_k + source)) /
           (1.0 + r * exchange.conductance_w_m2k);
  };
  balance.face_k.front()[0] = surface_k(0, balance.outdoor, loads.absorbed.front().outer_face_w_m2);
  balance.face_k.back()[1] = surface_k(n - 1, balance.room, loads.absorbed.back().inner_face_w_m2);
  for (std::size_t k = 0; k + 1 < n; ++k) {
    const double ra = half_resistance_m2k_w(glazing, k), rb = half_resistance_m2k_w(glazing, k + 1);
    const double sa = loads.absorbed[k].inner_face_w_m2, sb = loads.absorbed[k + 1].outer_face_w_m2;
    const double across =
        (balance.mean_k[k] - balance.mean_k[k + 1] + ra * sa - rb * sb) / (ra + 1.0 / balance.cavity_w_m2k[k] + rb);
    balance.face_k[k][1] = balance.mean_k[k] - ra * (across - sa);
    balance.face_k[k + 1][0] = balance.mean_k[k + 1] + rb * (across + sb);
  }
}

}  // namespace

double heat_capacity_j_m2k(const Glazing& glazing, std::size_t lite) {
  return glazing.material.density_kg_m3 * glazing.material.specific_heat_j_kgk * glazing.lites[lite].thickness_m;
}

CenterBalance first_guess(const Glazing& glazing, const StepLoads& loads) {
  const std::size_t n = glazing.lites.size();
  CenterBalance guess;
  guess.cavity_w_m2k.resize(glazing.cavities.size());
  for (std::size_t j = 0; j < n; ++j) {
    const double share = (static_cast<double>(j) + 0.5) / static_cast<double>(n);
    const double t = loads.outdoor_air_k + share * (loads.room_air_k - loads.outdoor_air_k);
    guess.mean_k.push_back(t);
    guess.face_k.push_back({t - 0.1, t + 0.1});
  }
  return guess;
}

void settle_center(const Glazing& glazing, const StepLoads& loads, const RoomShade& shade, const Gas& air,
                   const Storage& storage, CenterBalance& balance) {
  constexpr double settled_k = 1e-5;
  constexpr int rounds = 400, patience = 30;
  CenterBalance before;
  auto faces = balance.face_k;
  for (int round = 0; round < rounds; ++round) {
    if (round >= patience) before = balance;
    renew_exchanges(glazing, loads, shade, air, balance);
    if (round >= patience) halve_change(before, balance);
    faces = balance.face_k;
    solve_means(glazing, loads, storage, balance);
    renew_faces(glazing, loads, balance);
    double change = 0.0;
    for (std::size_t lite = 0; lite < faces.size(); ++lite) {
      for (std::size_t side = 0; side < 2; ++side) {
        change = std::max(change, std::abs(balance.face_k[lite][side] - faces[lite][side]));
      }
    }
    if (change < settled_k) return;
  }
  throw std::runtime_error("the heat balance of the middle of the pane did not settle");
}

}  // namespace internal

CenterBalance steady_center(const Glazing& glazing, const StepLoads& loads, const RoomShade& shade, const Gas& air) {
  CenterBalance balance = internal::first_guess(glazing, loads);
  internal::settle_center(glazing, loads, shade, air, {}, balance);
  return balance;
}

double heat_into_room_w_m2(const CenterBalance& balance, double room_face_k) {
  return balance.room.conductance_w_m2k * (room_face_k - balance.room.temperature_k);
}

}  // namespace sunstrain
