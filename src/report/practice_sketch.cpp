// The pane in its worst hour, in letters.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sunstrain/pane_map.hpp"
#include "sunstrain/report/practice_text.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using namespace report;

constexpr std::size_t margin = 3, most_columns = 44, most_rows = 10, least_columns = 12, least_rows = 5;
constexpr const char* steps = ".:+#";  // cool to warm
constexpr std::size_t step_count = 4;

// A letter is about twice as high as wide.
struct Size {
  std::size_t columns, rows;
};
Size size_of(double width_m, double height_m) {
  const double letters = 2.0 * width_m / height_m;  // columns a row
  const double rows = std::min(static_cast<double>(most_rows), static_cast<double>(most_columns) / letters);
  return {std::clamp(static_cast<std::size_t>(std::lround(rows * letters)), least_columns, most_columns),
          std::clamp(static_cast<std::size_t>(std::lround(rows)), least_rows, most_rows)};
}

std::size_t step_of(double kelvin, double coolest_k, double warmest_k) {
  const double share = warmest_k > coolest_k ? (kelvin - coolest_k) / (warmest_k - coolest_k) : 0.0;
  return std::min(static_cast<std::size_t>(share * static_cast<double>(step_count)), step_count - 1);
}

std::size_t place_of(double share, std::size_t count) {
  return std::min(static_cast<std::size_t>(share * static_cast<double>(count)), count - 1);
}

// The frame's line above or below, with the mark where the edge is stretched.
std::string frame_line(const PaneMap& map, Side side) {
  std::string line = std::string(margin, ' ') + "+" + std::string(map.columns, '-') + "+\n";
  if (map.side != side) return line;
  const std::size_t at = std::min(place_of(map.along, map.columns), map.columns - 2);
  return line.replace(margin + 1 + at, 2, "<>");
}

std::string glass_line(const PaneMap& map, std::size_t row, double coolest_k, double warmest_k) {
  const bool here = row == map.rows - 1 - place_of(map.along, map.rows);
  const char left = map.side == Side::left && here ? '*' : '|', right = map.side == Side::right && here ? '*' : '|';
  std::string line = std::string(margin, ' ') + left;
  for (std::size_t column = 0; column < map.columns; ++column)
    line += steps[step_of(map.at(row, column), coolest_k, warmest_k)];
  return line + right + "\n";
}

}  // namespace

std::string sketch_text(const Assessment& answer, const Reference& reference, const TextStyle& style) {
  const auto meters = [&](const char* key) { return std::get<double>(answer.bad_end.values.at(key)); };
  const Size size = size_of(meters("pane.width"), meters("pane.height"));
  const PaneMap map = pane_map(answer, reference, size.columns, size.rows);
  const double warmest_k = *std::max_element(map.kelvin.begin(), map.kelvin.end());
  const double coolest_k = *std::min_element(map.kelvin.begin(), map.kelvin.end());
  const Language& language = reference.language;
  std::string text = labeled("",
                             tell(language, "The pane from outdoors, {}:",
                                  moment_text(language, answer.lites[answer.governing_lite].after.when)),
                             0, style.width);
  text += frame_line(map, Side::top);
  for (std::size_t row = 0; row < map.rows; ++row) text += glass_line(map, row, coolest_k, warmest_k);
  text += frame_line(map, Side::bottom);
  const auto warmth = [&](double k) { return warmth_text(k, 0, style.units); };
  const bool flat = map.side == Side::bottom || map.side == Side::top;
  return text + labeled("",
                        tell(language,
                             "{} {} to {} {}; outermost the edge behind the frame. {} stretched most there: {} "
                             "edge.",
                             steps[0], warmth(coolest_k), steps[step_count - 1], warmth(warmest_k), flat ? "<>" : "*",
                             told(language, side_word(map.side))),
                        static_cast<int>(margin), style.width);
}

}  // namespace sunstrain
