#include "drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sunstrain::paper {
namespace {

std::string attributes(const Pen& pen) {
  std::string text = fmt::format(" fill=\"{}\"", pen.fill);
  if (pen.stroke == "none") return text;
  text += fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", pen.stroke, number(pen.width));
  if (!pen.dashes.empty()) text += fmt::format(" stroke-dasharray=\"{}\"", pen.dashes);
  return text;
}

}  // namespace

Pen line_pen(double width, std::string dashes, std::string color) {
  return {std::move(color), "none", width, std::move(dashes)};
}
Pen fill_pen(std::string fill, std::string stroke, double width) {
  return {std::move(stroke), std::move(fill), width, {}};
}

std::string number(double value) {
  std::string text = fmt::format("{:.2f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

void Drawing::box(const Box& b, const Pen& pen) {
  code_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}/>", number(b.x), number(b.y),
                       number(std::max(b.width, 0.0)), number(std::max(b.height, 0.0)), attributes(pen));
}

void Drawing::line(Point from, Point to, const Pen& pen) { lines({from, to}, pen); }

void Drawing::lines(const std::vector<Point>& points, const Pen& pen, bool closed) {
  std::string data;
  for (const Point& p : points) data += fmt::format("{}{} {}", data.empty() ? "M" : "L", number(p.x), number(p.y));
  path(data + (closed ? "Z" : ""), pen);
}

void Drawing::path(const std::string& data, const Pen& pen) {
  code_ += fmt::format("<path d=\"{}\"{}/>\n", data, attributes(pen));
}

void Drawing::ring(Point middle, double radius, const Pen& pen) {
  code_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>", number(middle.x), number(middle.y), number(radius),
                       attributes(pen));
}

// x + y = c over the whole drawing, so that the lines of neighbors meet.
void Drawing::hatch(const Box& b, double apart, const Pen& pen) {
  std::string data;
  const double first = std::ceil((b.x + b.y) / apart) * apart;
  for (double c = first; c <= b.right() + b.bottom(); c += apart) {
    const double x0 = std::max(b.x, c - b.bottom()), x1 = std::min(b.right(), c - b.y);
    if (x1 > x0) data += fmt::format("M{} {}L{} {}", number(x0), number(c - x0), number(x1), number(c - x1));
  }
  if (!data.empty()) path(data, pen);
}

void Drawing::words(Point at, std::string_view text, std::string_view anchor, double size, std::string_view fill,
                    bool bold) {
  code_ +=
      fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\" font-size=\"{}\" fill=\"{}\"{}>{}</text>\n", number(at.x),
                  number(at.y), anchor, number(size), fill, bold ? " font-weight=\"bold\"" : "", escaped(text));
}

void Drawing::words_over(Point at, std::string_view text, std::string_view anchor, double size) {
  const auto letters =
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
  const double width = 0.56 * size * static_cast<double>(letters) + 3.0;
  const double left = anchor == "middle" ? at.x - 0.5 * width : anchor == "end" ? at.x - width + 1.5 : at.x - 1.5;
  box({left, at.y - 0.82 * size, width, 1.08 * size}, fill_pen("#fff"));
  words(at, text, anchor, size);
}

Html Drawing::figure(const std::string& title, const Html& caption, const std::string& kind) const {
  const std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\" role=\"img\" "
      "aria-label=\"{2}\">\n<g font-family=\"Liberation Sans, Arimo, Arial, Helvetica, sans-serif\">\n{3}</g></svg>\n",
      number(width_), number(height_), escaped(title), code_);
  return element("figure", Html{svg} + (caption.empty() ? Html{} : element("figcaption", caption)), classed(kind));
}

double round_step(double low, double high, int count) {
  const double rough = std::max(high - low, 1e-9) / count, power = std::pow(10.0, std::floor(std::log10(rough)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (rough <= factor * power * (1.0 + 1e-9)) return factor * power;
  return 10.0 * power;
}

std::vector<double> round_values(double low, double high, double step) {
  std::vector<double> values;
  for (double i = std::ceil(low / step - 1e-9); i <= high / step + 1e-9; ++i) values.push_back(i * step);
  return values;
}

void draw_values(Drawing& drawing, const ValueAxis& axis, double left, double right, const std::string& unit) {
  for (const double value : round_values(axis.low, axis.high, axis.step)) {
    drawing.line({left, axis.y(value)}, {right, axis.y(value)}, line_pen(0.4, {}, "#ccc"));
    drawing.words({left - 4.0, axis.y(value) + 3.0}, fmt::format("{:g}", value + 0.0), "end", 8.5);
  }
  drawing.words({2.0, 9.0}, unit, "start", 9.5, "#111", true);
}

std::vector<double> spread(const std::vector<double>& wanted, double apart, double least, double most) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
  std::vector<double> at(wanted.size());
  double free_from = least;
  for (const std::size_t i : order) {
    at[i] = std::max(wanted[i], free_from);
    free_from = at[i] + apart;
  }
  double free_to = most;
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    at[*i] = std::min(at[*i], free_to);
    free_to = at[*i] - apart;
  }
  return at;
}

void stretch_mark(Drawing& drawing, Point at, bool upright, double scale) {
  const auto place = [&](double along, double across) -> Point {
    return upright ? Point{at.x + scale * across, at.y + scale * along}
                   : Point{at.x + scale * along, at.y + scale * across};
  };
  for (const bool halo : {true, false}) {
    const Pen pen = halo ? line_pen(5.0 * scale, {}, "#fff") : line_pen(2.2 * scale, {}, "#b34700");
    for (const double way : {-1.0, 1.0}) {
      drawing.line(place(5.0 * way, 0.0), place(22.0 * way, 0.0), pen);
      drawing.lines({place(16.0 * way, -5.0), place(23.0 * way, 0.0), place(16.0 * way, 5.0)}, pen);
    }
  }
  drawing.ring(at, 4.5 * scale, {"#b34700", "#fff", 2.2 * scale, {}});
}

}  // namespace sunstrain::paper
