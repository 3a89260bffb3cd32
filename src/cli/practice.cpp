// sunstrain practice: windows of our own, answered by a learner and by the engine.
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <memory>
#include <random>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "../report/words.hpp"
#include "answer_options.hpp"
#include "command.hpp"
#include "own_rules.hpp"
#include "results_file.hpp"
#include "row_files.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/practice_deck.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/practice_rows.hpp"
#include "sunstrain/report/practice_text.hpp"
#include "terminal.hpp"
#include "typed_lines.hpp"

namespace sunstrain::cli {
namespace {

using report::labeled;

constexpr int usual_count = 10, most_count = 1000, most_seed = 999'999;
constexpr std::size_t most_offered = 5;

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("count", po::value<std::string>()->value_name("N"), "how many are asked; 10 when left out")(
      "drills", "drills in place of windows: what is this glass?")(
      "topic", po::value<Texts>()->value_name("TOPIC")->composing(),
      "only of this topic, by its name in --topics or its number there, or own; repeat it")(
      "topics", "no questions: the topics, and how many there are of each")(
      "seed", po::value<std::string>()->value_name("N"), "the same windows in the same order for the same number")(
      "add", po::value<Texts>()->value_name("JOB.toml")->composing(),
      "a trainer's own window: a job file, its name the title, its note what one sees; repeat it")(
      "results", po::value<std::string>()->value_name("FILE.csv"), "append a row for each answer to this table")(
      "learner", po::value<std::string>()->value_name("NAME"), "who answers, for the table and the sheet")(
      "output,o", po::value<std::string>()->value_name("SHEET.txt"), "write the score sheet to a file as well");
  add_rules_option(all);
  all.add_options()("units", po::value<std::string>()->value_name("metric|inch"), "metric when left out")(
      "no-color", "no color on a terminal; NO_COLOR in the environment does the same")(
      "width", po::value<std::string>()->value_name("COLUMNS"),
      "60 to 200; as wide as the terminal when left out, else 80")("help", "this page");
  return all;
}

// ---- what is asked -------------------------------------------------------------------------------

constexpr const char* own_topic = "own";

std::string topic_list(const Deck& deck, const Language& language, int width) {
  std::string text = tell(language, "Topics: the mistakes that are often made") + "\n";
  int number = 0;
  const auto of = [](const auto& items, const std::string& id) {
    return std::count_if(items.begin(), items.end(), [&](const auto& item) { return item.topic == id; });
  };
  for (const PracticeTopic& topic : deck.topics) {
    const std::string counts =
        tell(language, "{} + {} drills", of(deck.scenarios, topic.id), of(deck.drills, topic.id));
    text += fmt::format("{:>3} {}\n", ++number, topic.id) + "    " + report::named_row(topic.name, 4, counts, width);
  }
  return text;
}

// The ids of the topics that were named; nothing for all.
std::vector<std::string> topics_of(const po::variables_map& given, const Deck& deck) {
  std::vector<std::string> names, out;
  for (const PracticeTopic& topic : deck.topics) names.push_back(topic.id);
  for (const std::string& typed : texts_of(given, "topic")) {
    const auto named = std::find(names.begin(), names.end(), typed);
    const auto number = std::find_if(names.begin(), names.end(), [&](const std::string& name) {
      return std::to_string(&name - names.data() + 1) == typed;
    });
    if (named == names.end() && number == names.end() && typed != own_topic)
      throw BadInput(say("--topic = {}: no such topic; allowed: 1 to {}, own, or: {}{}", quoted(typed), names.size(),
                         joined(names), nearest_hint(typed, names)));
    out.push_back(typed == own_topic ? "" : named != names.end() ? *named : *number);
  }
  return out;
}

Deck deck_for(const po::variables_map& given, const Reference& reference) {
  Deck deck = builtin_deck_in(reference.language);
  for (const std::string& path : texts_of(given, "add"))
    deck.scenarios.push_back(scenario_of_job(path, read_text_file(path), reference));
  return deck;
}

// Those of the topics, in the order of the seed, as many as are wanted.
template <class Item>
std::vector<const Item*> chosen(const std::vector<Item>& items, const std::vector<std::string>& topics,
                                std::size_t count, RandomStream& random) {
  std::vector<const Item*> out;
  for (const std::size_t i : shuffled(items.size(), random)) {
    const bool wanted = topics.empty() || std::find(topics.begin(), topics.end(), items[i].topic) != topics.end();
    if (wanted && out.size() < count) out.push_back(&items[i]);
  }
  if (out.empty()) throw BadInput("--topic: there is none of it; sunstrain practice --topics says how many there are");
  return out;
}

// ---- the talk ------------------------------------------------------------------------------------

struct Ended {};  // by "quit"

// Everything that a practice needs and gathers.
struct Practice {
  const Reference& reference;
  Deck deck;
  TextStyle style;
  std::string learner;
  std::unique_ptr<ResultsFile> file;
  std::uint64_t seed = 0;
  TypedLines lines{"practice", "what was answered counts"};
  std::vector<PracticeResult> results{};

  void say(const std::string& text) const { write_out(text); }
};

std::string now_text() {
  const std::time_t now = std::time(nullptr);
  return fmt::format("{:%Y-%m-%d %H:%M}", fmt::localtime(now));
}

void keep(Practice& practice, PracticeResult result, const std::string& answered, const std::string& right) {
  if (practice.file)
    practice.file->append(
        practice_cells({now_text(), practice.learner, result, answered, right, practice.reference.version}));
  practice.results.push_back(std::move(result));
}

std::string asked(Practice& practice) {
  std::string typed(trimmed(practice.lines.next("> ")));
  if (const std::string word = lower_case(typed); word == "quit" || word == told(practice.reference.language, "quit"))
    throw Ended{};
  return typed;
}

// The number of one of the answers that are listed.
std::size_t asked_choice(Practice& practice, const std::vector<std::string>& answers) {
  std::string text;
  for (std::size_t i = 0; i < answers.size(); ++i)
    text += labeled(fmt::format("{:>3}", i + 1), answers[i], 4, practice.style.width);
  practice.say(text);
  for (;;) {
    const std::string typed = asked(practice);
    for (std::size_t i = 0; i < answers.size(); ++i)
      if (typed == std::to_string(i + 1)) return i;
    practice.say(tell(practice.reference.language, "A number from 1 to {}, or quit.", answers.size()) + "\n");
  }
}

Verdict asked_verdict(Practice& practice) {
  const Language& language = practice.reference.language;
  practice.say(tell(language, "Go, caution or refer?") + "\n");
  for (;;) {
    if (const auto verdict = verdict_answered(asked(practice), language)) return *verdict;
    practice.say(tell(language, "go, caution or refer (or 1, 2, 3), or quit.") + "\n");
  }
}

std::string mark_of(bool right, const Language& language) {
  return right ? tell(language, "Right.") : tell(language, "Not so.");
}

// ---- one window ----------------------------------------------------------------------------------

Assessment worked(const Job& job, const Reference& reference) {
  ChainCache cache;
  Assessment answer = assess(job, reference, cache);
  answer.drivers = drivers_of(answer, reference, cache);
  return answer;
}

std::vector<Assessment> others_of(const Scenario& scenario, const Reference& reference) {
  std::vector<Assessment> out;
  for (const Comparison& comparison : scenario.compare) {
    ChainCache cache;
    out.push_back(assess_briefly(comparison.job, reference, cache));
  }
  return out;
}

std::vector<std::string> texts_of_all(const std::vector<Decider>& deciders, const Practice& practice) {
  std::vector<std::string> texts;
  for (const Decider& decider : deciders)
    texts.push_back(decider_text(decider, practice.reference, practice.style.units));
  return texts;
}

// What was right, then the picture, the lesson, and the answer as check prints it.
void show(const Practice& practice, const Scenario& scenario, const Assessment& answer, const PracticeResult& result,
          const std::string& right_texts) {
  const TextStyle& style = practice.style;
  const Language& language = practice.reference.language;
  const auto block = [&](const std::string& label, const std::string& text) {
    return labeled(label, text, report::label_columns, style.width);
  };
  const std::string mark = mark_of(result.answered == result.verdict, language);
  practice.say("\n" + block(tell(language, "Verdict"),
                            tell(language, "{} It is {}.", mark, report::verdict_words(language, answer.verdict))));
  practice.say(
      block(tell(language, "Decides"), fmt::format("{} {}", mark_of(result.picked_right, language), right_texts)));
  practice.say("\n" + sketch_text(answer, practice.reference, style) + "\n");
  const std::vector<Assessment> others = others_of(scenario, practice.reference);
  practice.say(lesson_text({&scenario, &answer, &others}, language, style));
  practice.say("\n" + tell(language, "The answer as sunstrain check prints it:") + "\n\n" +
               text_answer(answer, practice.reference, style));
}

void ask_window(Practice& practice, const Scenario& scenario, std::uint64_t stream) {
  practice.say(scenario_text(scenario, practice.reference, practice.style) + "\n");
  const Verdict verdict = asked_verdict(practice);
  const Assessment answer = worked(scenario.job, practice.reference);
  const std::vector<Decider> all = deciders_of(answer, practice.deck, practice.reference);
  RandomStream random(practice.seed, stream);
  const std::vector<Decider> shown_ones = offered(all, most_offered, random);
  PracticeResult result{scenario.id, scenario.topic, verdict, answer.verdict, true};
  std::string picked, right;
  if (!shown_ones.empty()) {
    practice.say(tell(practice.reference.language, "What decides it, or weighs most?") + "\n");
    const std::vector<std::string> texts = texts_of_all(shown_ones, practice);
    const std::size_t choice = asked_choice(practice, texts);
    result.picked_right = shown_ones[choice].right;
    picked = texts[choice];
    for (std::size_t i = 0; i < texts.size(); ++i)
      if (shown_ones[i].right) right += (right.empty() ? "" : " / ") + texts[i];
  }
  keep(practice, result, picked, right);
  show(practice, scenario, answer, result, right);
}

void ask_drill(Practice& practice, const Drill& drill, std::uint64_t stream) {
  practice.say(drill_text(drill, practice.style));
  std::vector<std::string> answers;
  RandomStream random(practice.seed, stream);
  for (const std::size_t i : shuffled(1 + drill.wrong.size(), random))
    answers.push_back(i == 0 ? drill.right : drill.wrong[i - 1]);
  const std::string picked = answers[asked_choice(practice, answers)];
  const bool right = picked == drill.right;
  keep(practice, {drill.id, drill.topic, {}, {}, right}, picked, drill.right);
  const Language& language = practice.reference.language;
  const int width = practice.style.width, indent = report::label_columns;
  practice.say("\n" + labeled("", fmt::format("{} {}.", mark_of(right, language), drill.right), 0, width) +
               labeled(tell(language, "Shows"), drill.proves, indent, width) +
               labeled(tell(language, "Not shown"), drill.proves_not, indent, width));
}

// ---- from the first to the sheet -----------------------------------------------------------------

std::string heading(const std::string& what) { return "\n---- " + what + " ----\n\n"; }

// What is asked, "Window 2 of 10", and how.
template <class Item>
void ask_all(Practice& practice, const std::vector<const Item*>& items,
             std::string (*numbered)(const Language&, std::size_t, std::size_t),
             void (*ask)(Practice&, const Item&, std::uint64_t)) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    practice.say(heading(numbered(practice.reference.language, i + 1, items.size())));
    ask(practice, *items[i], i + 1);
  }
}

std::string window_of(const Language& language, std::size_t number, std::size_t count) {
  return tell(language, "Window {} of {}", number, count);
}

std::string drill_of(const Language& language, std::size_t number, std::size_t count) {
  return tell(language, "Drill {} of {}", number, count);
}

std::string sheet_of(const Practice& practice) {
  const Language& language = practice.reference.language;
  const std::string head =
      tell(language, "sunstrain practice{}{}, {}, tables {}, seed {}", practice.learner.empty() ? "" : ": ",
           practice.learner, now_text(), practice.reference.version, practice.seed);
  return "\n" + labeled("", head, 0, practice.style.width) +
         score_text(score_of(practice.results), practice.deck, practice.style, language);
}

std::uint64_t seed_of(const po::variables_map& given) {
  const int by_chance = static_cast<int>(std::random_device{}() % (most_seed + 1U));
  return static_cast<std::uint64_t>(whole_number(given, "seed", 0, most_seed, by_chance));
}

std::string learner_of(const po::variables_map& given) {
  const std::string name = text_of(given, "learner", "");
  if (given.count("learner") == 0) return name;
  require_text(name, "--learner");
  if (trimmed(name).empty() || name.size() > longest_shown || shown(name) != name)
    throw BadInput(say("--learner = {}: allowed: a name of up to {} bytes on one line", quoted(name), longest_shown));
  return name;
}

// Asks; Ctrl-C, quit and the end of the input leave what was answered.
Outcome asked_and_scored(Practice& practice, const po::variables_map& given) {
  const std::vector<std::string> topics = topics_of(given, practice.deck);
  const auto count = static_cast<std::size_t>(whole_number(given, "count", 1, most_count, usual_count));
  RandomStream random(practice.seed, 0);
  std::vector<const Scenario*> windows;
  std::vector<const Drill*> drills;
  if (given.count("drills") > 0)
    drills = chosen(practice.deck.drills, topics, count, random);
  else
    windows = chosen(practice.deck.scenarios, topics, count, random);
  const Language& language = practice.reference.language;
  practice.say(labeled("",
                       tell(language,
                            "Answer with a word or its number. quit ends it with what was answered. All windows, "
                            "people and films are invented; the answers are the engine's."),
                       0, practice.style.width));
  Outcome outcome;
  try {
    ask_all(practice, windows, window_of, ask_window);
    ask_all(practice, drills, drill_of, ask_drill);
  } catch (const Ended&) {
  } catch (const TypedLines::Stopped&) {
    outcome = {"", stopped, tell(language, "Stopped: the sheet is of what was answered.") + "\n"};
  } catch (const BadInput& error) {  // the input ended, or is no text
    outcome = {"", bad_input, fmt::format("sunstrain: {}\n", told(language, error))};
  }
  outcome.text = sheet_of(practice);
  return outcome;
}

}  // namespace

std::string practice_help(const Language& language) {
  return tell(language,
              "sunstrain practice [options]: windows to practice at, and what you made of them\n\n"
              "  sunstrain practice\n"
              "  sunstrain practice --topic season --topic darkness --count 5\n"
              "  sunstrain practice --drills\n"
              "  sunstrain practice --add our-window.toml --topic own\n"
              "  sunstrain practice --learner \"Second crew\" --results crew.csv -o sheet.txt\n\n"
              "You see a window and what is on the pad, answer go, caution or refer, and pick\n"
              "what decides. Then comes what the engine makes of it: the verdict, a picture of\n"
              "the pane, the lesson, the answer of sunstrain check. At the end a score sheet: a\n"
              "practice record, not a qualification. Windows and people are invented; no\n"
              "verdict is kept in the program, the engine works each when it is asked.\n\n"
              "What decides: where trade guidance is stricter than the figures, each rule that\n"
              "brings the verdict; else the input that changes the load most, and each that\n"
              "comes near to it.\n\n"
              "Answers may come from a pipe, one a line; quit, Ctrl-D and Ctrl-C end it with\n"
              "what was answered. The table of --results takes the rows of a whole crew: date,\n"
              "learner, item, topic, verdict and what decides as answered and as right, right,\n"
              "tables.\n\n") +
         option_list(options(), language) +
         tell(language,
              "\nExit codes: 0 it ran, however well; 2 bad input, or the input ended before the\nlast question; 3 a "
              "fault "
              "of the program; 130 Ctrl-C.\n");
}

Outcome practice(const Words& words) {
  const po::variables_map given = read_options(words, options(), nullptr, "practice");
  const TextStyle style = style_of(given);
  const Reference reference = reference_of(given);
  const std::string learner = learner_of(given), output = text_of(given, "output", "");
  const std::uint64_t seed = seed_of(given);
  if (given.count("output") > 0 && output.empty()) throw BadInput("--output: is empty; name a file");
  Practice practice{reference, deck_for(given, reference), style, learner, nullptr, seed};
  if (given.count("topics") > 0) return {topic_list(practice.deck, reference.language, style.width)};
  if (given.count("results") > 0)
    practice.file = std::make_unique<ResultsFile>(text_of(given, "results", ""), practice_columns());
  Outcome outcome = asked_and_scored(practice, given);
  if (output.empty()) return outcome;
  RowsOut sheet(output);
  sheet.write(outcome.text);
  sheet.finish();
  return outcome;
}

}  // namespace sunstrain::cli
