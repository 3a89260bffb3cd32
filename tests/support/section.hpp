// Steady heat conduction in a section through frame, spacer and glass, as the standards' reference sections give it:
// the route behind the frame numbers in reference/frames.toml, on its own from the engine's strip.
#pragma once

#include <vector>

namespace sunstrain::test {

struct Box {
  double x0_m, x1_m, y0_m, y1_m;
};

// What lies where two parts overlap is the later one's.
struct SectionPart {
  Box box;
  double conductivity_w_mk;
  double heat_j_m3k = 0.0;  // held per volume; only a swing asks for it
};

// Whatever faces this box and is solid exchanges with it through a surface resistance, m2K/W (0: held at temperature).
// Solids lie over air. What is covered by neither lets no heat through.
struct SectionAir {
  Box box;
  double temperature_c, resistance_m2k_w;
};

// Heat made in a part's own box, W/m2 of its area in the plane times 1 m (W/m3).
struct SectionHeat {
  Box box;
  double heat_w_m3;
};

struct Section {
  std::vector<SectionPart> parts;
  std::vector<SectionAir> airs;
  std::vector<SectionHeat> heats;
  std::vector<double> fine_x_m, fine_y_m;  // where temperatures will be read: finest there too
  double finest_m = 0.0005;                // at every line where something begins or ends; from there on cells grow
  double growth = 1.25, coarsest_m = 0.01;
};

struct SectionField {
  std::vector<double> x_m, y_m;  // lines between cells
  std::vector<double> cell_c;    // [j * columns + i]; not a number where nothing solid is
  std::vector<double> conductivity_w_mk;
  std::vector<double> from_air_w_m;  // heat that each air gives the solids, per meter of section
  // The mean of those cells at a point that conduct best: they are nearest to its temperature.
  double at(double x_m, double y_m) const;
  // Mean of the solid cells whose middles lie in the box, by area.
  double mean(const Box& box) const;
};

// Control volumes on the tensor grid of all lines: conduction between two cells through half of each in series.
SectionField solve_section(const Section& section);

// The same with airs and heats that swing as cos(2 pi t/period): the answer is in_step cos + behind sin, whose
// from_air_w_m are empty.
struct SectionSwing {
  SectionField in_step, behind;
};
SectionSwing solve_swing(const Section& section, double period_s);

// An air cavity of a frame, ISO 10077-2: its own conductivity follows from the temperatures of its two sides. d along
// the heat flow, b across, m; difference and mean of the two sides, K and degrees C.
double cavity_conductivity_w_mk(double d_m, double b_m, double difference_k, double mean_c, double emissivity);

}  // namespace sunstrain::test
