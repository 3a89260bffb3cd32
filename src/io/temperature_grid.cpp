#include "sunstrain/io/temperature_grid.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "decimal.hpp"
#include "say.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain {
namespace {

using Table = std::vector<std::vector<std::string_view>>;

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\r' || c == '"'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

Table split(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const char separator = text.find('\t') != std::string_view::npos  ? '\t'
                         : text.find(';') != std::string_view::npos ? ';'
                                                                    : ',';
  Table table;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = trimmed(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (line.empty()) continue;
    auto& row = table.emplace_back();
    for (;;) {
      const std::size_t cut = std::min(line.find(separator), line.size());
      row.push_back(trimmed(line.substr(0, cut)));
      if (cut == line.size()) break;
      line.remove_prefix(cut + 1);
    }
  }
  return table;
}

struct Limits {
  double least, most;
  const char* what;
};
constexpr Limits position_limits{0.0, 12.0, "a position in m, 0 to 12"};
constexpr Limits temperature_limits{-100.0, 500.0, "a temperature in degrees C, -100 to 500"};

double cell(const Table& table, std::size_t row, std::size_t column, const Limits& limits, const std::string& source) {
  const std::string_view text = table[row][column];
  double value = 0.0;
  const auto [end, error] = decimal_from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value) || value < limits.least ||
      value > limits.most) {
    throw BadInput(
        say("{}: row {}, column {}: \"{}\" is not {}", source, row + 1, column + 1, text.substr(0, 40), limits.what));
  }
  return value;
}

void check_table(const Table& table, const std::string& source) {
  if (table.size() < 2 || table.front().size() < 2)
    throw BadInput(say("{}: a temperature grid needs two rows and two columns or more", source));
  if (table.size() > 5000 || table.front().size() > 5000)
    throw BadInput(say("{}: at most 5000 rows and 5000 columns", source));
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table[row].size() == table.front().size()) continue;
    throw BadInput(
        say("{}: row {} has {} cells, the first row {}", source, row + 1, table[row].size(), table.front().size()));
  }
}

void check_axis(const std::vector<double>& axis, const char* name, const std::string& source) {
  if (axis.size() < 2 || axis.front() != 0.0)
    throw BadInput(say("{}: {} must have two positions or more and begin at 0", source, name));
  if (axis.back() < 0.05) throw BadInput(say("{}: {} must reach 0.05 m or more", source, name));
  for (std::size_t i = 1; i < axis.size(); ++i) {
    if (axis[i] < axis[i - 1])
      throw BadInput(say("{}: {} must not go back: {} after {}", source, name, axis[i], axis[i - 1]));
    if (i > 1 && axis[i] == axis[i - 2])
      throw BadInput(say("{}: {} = {} stands three times; twice makes a jump", source, name, axis[i]));
  }
  if (axis[1] == 0.0 || axis[axis.size() - 2] == axis.back()) {
    throw BadInput(say("{}: {} jumps at the edge of the pane, where there is no other side", source, name));
  }
}

TemperatureGrid with_coordinates(const Table& table, const std::string& source) {
  TemperatureGrid grid;
  for (std::size_t c = 1; c < table.front().size(); ++c) grid.x_m.push_back(cell(table, 0, c, position_limits, source));
  for (std::size_t r = 1; r < table.size(); ++r) {
    grid.y_m.push_back(cell(table, r, 0, position_limits, source));
    for (std::size_t c = 1; c < table[r].size(); ++c)
      grid.celsius.push_back(cell(table, r, c, temperature_limits, source));
  }
  check_axis(grid.x_m, "x (the first row)", source);
  check_axis(grid.y_m, "y (the first column)", source);
  return grid;
}

// Middles of n equal fields, with the pane's two edges added.
std::vector<double> camera_axis(std::size_t n, double length_m) {
  std::vector<double> axis{0.0};
  for (std::size_t i = 0; i < n; ++i)
    axis.push_back(length_m * (static_cast<double>(i) + 0.5) / static_cast<double>(n));
  axis.push_back(length_m);
  return axis;
}

TemperatureGrid from_camera(const Table& table, const std::string& source, double width_m, double height_m) {
  const std::size_t rows = table.size(), columns = table.front().size();
  TemperatureGrid grid{camera_axis(columns, width_m), camera_axis(rows, height_m), {}};
  const auto at = [&](std::size_t i, std::size_t n) { return std::clamp<std::size_t>(i, 1, n) - 1; };
  for (std::size_t r = 0; r < rows + 2; ++r) {
    for (std::size_t c = 0; c < columns + 2; ++c) {
      grid.celsius.push_back(cell(table, rows - 1 - at(r, rows), at(c, columns), temperature_limits, source));
    }
  }
  return grid;
}

// Interval of an axis that holds a position, and where in it.
struct Place {
  std::size_t below;
  double share;
};
Place place_on(const std::vector<double>& axis, double position) {
  auto above = static_cast<std::size_t>(std::upper_bound(axis.begin(), axis.end(), position) - axis.begin());
  above = std::clamp<std::size_t>(above, 1, axis.size() - 1);
  const double length = axis[above] - axis[above - 1];
  return {above - 1, length > 0.0 ? std::clamp((position - axis[above - 1]) / length, 0.0, 1.0) : 1.0};
}

// A slope that changes over an axis position bends the field there; a jump is the sharpest there can be.
// longer_m: of the pane's sides; past 1200 widths along it the answer no longer changes and only costs.
std::vector<Feature> features_of(const std::vector<double>& axis, double longer_m) {
  constexpr double kink_share = 1.0 / 3.0;  // a kink is sharper than the interval it ends
  const double finest_m = std::max(0.002, longer_m / 1100.0);
  std::vector<Feature> features;
  for (std::size_t i = 1; i + 1 < axis.size(); ++i) {
    const double before = axis[i] - axis[i - 1], after = axis[i + 1] - axis[i];
    if (before == 0.0) continue;  // the second of a pair
    features.push_back({axis[i], after == 0.0 ? finest_m : std::max(finest_m, kink_share * std::min(before, after))});
  }
  return features;
}

EdgeStress solve_at(const TemperatureGrid& grid, PaneElasticity elasticity, int points, double fineness) {
  const double longer_m = std::max(grid.width_m(), grid.height_m());
  const FieldFeatures features{features_of(grid.x_m, longer_m), features_of(grid.y_m, longer_m)};
  const StressResolution usual;
  const EdgeStressSolver solver(grid.width_m(), grid.height_m(), features, elasticity, points,
                                {usual.half_waves_per_width * fineness, usual.panel_per_width / fineness});
  return solver.solve_general([&](double x, double y) { return temperature_c(grid, x, y); });
}

}  // namespace

TemperatureGrid read_temperature_grid(std::string_view text, const std::string& source, std::optional<double> width_m,
                                      std::optional<double> height_m) {
  const Table table = split(text);
  check_table(table, source);
  if (width_m.has_value() != height_m.has_value()) throw BadInput(say("{}: --width and --height go together", source));
  return width_m ? from_camera(table, source, *width_m, *height_m) : with_coordinates(table, source);
}

double temperature_c(const TemperatureGrid& grid, double x_m, double y_m) {
  const Place x = place_on(grid.x_m, x_m), y = place_on(grid.y_m, y_m);
  const auto value = [&](std::size_t row, std::size_t column) { return grid.celsius[row * grid.x_m.size() + column]; };
  const double lower = (1 - x.share) * value(y.below, x.below) + x.share * value(y.below, x.below + 1);
  const double upper = (1 - x.share) * value(y.below + 1, x.below) + x.share * value(y.below + 1, x.below + 1);
  return (1 - y.share) * lower + y.share * upper;
}

GridStress grid_stress(const TemperatureGrid& grid, PaneElasticity elasticity, int points_per_side) {
  constexpr double corner_m = 0.010;  // the last centimeter before a corner is not vouched for
  const EdgeStress coarse = solve_at(grid, elasticity, points_per_side, 1.0);
  GridStress result{solve_at(grid, elasticity, points_per_side, 2.0), 0.0};
  for (std::size_t side = 0; side < 4; ++side) {
    const auto& at = result.stress.position_m[side];
    const double length = side % 2 == 0 ? grid.width_m() : grid.height_m();
    for (std::size_t i = 0; i < at.size(); ++i) {
      if (at[i] < corner_m || at[i] > length - corner_m) continue;
      result.accuracy_pa =
          std::max(result.accuracy_pa, std::abs(result.stress.stress_pa[side][i] - coarse.stress_pa[side][i]));
    }
  }
  return result;
}

}  // namespace sunstrain
