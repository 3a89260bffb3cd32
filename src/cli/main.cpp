// sunstrain COMMAND ...: finds the command, writes what it made, turns exceptions into exit codes.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <stdexcept>
#include <string>
#include <vector>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "command.hpp"
#include "named_rows.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job.hpp"
#include "terminal.hpp"

namespace {

using namespace sunstrain;
using cli::Outcome;
using cli::Words;

struct Command {
  const char *name, *sentence;
  Outcome (*run)(const Words&);
  std::string (*help)(const Language&);
};

constexpr Command commands[]{
    {"ask", "question and answer at a window; writes the job file", cli::ask, cli::ask_help},
    {"check", "whether a pane takes a window film, and why", cli::check, cli::check_help},
    {"schedule", "the same for a table of pane types", cli::schedule, cli::schedule_help},
    {"limit", "how dark a film a pane takes, as it is and once mended", cli::limit, cli::limit_help},
    {"rank", "every film of your own list on a pane, or on each of a table", cli::rank, cli::rank_help},
    {"sun", "where the sun stands and how much falls on a pane, hour by hour", cli::sun, cli::sun_help},
    {"stress", "the edge stress that a measured temperature field causes", cli::stress, cli::stress_help},
    {"trace", "the working behind an answer, figure by figure with its source", cli::trace, cli::trace_help},
    {"tables", "the data the answers rest on, every row with its source", cli::tables, cli::tables_help},
    {"practice", "windows to practice at, and a score sheet", cli::practice, cli::practice_help},
    {"report", "sheets on paper for the customer, the file or a maker", cli::report, cli::report_help},
    {"record", "answers kept in a file that shows whether it was changed", cli::record, cli::record_help},
    {"break", "what the crack of a pane tells, and what to keep", cli::break_report, cli::break_help},
    {"page", "the check as one html file for a phone, without a network", cli::page, cli::page_help},
};

std::string short_help(const Language& language) {
  std::string text = tell(language,
                          "sunstrain: will this pane take this window film, or will the sun crack it?\n\n"
                          "  sunstrain check --template > job.toml      a job to fill in\n"
                          "  sunstrain check job.toml                   its answer\n"
                          "  sunstrain check --set pane.width=\"36 in\" --set pane.height=\"5 ft\" \\\n"
                          "      --set film.solar_absorptance=0.45      the same without a file\n\n"
                          "Commands\n");
  for (const Command& command : commands)
    text += fmt::format("  {:<10}{}\n", command.name, told(language, command.sentence));
  return text + "\n" + tell(language, "sunstrain COMMAND --help explains one; --version names program and tables.") +
         "\n";
}

std::string version(const Language& language) {
  return tell(language, "sunstrain {}\nreference tables {}", SUNSTRAIN_VERSION, builtin_reference().version) + "\n";
}

const Command& command_named(const std::string& name) {
  if (const Command* command = cli::row_named(commands, name)) return *command;
  const std::vector<std::string> names = cli::names_of(commands);
  throw BadInput(say("{}: no such command; there are: {}{}", shown(name), joined(names), nearest_hint(name, names)));
}

bool asks_help(const Words& words) {
  const auto end = std::find(words.begin(), words.end(), "--");
  return std::any_of(words.begin(), end, [](const std::string& word) { return word == "--help" || word == "-h"; });
}

// The language that the words ask for; English where they ask for none.
std::string asked_language(const Words& words) {
  const auto end = std::find(words.begin(), words.end(), "--");
  const std::string option = "--language", with_value = option + "=";
  std::string code = "en";
  for (auto word = words.begin(); word != end; ++word) {
    if (word->starts_with(with_value)) code = word->substr(with_value.size());
    if (*word == option && word + 1 != end) code = *(word + 1);
  }
  return code;
}

// The same for what is wrong, which may be the language.
Language language_of_complaint(const Words& words) {
  const std::string code = asked_language(words);
  const std::vector<std::string> known = languages();
  return std::find(known.begin(), known.end(), code) == known.end() ? Language{} : load_language(code);
}

Outcome run(const Words& words) {
  const std::string first = words.empty() ? "help" : words.front();
  const auto language = [&] { return load_language(asked_language(words)); };
  if (first == "--help" || first == "-h" || first.starts_with("--language")) return {short_help(language())};
  if (first == "--version" || first == "-V") return {version(language())};
  if (first == "help") {
    const bool of_all = words.size() < 2 || words[1].starts_with("--language");
    return {of_all ? short_help(language()) : command_named(words[1]).help(language())};
  }
  const Command& command = command_named(first);
  const Words rest(words.begin() + 1, words.end());
  return asks_help(rest) ? Outcome{command.help(language())} : command.run(rest);
}

int complain(std::string message, cli::Exit exit) {
  for (char& c : message) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = '?';  // one line, and no escape sequences
  }
  std::fprintf(stderr, "sunstrain: %s\n", message.c_str());
  return exit;
}

}  // namespace

int main(int argc, char** argv) {
  const Words words(argv + std::min(argc, 1), argv + argc);
  try {
    const Outcome outcome = run(words);
    cli::write_out(outcome.text);
    std::fputs(outcome.aside.c_str(), stderr);
    return outcome.exit;
  } catch (const BadInput& error) {
    return complain(told(language_of_complaint(words), error), cli::bad_input);
  } catch (const std::exception& error) {
    return complain(tell(language_of_complaint(words), "fault of the program: {}", error.what()), cli::fault);
  }
}
