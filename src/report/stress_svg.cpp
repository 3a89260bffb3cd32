// The picture of a field and its edge stress.
#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sunstrain/report/stress_report.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

constexpr double pane_px = 420.0, margin_px = 110.0, legend_px = 90.0;

// Dark blue to yellow, even to the eye and to the color-blind: ten stops of the viridis scale (van der Walt & Smith,
// CC0).
std::string color_of(double share) {
  static constexpr std::array<std::array<double, 3>, 10> stops{{{68, 1, 84},
                                                                {72, 40, 120},
                                                                {62, 74, 137},
                                                                {49, 104, 142},
                                                                {38, 130, 142},
                                                                {31, 158, 137},
                                                                {53, 183, 121},
                                                                {109, 205, 89},
                                                                {180, 222, 44},
                                                                {253, 231, 37}}};
  const double position = std::clamp(share, 0.0, 1.0) * 9.0;
  const auto below = std::min<std::size_t>(static_cast<std::size_t>(position), 8);
  const double t = position - static_cast<double>(below);
  std::array<int, 3> rgb{};
  for (std::size_t i = 0; i < 3; ++i)
    rgb[i] = static_cast<int>(std::lround((1 - t) * stops[below][i] + t * stops[below + 1][i]));
  return fmt::format("#{:02x}{:02x}{:02x}", rgb[0], rgb[1], rgb[2]);
}

struct Frame {  // from pane to picture
  double scale, left, bottom;
  double x(double x_m) const { return left + x_m * scale; }
  double y(double y_m) const { return bottom - y_m * scale; }
};

std::string field_cells(const TemperatureGrid& grid, const Frame& frame, double low, double high) {
  constexpr int cells = 60;
  const double longest = std::max(grid.width_m(), grid.height_m());
  const int nx = std::max(8, static_cast<int>(cells * grid.width_m() / longest));
  const int ny = std::max(8, static_cast<int>(cells * grid.height_m() / longest));
  const double dx = grid.width_m() / nx, dy = grid.height_m() / ny;
  std::string svg;
  for (int i = 0; i < nx; ++i) {
    for (int j = 0; j < ny; ++j) {
      const double t = temperature_c(grid, (i + 0.5) * dx, (j + 0.5) * dy);
      svg += fmt::format("<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" fill=\"{}\"/>\n",
                         frame.x(i * dx), frame.y((j + 1) * dy), dx * frame.scale + 0.5, dy * frame.scale + 0.5,
                         color_of(high > low ? (t - low) / (high - low) : 0.5));
    }
  }
  return svg;
}

// One side's curve: tension outwards.
std::string curve(const EdgeStress& stress, Side side, const TemperatureGrid& grid, const Frame& frame,
                  double px_per_pa) {
  const auto index = static_cast<std::size_t>(side);
  std::string points;
  for (std::size_t i = 0; i < stress.position_m[index].size(); ++i) {
    const double at = stress.position_m[index][i], out = stress.stress_pa[index][i] * px_per_pa;
    double x = frame.x(at), y = frame.y(at);
    switch (side) {
      case Side::bottom:
        y = frame.y(0) + out;
        break;
      case Side::top:
        y = frame.y(grid.height_m()) - out;
        break;
      case Side::left:
        x = frame.x(0) - out;
        break;
      case Side::right:
        x = frame.x(grid.width_m()) + out;
        break;
    }
    points += fmt::format("{:.2f},{:.2f} ", x, y);
  }
  return fmt::format("<polyline fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\" points=\"{}\"/>\n", points);
}

std::string legend(const Frame& frame, const TemperatureGrid& grid, double low, double high, double right) {
  constexpr int steps = 40;
  const double top = frame.y(grid.height_m()), height = frame.y(0) - top;
  std::string svg;
  for (int i = 0; i < steps; ++i) {
    svg += fmt::format("<rect x=\"{:.1f}\" y=\"{:.2f}\" width=\"16\" height=\"{:.2f}\" fill=\"{}\"/>\n", right,
                       top + height * (steps - 1 - i) / steps, height / steps + 0.5, color_of((i + 0.5) / steps));
  }
  for (double share : {0.0, 0.5, 1.0}) {
    svg += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\">{:.1f} &#176;C</text>\n", right + 22,
                       top + height * (1 - share) + 4, low + share * (high - low));
  }
  return svg;
}

}  // namespace

std::string stress_svg(const TemperatureGrid& grid, const GridStress& result, const Language& language) {
  const double scale = pane_px / std::max(grid.width_m(), grid.height_m());
  const Frame frame{scale, margin_px, margin_px + grid.height_m() * scale};
  const double width = 2 * margin_px + grid.width_m() * scale + legend_px,
               height = 2 * margin_px + grid.height_m() * scale + 30;
  const auto [low, high] = std::minmax_element(grid.celsius.begin(), grid.celsius.end());
  double most = 0.0;
  for (const auto& side : result.stress.stress_pa) {
    for (double pa : side) most = std::max(most, std::abs(pa));
  }
  const double px_per_pa = most > 0.0 ? (margin_px - 25.0) / most : 0.0;
  std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" height=\"{1:.0f}\" "
      "font-family=\"sans-serif\" font-size=\"12\">\n<title>{2}</title>\n"
      "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
      width, height,
      tell(language, "Temperature and edge stress of a pane {:.3f} x {:.3f} m", grid.width_m(), grid.height_m()));
  svg += field_cells(grid, frame, *low, *high);
  svg += fmt::format(
      "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"none\" stroke=\"#000\"/>\n",
      frame.x(0), frame.y(grid.height_m()), grid.width_m() * scale, grid.height_m() * scale);
  for (Side side : all_sides) svg += curve(result.stress, side, grid, frame, px_per_pa);
  svg += legend(frame, grid, *low, *high, frame.x(grid.width_m()) + margin_px);
  const double bar_pa = std::pow(10.0, std::floor(std::log10(std::max(most, 1.0))));
  svg += fmt::format(
      "<path d=\"M 20 {0:.1f} h {1:.1f}\" stroke=\"#000\" stroke-width=\"2\"/><text x=\"{2:.1f}\" "
      "y=\"{3:.1f}\">{4}</text>\n",
      height - 14, bar_pa * px_per_pa, 28 + bar_pa * px_per_pa, height - 10,
      tell(language, "{:g} MPa, tension outwards", bar_pa / 1e6));
  svg += fmt::format("<text x=\"20\" y=\"20\">{}</text>\n</svg>\n",
                     tell(language, "Highest edge tension {:.2f} MPa, {} edge at {:.3f} m", result.stress.peak_pa / 1e6,
                          told(language, report::side_word(result.stress.peak_side)), result.stress.peak_position_m));
  return svg;
}

}  // namespace sunstrain
