// The middle of the pane, steady: the balance that the marched days settle as well, for one pane.
#include "center.hpp"

namespace sunstrain {
namespace internal {

CenterBalance balance_of(const CenterOf<double>& center, std::size_t lites) {
  CenterBalance balance;
  for (std::size_t j = 0; j < lites; ++j) {
    balance.mean_k.push_back(center.mean_k[j]);
    balance.face_k.push_back({center.face_k[j][0], center.face_k[j][1]});
    if (j + 1 == lites) break;
    balance.cavity_w_m2k.push_back(center.cavity_w_m2k[j]);
    balance.stream_w_m2k.push_back(center.stream_w_m2k[j]);
    balance.stream_k.push_back(center.stream_k[j]);
  }
  const auto plain = [](const ExchangeOf<double>& e) { return Exchange{e.conductance_w_m2k, e.temperature_k}; };
  balance.outdoor = plain(center.outdoor);
  balance.room = plain(center.room);
  balance.open_room = plain(center.open_room);
  return balance;
}

CenterOf<double> center_of(const CenterBalance& balance) {
  CenterOf<double> center{};
  for (std::size_t j = 0; j < balance.mean_k.size(); ++j) center.mean_k[j] = balance.mean_k[j];
  for (std::size_t k = 0; k < balance.cavity_w_m2k.size(); ++k) center.cavity_w_m2k[k] = balance.cavity_w_m2k[k];
  for (std::size_t k = 0; k < balance.stream_w_m2k.size(); ++k) {
    center.stream_w_m2k[k] = balance.stream_w_m2k[k];
    center.stream_k[k] = balance.stream_k[k];
  }
  const auto of = [](const Exchange& e) { return ExchangeOf<double>{e.conductance_w_m2k, e.temperature_k}; };
  center.outdoor = of(balance.outdoor);
  center.room = of(balance.room);
  center.open_room = of(balance.open_room);
  return center;
}

}  // namespace internal

CenterBalance steady_center(const Glazing& glazing, const StepLoads& loads, const RoomShade& shade, const Gas& air) {
  constexpr internal::Settled settled{1e-5, MarchCare{}.blind_settled_k};
  const internal::LoadsOf<double> of = internal::loads_of(loads);
  internal::CenterOf<double> center{};
  internal::first_guess(glazing, of, center);
  internal::settle_center<double>(glazing, of, shade, air, {}, settled, center);
  return internal::balance_of(center, glazing.lites.size());
}

double heat_into_room_w_m2(const CenterBalance& balance, double room_face_k) {
  return balance.room.conductance_w_m2k * (room_face_k - balance.room.temperature_k);
}

}  // namespace sunstrain
