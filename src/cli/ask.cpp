// sunstrain ask: question and answer at a window; a job file and its answer at the end.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/words.hpp"
#include "answer_options.hpp"
#include "command.hpp"
#include "row_files.hpp"
#include "sunstrain/case.hpp"
#include "sunstrain/io/interview.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/question_text.hpp"
#include "sunstrain/resolve.hpp"
#include "terminal.hpp"
#include "typed_lines.hpp"

namespace sunstrain::cli {
namespace {

using report::labeled;

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("output,o", po::value<std::string>()->value_name("JOB.toml"),
                    "the job file; asked for at the end when left out")(
      "force", "write over a file of that name without asking")(
      "quick", "only what stops a job, the glass at a glance, size, frame, place and film")(
      "sheet", "no questions: the same on sheets of paper to fill in by pencil, 60 lines each")(
      "units", po::value<std::string>()->value_name("metric|inch"), "of the printed answer; metric when left out")(
      "no-color", "no color on a terminal; NO_COLOR in the environment does the same")("help", "this page");
  return all;
}

std::string greeting(const Language& language) {
  return tell(
      language,
      "Answer with a number of the list, its first letters, or a value with its unit; not sure: \"5 to 7 mm\", "
      "\"vinyl or wood\". Enter or ?: don't know. back: the question before. enough: only what must be known is "
      "still asked. quit: write nothing. Cracked glass: hands off.");
}

// A command in English, which every language takes, or in the language.
bool is_command(const std::string& word, const char* command, const Language& language) {
  return word == command || word == told(language, command);
}

// What is said and what is answered.
class Talk {
 public:
  Talk(int columns, const Language& language) : width_(columns), language_(language) {}

  const Language& language() const { return language_; }

  void say(const std::string& text) { write_out(text); }
  void say_wrapped(const std::string& text) { write_out(labeled("", text, 0, width_)); }
  std::string answer() { return lines_.next("> "); }
  int width() const { return width_; }

 private:
  TypedLines lines_{"ask"};
  int width_;
  const Language& language_;
};

struct Quit {};

void say_rules(Talk& talk, const Interview& before, const Interview& now, const Reference& reference) {
  for (const Rule* rule : newly_fired(job_of(before, reference), job_of(now, reference), reference))
    talk.say("\n" + rule_text(*rule, reference.language, talk.width()));
}

// One line of answer: a command, or the answer itself.
Interview taken(Talk& talk, const Interview& interview, const Asking& asking, const Reference& reference) {
  const std::string typed = talk.answer(), word = lower_case(trimmed(typed));
  if (is_command(word, worded("quit"), reference.language)) throw Quit{};
  if (is_command(word, worded("back"), reference.language)) {
    if (interview.steps.empty()) talk.say(tell(reference.language, "There is no question before this one.") + "\n");
    return one_back(interview);
  }
  if (is_command(word, worded("enough"), reference.language)) {
    Interview shorter = interview;
    shorter.enough_after = interview.steps.size();
    return shorter;
  }
  try {
    Interview next = answered(interview, asking, typed, reference);
    say_rules(talk, interview, next, reference);
    return next;
  } catch (const BadInput& error) {
    talk.say_wrapped(told(talk.language(), error));
    return interview;
  }
}

// What check would refuse is refused while it can still be asked again.
void require_workable(const Job& job, const Reference& reference) {
  check_job(job, reference);
  build_case(resolve(job, Run::middle, {}, reference).job, Run::middle, reference);
}

// Asks until nothing is left to ask and the job is one that can be worked.
Interview conduct(Talk& talk, Interview interview, const Questions& questions) {
  const Reference& reference = *questions.reference;
  std::string part;
  for (;;) {
    const std::optional<Asking> asking = next_question(interview, questions);
    const Job job = job_of(interview, reference);
    if (asking) {
      if (asking->question->part != part) talk.say("\n---- " + asking->question->part + "\n");
      part = asking->question->part;
      talk.say("\n" + question_text(*asking, job, reference, talk.width()));
      interview = taken(talk, interview, *asking, reference);
      continue;
    }
    try {
      require_workable(job, reference);
      return interview;
    } catch (const BadInput& error) {
      talk.say("\n");
      talk.say_wrapped(told(talk.language(), error));
      interview = back_to_fault(std::move(interview), error.what());
    }
  }
}

// "Stair window, rear" -> "stair-window-rear.toml".
std::string file_name_of(const std::string& name) {
  std::string out;
  for (const char c : lower_case(name)) {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
      out += c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return (out.empty() ? "pane" : out.substr(0, 60)) + ".toml";
}

bool may_write(Talk& talk, const std::string& path, bool force) {
  if (force || !std::filesystem::exists(path)) return true;
  const Language& language = talk.language();
  talk.say(tell(language, "{} is there already. Write over it? yes or no", shown(path, longest_path)) + "\n");
  const std::string word = lower_case(trimmed(talk.answer()));
  if (is_command(word, "quit", language)) throw Quit{};
  return word == "y" || is_command(word, "yes", language);
}

std::string asked_path(Talk& talk, const std::string& usual) {
  talk.say("\n" + tell(talk.language(), "Name of the job file? Enter: {}", usual) + "\n");
  const std::string typed(trimmed(talk.answer()));
  if (is_command(lower_case(typed), "quit", talk.language())) throw Quit{};
  if (typed.empty() || typed == "?") return usual;
  return typed.ends_with(".toml") ? typed : typed + ".toml";
}

// Writes the file whole, under the name given or asked for; says where.
std::string written(Talk& talk, const std::string& text, std::string path, const std::string& usual, bool force) {
  for (;; path.clear()) {
    if (path.empty()) path = asked_path(talk, usual);
    if (!may_write(talk, path, force)) continue;
    try {
      RowsOut file(path);
      file.write(text);
      file.finish();
      return path;
    } catch (const BadInput& error) {
      talk.say_wrapped(told(talk.language(), error));
    }
  }
}

Outcome interview_and_answer(const po::variables_map& given, const std::string& path) {
  const Reference reference = builtin_reference_in(language_of(given));
  const Questions questions = builtin_questions_in(reference);
  const bool force = given.count("force") > 0;
  Talk talk(std::min(terminal_width(), usual_width), reference.language);
  talk.say_wrapped(greeting(reference.language));
  Interview start;
  if (given.count("quick") > 0) start.depth = Question::Asked::quick;
  const Interview done = conduct(talk, std::move(start), questions);
  const std::string name = word_of(job_of(done, reference), "job.name").value_or("");
  const std::string file = written(talk, job_file_text(done, questions), path, file_name_of(name), force);
  talk.say("\n" + tell(reference.language, "Written. The same answer again: sunstrain check {}", shell_word(file)) +
           "\n\n");
  Words check_words;
  if (given.count("units") > 0) check_words.push_back("--units=" + text_of(given, "units", ""));
  if (given.count("no-color") > 0) check_words.push_back("--no-color");
  if (given.count("language") > 0) check_words.push_back("--language=" + language_of(given));
  check_words.insert(check_words.end(), {"--", file});
  return check(check_words);
}

}  // namespace

std::string ask_help(const Language& language) {
  return tell(language,
              "sunstrain ask [options]: question and answer at a window, and the job file for it\n\n"
              "  sunstrain ask\n"
              "  sunstrain ask --quick -o stair.toml\n"
              "  sunstrain ask --sheet > sheet.txt      the same on paper\n\n"
              "What stops a job comes first, then glass, size, frame, facing and shade, inside\n"
              "and film. Enter or ? means don't know, everywhere but for size and film. What\n"
              "trade practice says of an answer is said at once. The commands back, enough and\n"
              "quit work at every question. The file is written whole at the end, then comes\n"
              "the answer of sunstrain check. Quit, Ctrl-D and Ctrl-C leave nothing behind.\n"
              "Answers may come from a pipe, one a line. What it does not ask (a sign on the\n"
              "glass, a half-drawn blind, a wall opposite, a second sash) goes into the file\n"
              "by hand: sunstrain check --template lists every key.\n\n") +
         option_list(options(), language) +
         tell(language,
              "\nExit codes: 0 it ran; 2 bad input, or it ended before the last question; 3 a\nfault of the program; "
              "130 "
              "Ctrl-C.\n");
}

Outcome ask(const Words& words) {
  const po::variables_map given = read_options(words, options(), nullptr, "ask");
  units_of(given);  // refused before the first question, not after the last
  if (given.count("sheet") > 0) {
    if (given.size() > 1 + given.count("language"))
      throw BadInput("--sheet: prints the questions and goes with no other option");
    const Reference reference = builtin_reference_in(language_of(given));
    return {question_sheet(builtin_questions_in(reference))};
  }
  const std::string path = text_of(given, "output", "");
  if (given.count("output") > 0 && path.empty()) throw BadInput("--output: is empty; name a file");
  if (given.count("force") == 0 && !path.empty() && std::filesystem::exists(path))
    throw BadInput(say("{}: is there already; name another, or add --force", shown(path, longest_path)));
  try {
    return interview_and_answer(given, path);
  } catch (const Quit&) {
    return {tell(load_language(language_of(given)), "Nothing was written.") + "\n"};
  } catch (const TypedLines::Stopped&) {
    return {"\n", stopped, tell(load_language(language_of(given)), "Stopped: nothing was written.") + "\n"};
  }
}

}  // namespace sunstrain::cli
