// sunstrain page: the offline page, written out.
#include "../io/tell.hpp"
#include "command.hpp"
#include "embedded_page.hpp"
#include "options.hpp"
#include "row_files.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                    "the html file to write; standard output when left out")("help", "this page");
  return all;
}

}  // namespace

std::string page_help(const Language& language) {
  return tell(language,
              "sunstrain page [-o FILE]: the same check as one html file for a phone\n\n"
              "  sunstrain page -o sunstrain.html\n\n"
              "Copy the file to the device and open it in a web browser. It needs no network and\n"
              "sends nothing. The program has it where it was built before the program:\n"
              "cmake --build build/release --target page, which needs emscripten.\n\n") +
         option_list(options(), language);
}

Outcome page(const Words& words) {
  const po::variables_map given = read_options(words, options(), nullptr, "page");
  const std::string output = text_of(given, "output", "");
  if (given.count("output") > 0 && output.empty()) throw BadInput("--output: names no file");
  const std::string html(embedded_page());
  if (html.empty())
    throw BadInput(
        "page: this program was built without it, or after a change; with emscripten installed, cmake --build "
        "build/release "
        "--target page and then --target sunstrain give one that has it");
  if (output.empty()) return {html};
  RowsOut out(output);
  out.write(html);
  out.finish();
  return {};
}

}  // namespace sunstrain::cli
