#include "answer_options.hpp"

#include "own_rules.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {

void add_answer_options(po::options_description& all) {
  all.add_options()("set", po::value<Texts>()->value_name("KEY=VALUE")->composing(),
                    "over the file; repeat it. A whole job can be given so")(
      "json", "the answer as JSON (a list when there are several)");
  add_rules_option(all);
  add_style_options(all);
}

void add_style_options(po::options_description& all) {
  all.add_options()("units", po::value<std::string>()->value_name("metric|inch"),
                    "of the printed answer; metric when left out")(
      "no-color", "no color on a terminal; NO_COLOR in the environment does the same")(
      "width", po::value<std::string>()->value_name("COLUMNS"),
      "60 to 200; as wide as the terminal when left out, else 80")("help", "this page");
}

TextStyle style_of(const po::variables_map& given) {
  const int width = whole_number(given, "width", least_width, most_width, terminal_width());
  return {width, given.count("no-color") == 0 && terminal_takes_color(), given.count("full") > 0, units_of(given)};
}

}  // namespace sunstrain::cli
