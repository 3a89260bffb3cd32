#include "frame_shape.hpp"

#include <fmt/core.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace sunstrain::test {
namespace {

constexpr double mm = 1e-3;

struct Line {
  const char* name;
  double share;
};
using Lines = std::vector<Line>;
const Lines across{{"out", 0.0}, {"middle", 0.5}, {"in", 1.0}}, along{{"edge", 0.0}, {"sight", 1.0}};

double at(const FramePlace& place, double length_m) { return place.share * length_m + place.offset_m; }

// At two lengths between the lines: glass from a single pane to a triple unit, bites of 8 and 20 mm.
bool goes_up(const FramePlace& from, const FramePlace& to, std::pair<double, double> lengths_m) {
  return at(from, lengths_m.first) < at(to, lengths_m.first) && at(from, lengths_m.second) < at(to, lengths_m.second);
}

class Reader {
 public:
  explicit Reader(std::string path) : path_(std::move(path)) {}

  [[noreturn]] void refuse(const std::string& what) const { throw std::runtime_error(path_ + ": " + what); }

  double number(const toml::table& from, const char* key, double lowest) const {
    const auto value = from[key].value<double>();
    if (!value || !std::isfinite(*value) || *value < lowest)
      refuse(fmt::format("{} must be a number of at least {}", key, lowest));
    return *value;
  }

  // "in + 29", "sight - 60", "edge": mm from a line.
  FramePlace read_place(const std::string& text, const Lines& lines) const {
    std::istringstream words(text);
    std::string name, sign, rest;
    double offset = 0.0;
    words >> name;
    const auto line = std::find_if(lines.begin(), lines.end(), [&](const Line& l) { return name == l.name; });
    const bool moved = static_cast<bool>(words >> sign);
    const bool whole = !moved || ((sign == "+" || sign == "-") && (words >> offset) && std::isfinite(offset));
    if (line == lines.end() || !whole || (words >> rest)) refuse_place(text, lines);
    return {line->share, (sign == "-" ? -offset : offset) * mm};
  }

  std::pair<FramePlace, FramePlace> span(const toml::table& part, const char* key, const Lines& lines) const {
    const toml::array* ends = part[key].as_array();
    if (!ends || ends->size() != 2 || !ends->is_homogeneous<std::string>())
      refuse(fmt::format("{} must be two places, as [\"{} - 3\", \"{}\"]", key, lines.front().name, lines.back().name));
    return {read_place(*ends->get(0)->value<std::string>(), lines),
            read_place(*ends->get(1)->value<std::string>(), lines)};
  }

  FramePart read_part(const toml::node& node) const {
    const toml::table* part = node.as_table();
    if (!part) refuse("part must be a list of tables");
    const bool cavity = part->contains("emissivity");
    if (cavity == part->contains("w_mk")) refuse("a part has w_mk, or as a cavity emissivity");
    for (const auto& [key, value] : *part)
      if (key != "of" && key != "x" && key != "y" && key != "j_m3k" && key != (cavity ? "emissivity" : "w_mk"))
        refuse(fmt::format("a part has of, x, y, j_m3k and w_mk or emissivity, not {}", key.str()));
    const auto [x0, x1] = span(*part, "x", across);
    const auto [y0, y1] = span(*part, "y", along);
    if (!goes_up(x0, x1, {0.006, 0.042}) || !goes_up(y0, y1, {0.008, 0.020}))
      refuse("a part's x and y must each go from the lesser to the greater place");
    return {x0,
            x1,
            y0,
            y1,
            cavity ? 0.0 : number(*part, "w_mk", 1e-4),
            cavity ? number(*part, "emissivity", 1e-3) : 0.0,
            part->contains("j_m3k") ? number(*part, "j_m3k", 1.0) : 0.0};
  }

 private:
  [[noreturn]] void refuse_place(const std::string& text, const Lines& lines) const {
    std::string names;
    for (const Line& line : lines) names += std::string(names.empty() ? "" : ", ") + line.name;
    refuse(fmt::format("\"{}\" is no place: one of {}, then + or - and mm", text, names));
  }

  std::string path_;
};

FrameKind read_seals(const Reader& reader, const toml::table& file) {
  FrameKind kind{};
  kind.name = file["name"].value_or(std::string());
  if (kind.name.empty()) reader.refuse("name must be the frame's name");
  const auto lip = file["outer_lip"].value<bool>();
  if (!lip) reader.refuse("outer_lip must be true or false");
  kind.outer_lip = *lip;
  kind.seal_thickness_m = reader.number(file, "seal_thickness_mm", 0.1) * mm;
  kind.seal_height_m = reader.number(file, "seal_height_mm", 0.0) * mm;
  kind.seal_conductivity_w_mk = reader.number(file, "seal_conductivity_w_mk", 1e-4);
  if (!kind.outer_lip) {
    kind.soft_strip_to_m = reader.number(file, "soft_strip_to_mm", 0.0) * mm;
    kind.soft_strip_resistance_m2k_w = reader.number(file, "soft_strip_resistance_m2k_w", 1e-4);
    kind.joint_area_m = reader.number(file, "joint_area_m", 1e-4);
    kind.joint_resistance_mk_w = reader.number(file, "joint_resistance_mk_w", 1e-4);
  }
  return kind;
}

}  // namespace

FrameShape read_frame_shape(const std::string& path) {
  const Reader reader(path);
  toml::table file;
  try {
    file = toml::parse_file(path);
  } catch (const toml::parse_error& error) {
    reader.refuse(std::string(error.description()));
  }
  FrameShape shape{read_seals(reader, file), {}};
  const toml::array* parts = file["part"].as_array();
  if (!parts || parts->empty()) reader.refuse("part must be a list of tables");
  for (const toml::node& part : *parts) shape.parts.push_back(reader.read_part(part));
  return shape;
}

Box place(const FramePart& part, const FramedGlass& glass) {
  return {at(part.x0, glass.thickness_m), at(part.x1, glass.thickness_m), at(part.y0, glass.bite_m),
          at(part.y1, glass.bite_m)};
}

double conductivity_w_mk(const FramePart& part, const FramedGlass& glass) {
  if (part.conductivity_w_mk > 0.0) return part.conductivity_w_mk;
  const Box box = place(part, glass);
  return cavity_conductivity_w_mk(box.x1_m - box.x0_m, box.y1_m - box.y0_m, 10.0, 10.0, part.emissivity);
}

}  // namespace sunstrain::test
