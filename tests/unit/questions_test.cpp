// reference/questions.toml: what the loader refuses, and that the table is whole; the paper sheet made of it.
#include <algorithm>
#include <regex>
#include <set>

#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/question_text.hpp"
#include "support/job_text.hpp"

using namespace job_text;

namespace {

std::string refused_with(const std::string& from, const std::string& to) {
  std::string text = embedded_reference_files().at("questions.toml");
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  return refusal([&] { load_questions("questions.toml", text, reference()); });
}

const Question& question(const std::string& name) {
  const std::vector<Question>& all = builtin_questions().rows;
  const auto found = std::find_if(all.begin(), all.end(), [&](const Question& one) { return one.name == name; });
  REQUIRE(found != all.end());
  return *found;
}

}  // namespace

TEST_CASE("the table of questions takes nothing that it does not know", "[ask]") {
  CHECK(says(refused_with("key = \"frame.kind\"", "key = \"frame.kid\""), {"frame.kid", "the nearest is frame.kind"}));
  CHECK(
      says(refused_with("say = \"brick\", is = \"brick\"", "say = \"brick\", is = \"bricks\""), {"bricks", "allowed"}));
  CHECK(says(refused_with("  { say = \"brick\", is = \"brick\" },\n", ""), {"frame.kind", "brick", "not_offered"}));
  CHECK(says(refused_with("not_offered = [\"3\", \"5\"]", "not_offered = [\"3\", \"4\", \"5\"]"), {"4", "offered"}));
  CHECK(
      says(refused_with("not_offered = [\"3\", \"5\"]", "not_offered = [\"3\", \"5\", \"9\"]"), {"9", "no such word"}));
  CHECK(says(refused_with("part = \"The size\"", "part = \"The size\"\nhint = \"x\""), {"hint", "not known"}));
  CHECK(says(refused_with("asked = \"quick\"", "asked = \"often\""), {"often", "quick, always"}));
  CHECK(says(refused_with("given = \"Sealed unit\"\n", ""), {"given"}));
  CHECK(says(refused_with("part = \"The size\"", "part = \"The size\"\ngiven = \"Always\""), {"given"}));
  CHECK(says(refused_with("refused = \"film.visible_transmittance\"", "refused = \"film.shgc\""), {"refused"}));
  CHECK(says(refused_with("{ \"lite.2.kind\" = \"lite.1.kind\" }", "{ \"lite.2.kind\" = \"lite.1.tint\" }"), {"copy"}));
  CHECK(says(refused_with("set = { \"history.chips\" = \"no\" }", "set = { \"history.chips\" = \"never\" }"),
             {"history.chips", "never"}));
  CHECK(says(refused_with("set = { \"history.chips\" = \"no\" }", "set = { \"history.chips\" = 1 }"), {"set"}));
  CHECK(says(refused_with("when = { fact = \"pane.tilt\", below", "when = { fact = \"pane.slope\", below"), {"fact"}));
  CHECK(says(refused_with("name = \"height\"", "name = \"width\""), {"width", "twice"}));
  CHECK(says(refused_with("find = \"Any name of your own; it stands on the answer.\"\n", ""), {"film-name", "find"}));
}

TEST_CASE("every key that a job needs is asked for, whatever else is left out", "[ask]") {
  for (const JobKey& key : reference().job_keys) {
    if (!key.required) continue;
    CAPTURE(key.name);
    const auto asks = [&](const Question& one) { return one.key == key.name && one.asked == Question::Asked::always; };
    CHECK(std::count_if(builtin_questions().rows.begin(), builtin_questions().rows.end(), asks) == 1);
  }
}

// Common practice, no source: what ends the talk at a window is asked before anything that takes a tape or papers.
TEST_CASE("each thing that stops a job stands in the first part and brings its rule up", "[ask]") {
  const std::vector<std::pair<const char*, const char*>> stops{{"damage", "W5"},  {"damage", "W1"},     {"make", "W2"},
                                                               {"make", "X10"},   {"slope", "X3"},      {"fog", "P1"},
                                                               {"film-on", "P5"}, {"cracks-here", "P2"}};
  const std::string first = builtin_questions().rows.front().part;
  for (const auto& [name, rule] : stops) {
    CAPTURE(name, rule);
    const Question& one = question(name);
    CHECK(one.part == first);
    CHECK(one.asked == Question::Asked::quick);
    const Asking asking{&one, one.key};
    bool said = false;
    for (const Answer& answer : one.answers) {
      const Job job = job_of(answered({}, asking, answer.say, reference()), reference());
      for (const Rule* fired : newly_fired({}, job, reference())) said = said || fired->id == rule;
    }
    CHECK(said);
  }
  // The first answer of each is the one with nothing wrong.
  for (const Question& one : builtin_questions().rows) {
    if (one.part != first || one.asked != Question::Asked::quick) continue;
    CAPTURE(one.name);
    CHECK(newly_fired({}, job_of(answered({}, {&one, one.key}, "1", reference()), reference()), reference()).empty());
  }
}

TEST_CASE("questions are short, end with a question mark and promise nothing", "[ask]") {
  const std::regex promise("\\b(safe|approved|certified|guaranteed?|complies)\\b", std::regex::icase);
  for (const Question& one : builtin_questions().rows) {
    CAPTURE(one.name);
    CHECK(one.ask.find('?') != std::string::npos);
    CHECK(one.ask.size() <= 110);
    CHECK(one.find.size() <= 150);
    std::string all = one.ask + " " + one.find + " " + one.given;
    for (const Answer& answer : one.answers) {
      all += " " + answer.say;
      CHECK(answer.say.size() <= 60);
    }
    CHECK_FALSE(std::regex_search(all, promise));
    CHECK_FALSE(one.source.text.empty());
  }
}

TEST_CASE("the paper sheet has every question, none cut, on pages that print", "[ask]") {
  const std::string sheet = question_sheet(builtin_questions());
  std::size_t pages = 1, from = 0, start = 0;
  for (std::size_t at = 0; (at = sheet.find('\f', from)) != std::string::npos; from = at + 1) {
    CHECK(std::count(sheet.begin() + static_cast<std::ptrdiff_t>(from), sheet.begin() + static_cast<std::ptrdiff_t>(at),
                     '\n') <= 60);
    ++pages;
  }
  CHECK(pages >= 2);
  std::string plain = std::regex_replace(sheet, std::regex("\\s+"), " ");
  for (const Question& one : builtin_questions().rows) {
    const std::string asked = (one.given.empty() ? "" : one.given + ": ") + one.ask;
    CAPTURE(asked);
    CHECK(plain.find(asked) != std::string::npos);
    // In their order; on one page: no form feed between a question and how to find out.
    start = sheet.find("\n" + asked.substr(0, 12), start + 1);
    REQUIRE(start != std::string::npos);
    const std::string help = one.find.substr(0, 12);
    CHECK(sheet.find(help, start) < std::min(sheet.find('\f', start), sheet.size()));
    for (const Answer& answer : one.answers) CHECK(plain.find("[ ] " + answer.say) != std::string::npos);
  }
  for (const char* part : {"Date ____", "Pane's mark ____", "Looked at by ____", "[ ] don't know", "local codes",
                           "ladder", "overhead", "lead", "blades", "licensed"})
    CHECK(plain.find(part) != std::string::npos);
  std::size_t column = 0, widest = 0;
  for (const char c : sheet) {
    column = c == '\n' || c == '\f' ? 0 : column + 1;
    widest = std::max(widest, column);
  }
  CHECK(widest <= 80);
}
