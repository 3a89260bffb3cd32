#include "own_rules.hpp"

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace sunstrain::cli {

void add_rules_option(po::options_description& all) {
  all.add_options()("rules", po::value<std::string>()->value_name("FILE"),
                    "rules of your own beside the built-in ones, which all stay; examples/crew-rules.toml shows the "
                    "form");
}

Reference reference_of(const po::variables_map& given) {
  Reference reference = builtin_reference_in(language_of(given));
  if (given.count("rules") == 0) return reference;
  const std::string path = text_of(given, "rules", "");
  return with_own_rules(std::move(reference), path, read_text_file(path));
}

}  // namespace sunstrain::cli
