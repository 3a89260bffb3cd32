// The questions on paper.
#include <fmt/format.h>

#include <algorithm>

#include "../io/job_words.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/question_text.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using report::columns;
using report::labeled;

constexpr int width = 80, indent = 4;
constexpr std::size_t page_lines = 60;
constexpr const char* lites[]{"outer", "middle", "inner"};
constexpr std::size_t gap = 2, longest_list = 12;

std::size_t lines_of(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

// Boxes and blanks beside one another; none is cut at the end of a line.
std::string flowed(const std::string& label, const std::vector<std::string>& items) {
  const std::string start = std::string(indent, ' ') + label;
  std::string out = start;
  std::size_t used = columns(start);
  bool first = true;
  for (const std::string& item : items) {
    if (!first && used + gap + columns(item) > width) {
      out += "\n" + std::string(columns(start), ' ');
      used = columns(start);
      first = true;
    }
    out += (first ? "" : std::string(gap, ' ')) + item;
    used += (first ? 0 : gap) + columns(item);
    first = false;
  }
  return out + "\n";
}

// What one may tick or write in. Answers that differ by the panes alone stand once.
std::vector<std::string> places_to_fill(const Question& question, const JobKey& row, const Language& language) {
  std::vector<std::string> said, items;
  for (const Answer& answer : question.answers) said.push_back(answer.say);
  if (question.answers.empty() && row.kind == JobKey::Kind::choice && row.choices.size() <= longest_list)
    for (const std::string& word : row.choices) said.push_back(word_told(language, row.name, word));
  for (const std::string& say : said) {
    const std::string box = "[ ] " + say;
    if (std::find(items.begin(), items.end(), box) == items.end()) items.push_back(box);
  }
  if (takes_value(question, row) || said.empty())
    items.push_back(std::string(row.kind == JobKey::Kind::text ? 50 : 20, '_'));
  if (!row.required && !question.needed && row.kind != JobKey::Kind::text)
    items.push_back("[ ] " + tell(language, "don't know"));
  return items;
}

std::string help_of(const Question& question, const JobKey& row, const Language& language) {
  std::string help = question.find;
  if (question.several) help = tell(language, "Tick all that hold. {}", help);
  if (takes_value(question, row)) help += " " + tell(language, "Such as {}.", row.example);
  if (row.kind == JobKey::Kind::choice && question.answers.empty() && row.choices.size() > longest_list) {
    std::vector<std::string> words;
    for (const std::string& word : row.choices) words.push_back(word_told(language, row.name, word));
    help += " " + tell(language, "One of: {}.", joined(words));
  }
  return help;
}

// The boxes behind the question where both go on one line, else below it.
std::string asked_and_filled(const std::string& asked, const std::vector<std::string>& items) {
  std::string beside = asked.substr(0, asked.size() - 1);
  for (const std::string& item : items) beside += std::string(gap, ' ') + item;
  const bool fits = lines_of(asked) == 1 && columns(beside) <= width;
  return fits ? beside + "\n" : asked + flowed("", items);
}

std::string block(const Question& question, const Reference& reference) {
  const JobKey& row = *find_job_key(reference.job_keys, concrete_keys(question.key).front());
  const std::string given = question.given.empty() ? "" : question.given + ": ";
  std::string text = labeled("", given + question.ask, 0, width);
  const std::vector<std::string> items = places_to_fill(question, row, reference.language);
  if (question.key.find('*') == std::string::npos) {
    text = asked_and_filled(text, items);
  } else {
    for (const char* lite : lites) text += flowed(fmt::format("{:<8}", told(reference.language, lite)), items);
  }
  return text + labeled("", help_of(question, row, reference.language), indent, width);
}

std::string page_head(std::size_t page, std::size_t pages, const Reference& reference) {
  const Language& language = reference.language;
  const std::string count = tell(language, "sheet {} of {}", page, pages),
                    title = tell(language, "A pane and its film, looked at");
  std::string text =
      title + std::string(width - columns(title) - columns(count), ' ') + count + "\n\n" +
      tell(language, "Pane's mark ________________   Date ______________   Looked at by ______________") + "\n";
  if (page > 1) return text;
  return text + "\n" + labeled("", tell(language, "{} Cracked glass: hands off.", safety_note(reference)), 0, width) +
         "\n" +
         labeled("",
                 tell(language,
                      "Tick what you see, write what you measure. \"Don't know\" is an answer: what is not known is "
                      "taken at its worst plausible value. Then \"sunstrain ask\" asks the same in the same order."),
                 0, width);
}

}  // namespace

std::string question_sheet(const Questions& questions) {
  const Reference& reference = *questions.reference;
  std::vector<std::string> pages{""};
  std::string part;
  for (const Question& question : questions.rows) {
    std::string text = "\n" + (question.part == part ? "" : question.part + "\n" + std::string(width, '-') + "\n\n") +
                       block(question, reference);
    part = question.part;
    const std::size_t head = lines_of(page_head(pages.size(), 1, reference));
    if (!pages.back().empty() && head + lines_of(pages.back()) + lines_of(text) > page_lines) pages.emplace_back();
    pages.back() += text;
  }
  std::string sheet;
  for (std::size_t page = 0; page < pages.size(); ++page)
    sheet += (page == 0 ? "" : "\f") + page_head(page + 1, pages.size(), reference) + pages[page];
  return sheet;
}

}  // namespace sunstrain
