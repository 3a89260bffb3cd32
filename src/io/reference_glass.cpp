// glass_solar.csv and glass.toml.
#include <algorithm>

#include "data_node.hpp"
#include "reference_csv.hpp"
#include "reference_tables.hpp"
#include "say.hpp"

namespace sunstrain {

namespace {

constexpr double thickest_mm = 100.0;
constexpr double factor_limit = 10.0;

Coating coating_of(DataRow& row) {
  Coating coating{row.text("name"),
                  row.number("tau", 0.0, 1.0),
                  row.number("rho_glass", 0.0, 1.0),
                  row.number("rho_air", 0.0, 1.0),
                  row.number("emissivity", 0.0, 1.0),
                  row.flag("soft"),
                  row.source()};
  if (coating.tau + std::max(coating.rho_glass, coating.rho_air) > 1.0) {
    row.refuse("tau", "transmittance and reflectance together must not pass 1");
  }
  return coating;
}

Interlayer interlayer_of(DataRow& row) {
  return {row.number("thickness_mm", 0.1, thickest_mm) * m_per_mm, row.number("transmittance", 0.01, 1.0),
          row.source()};
}

Treatment treatment_of(DataRow& row) {
  return {row.text("name"),
          row.number("allowable_factor", 0.0, factor_limit),
          row.number("prestress_mpa", 0.0, 1000.0) * pa_per_mpa,
          row.number("eta_cap_factor", 0.0, factor_limit),
          row.flag("annealed"),
          row.source()};
}

GlassKind glass_kind_of(DataRow& row) {
  return {row.text("name"), row.number("allowable_factor", 0.0, factor_limit), row.source()};
}

ThicknessFactor thickness_factor_of(DataRow& row) {
  return {row.number("above_mm", 0.0, thickest_mm) * m_per_mm, row.number("allowable_factor", 0.0, factor_limit),
          row.source()};
}

EdgeFinish edge_finish_of(DataRow& row) {
  return {row.text("name"), row.number("allowable_factor", 0.0, factor_limit),
          row.number("odds_factor", 0.0, factor_limit), row.source()};
}

NominalThickness nominal_thickness_of(DataRow& row) {
  const double nominal_mm = row.number("nominal_mm", 0.1, thickest_mm);
  return {nominal_mm * m_per_mm, row.number("least_mm", 0.1, nominal_mm) * m_per_mm, row.source()};
}

SpacerWidth spacer_width_of(DataRow& row) {
  return {row.number("width_mm", 3.0, 200.0) * m_per_mm, row.flag("usual"), row.source()};
}

ReferenceGlass reference_glass_of(DataRow& row) {
  ReferenceGlass glass{row.text("name"), row.numbers("thicknesses_mm", 0.1, thickest_mm), row.source()};
  for (double& thickness : glass.thicknesses_m) thickness *= m_per_mm;
  return glass;
}

void require_rising(const std::vector<NominalThickness>& rows, const std::string& file) {
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].nominal_m <= rows[i - 1].nominal_m || rows[i].least_m <= rows[i - 1].least_m) {
      throw BadInput(say("{}, nominal_thickness {}: rows must rise in thickness", file, i + 1));
    }
  }
}

}  // namespace

void load_glass_solar(const std::string& file, std::string_view text, Reference& reference) {
  for (const CsvRow& row :
       parse_reference_csv(file, text, {"tint", "thickness_mm", "solar_transmittance", "certainty", "source"})) {
    const std::string& name = row.text("tint");
    const TintRow added{row.number("thickness_mm", 0.1, thickest_mm) * m_per_mm,
                        row.number("solar_transmittance", 0.001, 0.917)};  // 0.917: bare faces alone, index 1.526
    const Source source{row.text("source"), certainty_named(row.text("certainty"), row.where())};
    if (reference.tints.empty() || reference.tints.back().name != name) {
      for (const Tint& tint : reference.tints) {
        if (tint.name == name) throw BadInput(say("{}: rows of one tint must stand together", row.where()));
      }
      reference.tints.push_back({name, {added}, source});
      continue;
    }
    Tint& tint = reference.tints.back();
    if (added.thickness_m <= tint.rows.back().thickness_m ||
        added.solar_transmittance >= tint.rows.back().solar_transmittance) {
      throw BadInput(say("{}: thickness must rise and transmittance fall from row to row of a tint", row.where()));
    }
    if (source.text != tint.source.text || source.certainty != tint.source.certainty) {
      throw BadInput(say("{}: source and certainty must be the same for all rows of a tint", row.where()));
    }
    tint.rows.push_back(added);
  }
}

void load_glass(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file,
                 {"coating", "interlayer", "treatment", "glass_kind", "thickness_factor", "edge_finish",
                  "nominal_thickness", "spacer_width", "film_reference_glass"});
  reference.coatings = rows_read(document, file, "coating", coating_of);
  reference.interlayers = rows_read(document, file, "interlayer", interlayer_of);
  reference.treatments = rows_read(document, file, "treatment", treatment_of);
  reference.glass_kinds = rows_read(document, file, "glass_kind", glass_kind_of);
  reference.thickness_factors = rows_read(document, file, "thickness_factor", thickness_factor_of);
  reference.edge_finishes = rows_read(document, file, "edge_finish", edge_finish_of);
  reference.nominal_thicknesses = rows_read(document, file, "nominal_thickness", nominal_thickness_of);
  require_rising(reference.nominal_thicknesses, file);
  reference.spacer_widths = rows_read(document, file, "spacer_width", spacer_width_of);
  reference.reference_glasses = rows_read(document, file, "film_reference_glass", reference_glass_of);
}

}  // namespace sunstrain
