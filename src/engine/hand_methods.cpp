#include "sunstrain/hand_methods.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace sunstrain {
namespace {

// h_o (T_1 - T_out) + h_s (T_1 - T_2) = I_1, ..., h_i (T_n - T_room) + h_s (T_n - T_n-1) = I_n (Thomas algorithm).
std::vector<double> steady_middles_k(const HandCase& pane, const HandNetwork& h) {
  const std::size_t n = pane.absorbed_w_m2.size();
  std::vector<double> diagonal(n, 0.0), right = pane.absorbed_w_m2;
  diagonal.front() += h.outdoor_w_m2k;
  right.front() += h.outdoor_w_m2k * pane.outdoor_k;
  diagonal.back() += h.room_w_m2k;
  right.back() += h.room_w_m2k * pane.room_k;
  for (std::size_t k = 0; k + 1 < n; ++k) {
    diagonal[k] += h.cavity_w_m2k;
    diagonal[k + 1] += h.cavity_w_m2k;
  }
  for (std::size_t k = 1; k < n; ++k) {
    const double share = h.cavity_w_m2k / diagonal[k - 1];
    diagonal[k] -= share * h.cavity_w_m2k;
    right[k] += share * right[k - 1];
  }
  std::vector<double> middle_k(n);
  for (std::size_t k = n; k-- > 0;)
    middle_k[k] = (right[k] + (k + 1 < n ? h.cavity_w_m2k * middle_k[k + 1] : 0.0)) / diagonal[k];
  return middle_k;
}

double area_factor(const AreaFactor& rows, double area_m2) {
  if (area_m2 <= rows.area_m2.front()) return rows.factor.front();
  if (area_m2 >= rows.area_m2.back()) return rows.factor.back();
  const auto above = static_cast<std::size_t>(std::upper_bound(rows.area_m2.begin(), rows.area_m2.end(), area_m2) -
                                              rows.area_m2.begin());
  const double share = (area_m2 - rows.area_m2[above - 1]) / (rows.area_m2[above] - rows.area_m2[above - 1]);
  return rows.factor[above - 1] + share * (rows.factor[above] - rows.factor[above - 1]);
}

// Of one publication the row for this glass: one for its kind before one for any, then the thickest that it passes.
const PublishedLimit* limit_for(const std::vector<PublishedLimit>& limits, const std::string& published,
                                const std::string& treatment, const std::string& kind, double thickness_m) {
  const PublishedLimit* best = nullptr;
  for (const PublishedLimit& row : limits) {
    const bool fits = row.published == published && row.treatment == treatment &&
                      (row.kind.empty() || row.kind == kind) && (row.above_m == 0.0 || thickness_m > row.above_m);
    if (!fits) continue;
    const auto rank = [](const PublishedLimit& r) { return std::pair(!r.kind.empty(), r.above_m); };
    if (best == nullptr || rank(row) > rank(*best)) best = &row;
  }
  return best;
}

}  // namespace

std::vector<HandResult> by_hand(const HandCase& pane, const Reference& reference) {
  if (pane.lite >= pane.absorbed_w_m2.size())
    throw std::invalid_argument("a hand method needs the absorbed sun of every lite");
  const HandTables& hand = reference.hand;
  const HandNetwork& h = hand.networks.front();
  const CurtainFactor& curtain = row_named(hand.curtain_factors, pane.curtain);
  HandResult result{};
  result.middle_k = steady_middles_k(pane, h)[pane.lite];
  result.edge_k = (h.outdoor_w_m2k * pane.outdoor_k + h.room_w_m2k * pane.room_k) / (h.outdoor_w_m2k + h.room_w_m2k);
  result.shadow_factor = row_named(hand.shadow_factors, pane.shadow).factor;
  result.curtain_factor = pane.curtain_gap_m >= curtain.far_from_m ? curtain.far : curtain.near;
  result.area_factor = area_factor(hand.area_factors.front(), pane.area_m2);
  result.glazing_factor = row_named(hand.glazing_factors, pane.frame).factor;
  std::vector<HandResult> results;
  for (const HandMethod& method : hand.methods) {
    result.method = method.name;
    result.limit = method.limit;
    result.stress_pa = method.stress_pa_per_k * result.shadow_factor * result.curtain_factor * result.area_factor *
                       result.glazing_factor * std::max(0.0, result.middle_k - result.edge_k);
    const PublishedLimit* limit =
        limit_for(hand.limits, method.limit, pane.treatment, pane.glass_kind, pane.thickness_m);
    result.allowable_pa = limit == nullptr ? 0.0 : limit->stress_pa;
    results.push_back(result);
  }
  return results;
}

std::vector<LimitUsed> limits_used(double stress_pa, double difference_k, const std::string& treatment,
                                   const std::string& glass_kind, double thickness_m, const Reference& reference) {
  std::vector<std::string> published;
  for (const PublishedLimit& row : reference.hand.limits)
    if (std::find(published.begin(), published.end(), row.published) == published.end())
      published.push_back(row.published);
  std::vector<LimitUsed> used;
  for (const std::string& name : published) {
    const PublishedLimit* row = limit_for(reference.hand.limits, name, treatment, glass_kind, thickness_m);
    if (row == nullptr) continue;
    const double share = row->stress_pa > 0.0 ? stress_pa / row->stress_pa : difference_k / row->difference_k;
    used.push_back({name, row->stress_pa, row->difference_k, share, row->source});
  }
  return used;
}

}  // namespace sunstrain
