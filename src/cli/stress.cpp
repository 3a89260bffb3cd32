// sunstrain stress: a temperature field in, the stress along the edge out.
#include <fmt/format.h>

#include <fstream>

#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "command.hpp"
#include "options.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/stress_report.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {
namespace {

using Kind = JobKey::Kind;

po::options_description options() {
  const auto text = [](const char* form) { return po::value<std::string>()->value_name(form); };
  po::options_description all("Options");
  all.add_options()("width", text("LENGTH"),
                    "of the pane, for a plain table such as a thermal camera writes; with --height")(
      "height", text("LENGTH"), "of the pane; the table's first row is its top, seen from outdoors")(
      "young", text("GPA"), "Young's modulus of the glass; 70 when left out")(
      "expansion", text("PER_K"), "expansion of the glass; 9e-6 when left out")(
      "points", text("NUMBER"), "along each edge, 200 to 2000; 200 when left out")(
      "svg", text("FILE"), "draw the field and the stress along its edges")("json", "every point as JSON")("help",
                                                                                                           "this page");
  return all;
}

std::optional<double> side_of(const po::variables_map& given, const char* name) {
  if (given.count(name) == 0) return std::nullopt;
  return number_of(given, name, quantity_key(Kind::length, "m", 0.05, 12.0, "of the pane"), 0.0);
}

void write_file(const std::string& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  if (!file) throw BadInput(say("--svg {}: cannot be written", path));
}

}  // namespace

std::string stress_help(const Language& language) {
  return tell(language,
              "sunstrain stress FIELD.csv [options]: the stress along the edges of a free pane\n\n"
              "  sunstrain stress field.csv --svg field.svg\n"
              "  sunstrain stress camera.csv --width \"37 1/4 in\" --height \"5 ft 2 in\" --json\n\n"
              "FIELD.csv: first row x in m from the left, first column y in m from the bottom,\n"
              "both as seen from outdoors, the other cells in degrees C. Straight lines between\n"
              "the points; a coordinate given twice makes a jump. With --width and --height a\n"
              "plain table without coordinates.\n\n") +
         option_list(options(), language);
}

Outcome stress(const Words& words) {
  const po::variables_map given = read_options(words, options(), "field", "stress");
  const Texts files = texts_of(given, "field");
  if (files.size() != 1)
    throw BadInput("stress: name one table of temperatures; sunstrain stress --help shows its form");
  const double young =
      number_of(given, "young", quantity_key(Kind::number, "GPa", 1.0, 500.0, "Young's modulus"), 70.0);
  const double expansion =
      number_of(given, "expansion", quantity_key(Kind::number, "1/K", 1e-8, 1e-4, "expansion"), 9e-6);
  const Language language = load_language(language_of(given));
  const TemperatureGrid grid = read_temperature_grid(read_text_file(files.front()), files.front(),
                                                     side_of(given, "width"), side_of(given, "height"));
  const GridStress result =
      grid_stress(grid, {young * 1e9, expansion}, (whole_number(given, "points", 200, 2000, 200) + 1) / 2 * 2);
  if (given.count("svg") > 0) write_file(text_of(given, "svg", ""), stress_svg(grid, result, language));
  return {given.count("json") > 0 ? stress_json(grid, result)
                                  : stress_text_report(grid, result, language, std::min(terminal_width(), 80))};
}

}  // namespace sunstrain::cli
