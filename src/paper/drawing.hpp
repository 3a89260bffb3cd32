// Internal: a picture as inline SVG, drawn with nothing but attributes, so that a browser and a renderer of paper show
// the same. Units are CSS pixels at the size it is meant for; y goes down.
#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "html.hpp"

namespace sunstrain::paper {

struct Point {
  double x, y;
};
struct Box {
  double x, y, width, height;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
};

struct Pen {
  std::string stroke = "none", fill = "none";
  double width = 1.0;
  std::string dashes = {};
};
Pen line_pen(double width = 1.0, std::string dashes = {}, std::string color = "#111");
Pen fill_pen(std::string fill, std::string stroke = "none", double width = 0.0);

class Drawing {
 public:
  Drawing(double width, double height) : width_(std::ceil(width)), height_(std::ceil(height)) {}
  double width() const { return width_; }
  double height() const { return height_; }

  void box(const Box& box, const Pen& pen);
  void line(Point from, Point to, const Pen& pen);
  void lines(const std::vector<Point>& points, const Pen& pen, bool closed = false);
  void path(const std::string& data, const Pen& pen);
  void ring(Point middle, double radius, const Pen& pen);
  // Lines at 45 degrees over the box, so far apart.
  void hatch(const Box& box, double apart, const Pen& pen);
  // anchor: "start", "middle" or "end" of the text at that point of its base line.
  void words(Point at, std::string_view text, std::string_view anchor = "start", double size = 10.0,
             std::string_view fill = "#111", bool bold = false);
  // The same, readable on whatever lies under it.
  void words_over(Point at, std::string_view text, std::string_view anchor = "start", double size = 10.0);

  // As a figure: the picture, called `title` to those who cannot see it, and a caption.
  Html figure(const std::string& title, const Html& caption, const std::string& kind) const;

 private:
  double width_, height_;
  std::string code_;
};

std::string number(double value);  // to a hundredth, no trailing zeros

// Round values about `count` of them, from low to high: steps of 1, 2 or 5 times a power of ten.
double round_step(double low, double high, int count);
std::vector<double> round_values(double low, double high, double step);

// The axis of a chart's values, upright; `step` between the values that are written at it.
struct ValueAxis {
  double low, high, step, top, bottom;
  double y(double value) const { return bottom - (value - low) / (high - low) * (bottom - top); }
};
// Its values from `left` to `right` across the chart, and the unit over them.
void draw_values(Drawing& drawing, const ValueAxis& axis, double left, double right, const std::string& unit);

// Heights of labels beside a column of points, each as near its point as leaves `apart` between any two; in the order
// given, kept between least and most where they fit.
std::vector<double> spread(const std::vector<double>& wanted, double apart, double least, double most);

// Two arrows that pull apart along an edge, and a ring between them.
void stretch_mark(Drawing& drawing, Point at, bool upright, double scale);

}  // namespace sunstrain::paper
