#include "options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <sstream>
#include <thread>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::cli {
namespace {

[[noreturn]] void refuse_unknown(const std::string& typed, const po::options_description& options,
                                 const char* command) {
  std::vector<std::string> names;
  for (const auto& option : options.options()) names.push_back("--" + option->long_name());
  const std::string nearest = nearest_word(typed, names);
  if (nearest.empty()) throw BadInput(say("{}: no such option; sunstrain {} --help lists them", shown(typed), command));
  throw BadInput(
      say("{}: no such option, the nearest is {}; sunstrain {} --help lists them", shown(typed), nearest, command));
}

// The parser's sentence, with the option that it quotes apart.
Saying parsers_words(const std::string& text) {
  const std::size_t from = text.find("'"), to = text.find("'", from + 1);
  if (to == std::string::npos) return text;
  return saying(text.substr(0, from + 1) + "{}" + text.substr(to), text.substr(from + 1, to - from - 1));
}

void add_language_option(po::options_description& all) {
  const std::string form = joined(languages(), "|");
  all.add_options()("language", po::value<std::string>()->value_name(form), "of what is said; en when left out");
}

}  // namespace

std::optional<std::string> day_given(const po::variables_map& given, const char* name) {
  if (given.count(name) == 0) return std::nullopt;
  const std::string text = text_of(given, name, "");
  try {
    return parse_date(text);
  } catch (const BadInput& error) {
    throw BadInput(say("--{} = {}: {}", name, sunstrain::quoted(text), error));
  }
}

std::string language_of(const po::variables_map& given) { return text_of(given, "language", "en"); }

po::variables_map read_options(const Words& words, const po::options_description& options, const char* positional,
                               const char* command) {
  using namespace po::command_line_style;
  po::positional_options_description bare;
  if (positional != nullptr) bare.add(positional, -1);
  // The bare words are an option to the parser only: "--file x" is no way to name one.
  po::options_description all;
  all.add(options);
  add_language_option(all);
  if (positional != nullptr) all.add_options()(positional, po::value<std::vector<std::string>>());
  try {
    po::variables_map given;
    const auto parsed =
        po::command_line_parser(words).options(all).positional(bare).style(unix_style & ~allow_guessing).run();
    for (const auto& option : parsed.options) {
      if (positional != nullptr && option.string_key == positional && option.position_key < 0) {
        refuse_unknown("--" + option.string_key, options, command);
      }
    }
    po::store(parsed, given);
    return given;
  } catch (const po::unknown_option& error) {
    refuse_unknown(error.get_option_name(), options, command);
  } catch (const po::too_many_positional_options_error&) {
    const auto is_bare = [](const std::string& word) { return word.empty() || word.front() != '-'; };
    if (std::any_of(words.begin(), words.end(), is_bare))
      throw BadInput(say("{0}: takes options only, no bare words; sunstrain {0} --help lists them", command));
    throw BadInput(say("{0}: takes options only, no bare words after --; sunstrain {0} --help lists them", command));
  } catch (const po::error& error) {
    throw BadInput(say("{}; sunstrain {} --help lists the options", parsers_words(error.what()), command));
  }
}

std::string option_list(const po::options_description& options, const Language& language) {
  po::options_description all(options), in_language(tell(language, "Options"));
  add_language_option(all);
  for (const auto& option : all.options()) {
    std::string name = option->long_name();
    const std::string dashed = option->canonical_display_name(po::command_line_style::allow_dash_for_short);
    if (dashed.size() == 2 && dashed.front() == '-') name += std::string(",") + dashed.back();
    const std::string parameter = option->format_parameter(), text = told(language, option->description());
    if (parameter.empty())
      in_language.add_options()(name.c_str(), text.c_str());
    else
      in_language.add_options()(name.c_str(), po::value<std::string>()->value_name(parameter), text.c_str());
  }
  std::ostringstream out;
  out << in_language;
  return out.str();
}

Texts texts_of(const po::variables_map& given, const char* name) {
  return given.count(name) > 0 ? given[name].as<Texts>() : Texts();
}

std::string text_of(const po::variables_map& given, const char* name, const std::string& otherwise) {
  return given.count(name) > 0 ? given[name].as<std::string>() : otherwise;
}

std::string word_among(const po::variables_map& given, const char* name, const std::vector<std::string>& allowed,
                       const std::string& otherwise) {
  if (given.count(name) == 0) return otherwise;
  const std::string word = given[name].as<std::string>();
  if (std::find(allowed.begin(), allowed.end(), word) != allowed.end()) return word;
  throw BadInput(say("--{} = {}: allowed: {}", name, sunstrain::quoted(word), joined(allowed)));
}

int whole_number(const po::variables_map& given, const char* name, int least, int most, int otherwise) {
  if (given.count(name) == 0) return otherwise;
  const std::string text = given[name].as<std::string>();
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc() && end == text.data() + text.size() && number >= least && number <= most) return number;
  throw BadInput(say("--{} = {}: allowed: whole numbers from {} to {}", name, sunstrain::quoted(text), least, most));
}

void add_threads_option(po::options_description& all, const char* sentence) {
  all.add_options()("threads", po::value<std::string>()->value_name("N"), sentence);
}

std::size_t threads_of(const po::variables_map& given) {
  constexpr int most_threads = 256;
  const int cores = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_threads);
  return static_cast<std::size_t>(whole_number(given, "threads", 1, most_threads, cores));
}

JobKey quantity_key(JobKey::Kind kind, const char* unit, double minimum, double maximum, const char* sentence) {
  JobKey key;
  key.kind = kind;
  key.unit = unit;
  key.minimum = minimum;
  key.maximum = maximum;
  key.sentence = sentence;
  return key;
}

double number_of(const po::variables_map& given, const char* name, const JobKey& key, double otherwise) {
  if (given.count(name) == 0) return otherwise;
  const std::string text = given[name].as<std::string>();
  try {
    require_text(text, "the text");
    if (const auto value = parse_value(key, text)) return std::get<double>(*value);
    throw BadInput("must be known here");
  } catch (const BadInput& error) {
    throw BadInput(say("--{} = {}: {}", name, sunstrain::quoted(text), error));
  }
}

Units units_of(const po::variables_map& given) {
  return word_among(given, "units", {"metric", "inch"}, "metric") == "inch" ? Units::inch : Units::metric;
}

}  // namespace sunstrain::cli
