// frames.toml, gases.toml, shades.toml, grounds.toml and constants.toml.
#include <algorithm>

#include "data_node.hpp"
#include "reference_tables.hpp"
#include "say.hpp"

namespace sunstrain {

namespace {

constexpr double longest_mm = 1000.0;
constexpr double any = 1e15;

// Written so that 0 itself is refused where a zero would divide.
double positive(DataRow& row, const char* key, double most) {
  const double value = row.number(key, 0.0, most);
  if (value <= 0.0) row.refuse(key, "must be above 0");
  return value;
}

template <std::size_t count>
std::array<double, count> exactly(DataRow& row, const char* key, double least, double most) {
  const std::vector<double> held = row.numbers(key, least, most);
  if (held.size() != count) row.refuse(key, say("{} numbers are needed", count));
  std::array<double, count> out{};
  std::copy(held.begin(), held.end(), out.begin());
  return out;
}

FrameKind::Body body_of(DataRow& row) {
  const std::string word = row.text_or("body", "");
  if (word == "solid") return FrameKind::Body::solid;
  if (word == "halves") return FrameKind::Body::halves;
  if (!word.empty()) row.refuse("body", "allowed: solid, halves, or left out");
  return FrameKind::Body::none;
}

FrameFit fit_of(DataRow row, bool has_u_value) {
  FrameFit fit{positive(row, "outer_area_m", 10.0),
               positive(row, "outer_resistance_mk_w", 100.0),
               positive(row, "middle_conductance_w_mk", 1000.0),
               positive(row, "inner_resistance_mk_w", 100.0),
               positive(row, "inner_area_m", 10.0),
               positive(row, "sun_area_m", 10.0),
               row.number("outer_contact_m2k_w", 0.0, 10.0),
               row.number("inner_contact_m2k_w", 0.0, 10.0),
               exactly<4>(row, "capacity_j_mk", 0.0, 1e6)};
  if (has_u_value) fit.u_value_w_m2k = positive(row, "u_value_w_m2k", 100.0);
  row.finish();
  return fit;
}

FrameKind frame_of(DataRow& row) {
  FrameKind frame;
  frame.name = row.text("name");
  frame.body = body_of(row);
  const bool has_u_value = frame.body != FrameKind::Body::none;
  frame.single = fit_of(row.table("single"), has_u_value);
  frame.sealed = fit_of(row.table("sealed"), has_u_value);
  frame.seal_thickness_m = positive(row, "seal_thickness_mm", longest_mm) * m_per_mm;
  frame.seal_height_m = row.number("seal_height_mm", 0.0, longest_mm) * m_per_mm;
  frame.seal_conductivity_w_mk = positive(row, "seal_conductivity_w_mk", 1000.0);
  frame.outer_lip = row.flag("outer_lip");
  if (!frame.outer_lip) {
    frame.soft_strip_to_m = row.number("soft_strip_to_mm", 0.0, longest_mm) * m_per_mm;
    frame.soft_strip_resistance_m2k_w = positive(row, "soft_strip_resistance_m2k_w", 100.0);
    frame.joint_area_m = positive(row, "joint_area_m", 1.0);
    frame.joint_resistance_mk_w = positive(row, "joint_resistance_mk_w", 1000.0);
  }
  frame.source = row.source();
  return frame;
}

FrameColor color_of(DataRow& row) {
  return {row.text("name"), row.number("solar_absorptance", 0.0, 1.0), row.source()};
}

Spacer spacer_of(DataRow& row) {
  return {row.text("name"), positive(row, "conductivity_w_mk", 1000.0), positive(row, "seal_conductivity_w_mk", 1000.0),
          row.source()};
}

Gas gas_of(DataRow& row) {
  return {row.text("name"),
          row.number("conductivity_a", -1.0, 1.0),
          row.number("conductivity_b", -1.0, 1.0),
          row.number("viscosity_a", -1.0, 1.0),
          row.number("viscosity_b", -1.0, 1.0),
          row.number("heat_a", 0.0, 1e5),
          row.number("heat_b", -10.0, 10.0),
          positive(row, "molar_mass_kg_mol", 1.0),
          exactly<4>(row, "en673_density", 0.01, 100.0),
          exactly<4>(row, "en673_viscosity", 1e-7, 1e-3),
          exactly<4>(row, "en673_conductivity", 1e-4, 1.0),
          positive(row, "en673_heat", 1e5),
          row.source()};
}

IndoorShade shade_of(DataRow& row) {
  IndoorShade shade{row.text("name"), row.number("solar_reflectance", 0.0, 1.0),
                    row.number("solar_transmittance", 0.0, 1.0), row.number("emissivity", 0.0, 1.0), row.source()};
  if (shade.solar_reflectance + shade.solar_transmittance > 1.0) {
    row.refuse("solar_reflectance", "reflectance and transmittance together must not pass 1");
  }
  return shade;
}

Ground ground_of(DataRow& row) { return {row.text("name"), row.number("solar_reflectance", 0.0, 1.0), row.source()}; }

}  // namespace

void load_frames(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"frame", "color", "spacer"});
  reference.frames = rows_read(document, file, "frame", frame_of);
  reference.frame_colors = rows_read(document, file, "color", color_of);
  reference.spacers = rows_read(document, file, "spacer", spacer_of);
}

void load_gases(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"gas"});
  reference.gases = rows_read(document, file, "gas", gas_of);
}

void load_shades(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"shade"});
  reference.indoor_shades = rows_read(document, file, "shade", shade_of);
}

void load_grounds(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"ground"});
  reference.grounds = rows_read(document, file, "ground", ground_of);
}

void load_constants(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  for (std::size_t i = 0; i < document.keys.size(); ++i) {
    DataRow row(document.items[i], file + ", " + document.keys[i]);
    const double value = row.number("value", -any, any);
    reference.constants[document.keys[i]] = {value, row.text("unit"), row.text_or("note", ""), row.source()};
    row.finish();
  }
  if (reference.constants.empty()) throw BadInput(say("{}: no constants", file));
}

}  // namespace sunstrain
