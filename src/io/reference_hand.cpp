// hand_methods.toml.
#include <algorithm>

#include "data_node.hpp"
#include "reference_tables.hpp"

namespace sunstrain {
namespace {

HandMethod method_of(DataRow& row) {
  return {row.text("name"), row.number("stress_mpa_per_k", 0.01, 2.0) * pa_per_mpa, row.text("limit"), row.source()};
}

HandNetwork network_of(DataRow& row) {
  return {row.text("name"), row.number("outdoor_w_m2k", 1.0, 100.0), row.number("room_w_m2k", 1.0, 100.0),
          row.number("cavity_w_m2k", 0.1, 100.0), row.source()};
}

NamedFactor factor_of(DataRow& row) { return {row.text("name"), row.number("factor", 0.1, 5.0), row.source()}; }

CurtainFactor curtain_of(DataRow& row) {
  return {row.text("name"), row.number("near", 0.1, 5.0), row.number("far", 0.1, 5.0),
          row.number("far_from_mm", 0.0, 1000.0) * m_per_mm, row.source()};
}

AreaFactor area_of(DataRow& row) {
  AreaFactor area{row.text("name"), row.numbers("area_m2", 0.01, 100.0), row.numbers("factor", 0.1, 5.0), row.source()};
  if (area.area_m2.empty() || area.area_m2.size() != area.factor.size())
    row.refuse("factor", "as many numbers as area_m2 are needed");
  if (!std::is_sorted(area.area_m2.begin(), area.area_m2.end())) row.refuse("area_m2", "must ascend");
  return area;
}

PublishedLimit limit_of(DataRow& row) {
  PublishedLimit limit{
      row.text("name"), row.text("published"), row.text("treatment"), row.text_or("kind", ""), 0.0, 0.0, 0.0, {}};
  if (row.has("above_mm")) limit.above_m = row.number("above_mm", 0.0, 100.0) * m_per_mm;
  if (row.has("stress_mpa")) limit.stress_pa = row.number("stress_mpa", 0.1, 1000.0) * pa_per_mpa;
  if (row.has("difference_k")) limit.difference_k = row.number("difference_k", 1.0, 1000.0);
  if ((limit.stress_pa > 0.0) == (limit.difference_k > 0.0))
    row.refuse("stress_mpa", "one of stress_mpa and difference_k is needed");
  limit.source = row.source();
  return limit;
}

}  // namespace

void load_hand_methods(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(
      document, file,
      {"hand_network", "hand_method", "shadow_factor", "curtain_factor", "area_factor", "glazing_factor", "limit"});
  HandTables& hand = reference.hand;
  hand.networks = rows_read(document, file, "hand_network", network_of);
  hand.methods = rows_read(document, file, "hand_method", method_of);
  hand.shadow_factors = rows_read(document, file, "shadow_factor", factor_of);
  hand.curtain_factors = rows_read(document, file, "curtain_factor", curtain_of);
  hand.area_factors = rows_read(document, file, "area_factor", area_of);
  hand.glazing_factors = rows_read(document, file, "glazing_factor", factor_of);
  hand.limits = rows_read(document, file, "limit", limit_of);
}

}  // namespace sunstrain
