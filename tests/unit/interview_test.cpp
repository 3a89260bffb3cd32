// The questions at a window as a state machine: order, conditions, what answers settle, what a file keeps of them.
#include "sunstrain/io/interview.hpp"

#include <algorithm>
#include <array>
#include <random>
#include <set>

#include "sunstrain/job_keys.hpp"
#include "support/job_text.hpp"

using namespace job_text;

namespace {

const Asking& asking_of(const std::string& name, int lite = 1) {
  static const std::vector<Asking> all = all_askings(builtin_questions());
  for (const Asking& asking : all)
    if (asking.question->name == name && std::max(1, instance_number(asking.key)) == lite) return asking;
  throw std::runtime_error("no question " + name);
}

using Script = std::map<std::string, std::string>;  // question -> what is answered; "" for the others

std::string reply(const Script& script, const Asking& asking) {
  for (const std::string& name : {asking.key, asking.question->name})
    if (const auto line = script.find(name); line != script.end()) return line->second;
  return find_job_key(reference().job_keys, asking.key)->required ? "1 m" : "";
}

// The whole conversation, and the names of its questions in order.
Interview conducted(const Script& script, std::vector<std::string>* order = nullptr, Interview interview = {}) {
  while (const auto asking = next_question(interview, builtin_questions())) {
    if (order != nullptr)
      order->push_back(asking->key == asking->question->key ? asking->question->name
                                                            : asking->question->name + " " + asking->key.substr(5, 1));
    REQUIRE(interview.steps.size() < 200);
    interview = answered(interview, *asking, reply(script, *asking), reference());
  }
  return interview;
}

Job job_with(const Script& script) { return job_of(conducted(script), reference()); }

std::optional<std::string> word(const Job& job, const char* key) { return word_of(job, key); }

const Script light_film{{"absorptance", "0.4"}};

Script with_film(Script script) {
  script.insert(light_film.begin(), light_film.end());
  return script;
}

std::string answer_refusal(const std::string& name, const std::string& text, const Interview& interview = {}) {
  return refusal([&] { answered(interview, asking_of(name), text, reference()); });
}

using Words = std::vector<std::string>;
using Order = Words;

bool asks(const Order& order, const std::string& name) {
  return std::find(order.begin(), order.end(), name) != order.end();
}

}  // namespace

TEST_CASE("what stops a job is asked first, the film last", "[ask]") {
  Order order;
  conducted(with_film({{"panes", "1"}}), &order);
  const Order expected{
      "damage",    "make",      "slope",        "fog",       "film-on",     "cracks-here",   "owner",
      "panes",     "coating",   "tint",         "mark 1",    "width",       "height",        "thickness 1",
      "frame",     "bite",      "frame-faults", "frame-sun", "place",       "facing",        "shadow",
      "overhang",  "blind",     "heat",         "panel",     "absorptance", "transmittance", "reference-glass",
      "film-face", "film-name", "name"};
  CHECK(order == expected);
}

TEST_CASE("a question is put only where it applies", "[ask]") {
  Order single, unknown, twice, triple;
  conducted(with_film({{"panes", "1"}}), &single);
  conducted(light_film, &unknown);
  conducted(with_film({{"panes", "2"}}), &twice);
  conducted(with_film({{"panes", "three"}}), &triple);
  for (const char* sealed : {"dew-point", "unit-age", "unit-faults"}) {
    CHECK_FALSE(asks(single, sealed));
    CHECK_FALSE(asks(unknown, sealed));
    CHECK(asks(twice, sealed));
  }
  CHECK_FALSE(asks(unknown, "mark 2"));
  CHECK(asks(twice, "mark 2"));
  CHECK_FALSE(asks(twice, "mark 3"));
  CHECK(asks(triple, "thickness 3"));
  Order more;
  conducted(with_film({{"film-on", "yes"},
                       {"slope", "sloped"},
                       {"make", "wired"},
                       {"panes", "2"},
                       {"shadow", "5"},
                       {"blind", "a light"},
                       {"panel", "2"},
                       {"frame-sun", "1"},
                       {"overhang", "2 ft"}}),
            &more);
  for (const char* name : {"old-film", "slope-angle", "which-made", "blind-gap", "blind-open", "panel-gap",
                           "frame-color", "overhang-height"}) {
    CAPTURE(name);
    CHECK(asks(more, name));
    CHECK_FALSE(asks(twice, name));
  }
  CHECK_FALSE(asks(more, "shadow-share"));  // half is half
  CHECK_FALSE(asks(more, "old-film-face"));
}

TEST_CASE("eight quick answers beside size and film", "[ask]") {
  Order order;
  conducted(light_film, &order, {Question::Asked::quick, {}, {}});
  CHECK(order == Order{"damage", "make", "slope", "fog", "film-on", "cracks-here", "owner", "panes", "width", "height",
                       "absorptance", "transmittance"});
  Interview early = answered({}, asking_of("damage"), "cracked", reference());
  early.enough_after = early.steps.size();
  order.clear();
  const Interview done = conducted(light_film, &order, early);
  CHECK(order == Order{"width", "height", "absorptance", "transmittance"});
  CHECK_NOTHROW(check_job(job_of(done, reference()), reference()));
  CHECK(one_back(early).steps.empty());
  CHECK_FALSE(one_back(early).enough_after);
  CHECK(one_back(done).enough_after);
}

TEST_CASE("don't know is taken everywhere but for size and film", "[ask]") {
  std::set<std::string> refused;
  for (const Asking& asking : all_askings(builtin_questions())) {
    Interview interview;  // in which T is known and A is not
    interview.steps.push_back({asking_of("transmittance"), "0.5", {{"film.solar_transmittance", "0.5"}}});
    if (asking.question->name == "transmittance") interview = {};
    for (const char* not_known : {"", "?", "Don't know", "unknown"}) {
      const std::string message = refusal([&] { interview = answered(interview, asking, not_known, reference()); });
      if (!message.empty()) refused.insert(asking.question->name);
      CHECK(interview.steps.size() <= 5);
    }
  }
  CHECK(refused == std::set<std::string>{"width", "height", "transmittance", "shgc"});
  CHECK(says(answer_refusal("transmittance", "?"), {"cannot be left open", "ask the supplier for the solar"}));
  const Interview with_a = answered({}, asking_of("absorptance"), "0.4", reference());
  CHECK(answer_refusal("transmittance", "", with_a).empty());
  const Interview with_a_and_t = answered(with_a, asking_of("transmittance"), "0.5", reference());
  CHECK_FALSE(answer_refusal("reflectance", "", with_a_and_t).empty());
  CHECK(job_with(light_film).values.size() == 3);  // size and film, and nothing that nobody said
}

TEST_CASE("answers by number, by first letters, by word and by value", "[ask]") {
  const auto kind = [](const char* text) {
    return word(job_of(answered({}, asking_of("frame"), text, reference()), reference()), "frame.kind");
  };
  CHECK(kind("1") == "wood");
  CHECK(kind("11") == "brick");
  CHECK(kind(" WOOD ") == "wood");
  CHECK(kind("cur") == "curtain-wall");
  CHECK(kind("aluminum-break") == "aluminum-break");  // a word of the key itself
  CHECK(kind("aluminum") == "aluminum");              // whole, though others begin so
  CHECK(says(answer_refusal("frame", "alu"), {"may be", "aluminum, no break", "wide"}));
  CHECK(says(answer_refusal("frame", "12"), {"1 to 11"}));
  CHECK(says(answer_refusal("frame", "tin"), {"1 to 11"}));
  CHECK(says(answer_refusal("width", "37"), {"pane.width", "unit"}));
  const Job job = job_with(with_film({{"width", "37 1/4 in"}, {"facing", "se"}, {"slope", "80 deg"}}));
  CHECK(number_of(job, "pane.width") == Approx(0.94615));
  CHECK(number_of(job, "pane.facing") == Approx(2.356194));
  CHECK(number_of(job, "pane.tilt") == Approx(1.396263));
}

TEST_CASE("where the list has a number that is also a word, both mean the same", "[ask]") {
  for (const char* panes : {"", "1", "2", "3"}) {
    const Job job = job_with(with_film({{"panes", panes}}));
    for (const Asking& asking : all_askings(builtin_questions())) {
      const std::vector<Answer> offered = offered_answers(asking, job, reference());
      std::set<std::string> said;
      for (std::size_t i = 0; i < offered.size(); ++i) {
        CAPTURE(asking.key, offered[i].say, panes);
        CHECK(said.insert(offered[i].say).second);
        const bool number = offered[i].is.find_first_not_of("0123456789") == std::string::npos;
        if (number && !offered[i].is.empty() && std::stoul(offered[i].is) <= offered.size())
          CHECK(offered[i].is == std::to_string(i + 1));
      }
    }
  }
}

TEST_CASE("an answer may settle several keys, each where it has a meaning", "[ask]") {
  const Job single = job_with(with_film({{"panes", "1"}, {"tint", "clear"}, {"coating", "1"}}));
  CHECK(word(single, "lite.1.tint") == "clear");
  CHECK_FALSE(word(single, "lite.2.tint"));
  CHECK_FALSE(word(single, "lite.2.coating"));
  const Job unit = job_with(with_film({{"panes", "2"}, {"tint", "bronze"}, {"coating", "odd reflection: the 3rd"}}));
  CHECK(word(unit, "lite.1.tint") == "bronze");
  CHECK(word(unit, "lite.2.tint") == "clear");
  CHECK_FALSE(word(unit, "lite.3.tint"));
  CHECK(word(unit, "lite.1.coating") == "none");
  CHECK(word(unit, "lite.2.coating") == "low-e-soft");
  CHECK(word(unit, "lite.2.coating_surface") == "3");
  const Job wired = job_with(with_film({{"panes", "2"}, {"make", "wired"}, {"which-made", "the inner"}}));
  CHECK(word(wired, "lite.1.kind") == "float");
  CHECK(word(wired, "lite.2.kind") == "wired");
  CHECK(word(job_with(with_film({{"panes", "2"}, {"make", "wired"}})), "lite.1.kind") == "wired");
  const Job all = job_with(with_film({{"panes", "3"}, {"make", "patt"}, {"which-made", "all"}}));
  for (const char* key : {"lite.1.kind", "lite.2.kind", "lite.3.kind"}) CHECK(word(all, key) == "patterned");
  const Job old = job_with(with_film({{"film-on", "yes"}, {"old-film", "0.3"}, {"old-film-face", "outdoors"}}));
  CHECK(word(old, "second_film.already_on") == "yes");
  CHECK(word(old, "second_film.surface") == "1");
  CHECK_FALSE(word(job_with(with_film({{"film-on", "yes"}})), "second_film.already_on"));
}

TEST_CASE("of several answers the first is what holds of the rest", "[ask]") {
  const auto faults = [](const char* text) {
    const Job job = job_with(with_film({{"frame-faults", text}}));
    return word(job, "frame.glass_touches_metal").value_or("?") + " " + word(job, "frame.hard_putty").value_or("?") +
           " " + word(job, "history.water_in_frame").value_or("?");
  };
  CHECK(faults("1") == "no no no");
  CHECK(faults("none of it") == "no no no");
  CHECK(faults("2, 4") == "yes no yes");
  CHECK(faults("putty") == "no yes no");
  CHECK(faults("") == "? ? ?");
  CHECK(says(answer_refusal("frame-faults", "2, 9"), {"9", "1 to 4"}));
}

TEST_CASE("a range or alternatives are taken where one is not sure", "[ask]") {
  const Interview done = conducted({{"absorptance", "0.4 to 0.5"},
                                    {"panes", "2"},
                                    {"make", "wired or patterned"},
                                    {"which-made", "the inner"},
                                    {"frame", "vinyl or wood"},
                                    {"lite.1.thickness", "5 to 7 mm"},
                                    {"blind", "light-blind or dark-blind"},
                                    {"blind-gap", "2 in"}});
  const Job job = job_of(done, reference());
  CHECK_NOTHROW(check_job(job, reference()));
  CHECK(job.partly.size() == 5);
  CHECK(job.partly.contains("lite.2.kind"));
  CHECK(word(job, "lite.1.kind") == "float");
  const Job again = read(job_file_text(done, builtin_questions()));
  CHECK(again.values == job.values);
  CHECK(again.partly.size() == 5);
  CHECK(says(answer_refusal("frame", "vinyl or tin"), {"1 to 11"}));
}

TEST_CASE("a wrong answer leaves all as it was, back takes the last one away", "[ask]") {
  Interview interview = answered({}, asking_of("damage"), "2", reference());
  interview = answered(interview, asking_of("make"), "wired", reference());
  CHECK(word(job_of(interview, reference()), "lite.1.kind") == "wired");
  interview = one_back(interview);
  CHECK_FALSE(word(job_of(interview, reference()), "lite.1.kind"));
  CHECK(next_question(interview, builtin_questions())->question->name == "make");
  interview = one_back(one_back(interview));
  CHECK(interview.steps.empty());
  CHECK(next_question(interview, builtin_questions())->question->name == "damage");
}

TEST_CASE("what check_job refuses leads back to its question", "[ask]") {
  const Interview done =
      conducted({{"transmittance", "0.9"}, {"reflectance", "0.3"}, {"absorptance", ""}, {"film-name", "x"}});
  const std::string message = check_refusal(job_of(done, reference()));
  REQUIRE(says(message, {"film.solar_transmittance", "film.solar_reflectance"}));
  const Interview again = back_to_fault(done, message);
  CHECK(next_question(again, builtin_questions())->question->name == "reflectance");
  CHECK(again.steps.size() < done.steps.size());
  CHECK(back_to_fault(done, "of no key").steps.size() == done.steps.size() - 1);
  CHECK(back_to_fault({}, "of no key").steps.empty());
}

TEST_CASE("what trade practice says of an answer is there at once, and once", "[ask]") {
  const auto after = [](const Interview& interview, const char* name, const char* text) {
    const Interview next = answered(interview, asking_of(name), text, reference());
    std::string ids;
    for (const Rule* rule : newly_fired(job_of(interview, reference()), job_of(next, reference()), reference()))
      ids += rule->id + " ";
    return ids;
  };
  const std::vector<std::array<const char*, 3>> rules{
      {"damage", "cracked", "W5 "}, {"damage", "a chip", "W1 "},  {"damage", "no damage", ""},
      {"make", "wired", "W2 "},     {"make", "patterned", "W3 "}, {"make", "laminated", "H7 "},
      {"make", "plastic", "X10 "},  {"make", "plain", ""},        {"slope", "sloped", "X3 "},
      {"fog", "yes", "P1 "},        {"film-on", "yes", "P5 "},    {"cracks-here", "yes", "P2 "},
      {"owner", "no", "P6 "}};
  for (const auto& [name, answer, ids] : rules) {
    CAPTURE(name, answer);
    CHECK(after({}, name, answer) == ids);
  }
  const Interview cracked = answered({}, asking_of("damage"), "cracked", reference());
  CHECK(after(cracked, "slope", "sloped") == "X3 ");
}

TEST_CASE("the job file reads back as what was answered, and says what was not", "[ask]") {
  const std::vector<Script> scripts{
      light_film,
      with_film({{"panes", "1"}, {"make", "plain"}, {"name", "a \"quoted\" \\ name"}, {"width", "37-1/4\""}}),
      with_film({{"panes", "2"},
                 {"make", "wired"},
                 {"which-made", "the inner"},
                 {"coating", "4"},
                 {"tint", "gray"},
                 {"lite.2.treatment", "tempered"},
                 {"lite.2.thickness", "6 mm"},
                 {"frame-faults", "2,3"},
                 {"slope", "2"},
                 {"slope-angle", "60 deg"},
                 {"unit-faults", "2"},
                 {"facing", "SW"}}),
      with_film({{"panes", "3"},
                 {"coating", "odd reflections"},
                 {"film-on", "2"},
                 {"old-film", "0.3"},
                 {"film-face", "indoors"},
                 {"name", "don't 'mix' \"quotes\""}})};
  for (const Script& script : scripts) {
    const Interview done = conducted(script);
    const std::string text = job_file_text(done, builtin_questions());
    CAPTURE(text);
    CHECK(read(text).values == job_of(done, reference()).values);
    std::size_t longest = 0;
    for (std::size_t from = 0, to; (to = text.find('\n', from)) != std::string::npos; from = to + 1)
      longest = std::max(longest, to - from);
    CHECK(longest <= 80);
  }
  const std::string bare = job_file_text(conducted(light_film), builtin_questions());
  CHECK(says(bare, {"#kind = \"vinyl\"", "Not known.", "\n[film]\n", "solar_absorptance = \"0.4\""}));
  CHECK(bare.find("[cavity") == std::string::npos);
}

TEST_CASE("whatever is answered, the file reads back as the same job", "[ask][slow]") {
  std::mt19937 random(20261126);
  const Words texts{"", "1", "2", "3", "4", "2,3", "5 to 7 mm", "1 or 2", "back", "yes", "none", "0.2", "example"};
  int partly = 0, second_lites = 0;
  for (int talk = 0; talk < 150; ++talk) {
    Interview interview;
    for (int line = 0; line < 200; ++line) {
      const auto asking = next_question(interview, builtin_questions());
      if (!asking) break;
      std::string text = texts[random() % texts.size()];
      if (text == "example") text = find_job_key(reference().job_keys, asking->key)->example;
      try {
        interview = text == "back" ? one_back(interview) : answered(interview, *asking, text, reference());
      } catch (const BadInput&) {
      }
    }
    const Job said = job_of(interview, reference()), again = read(job_file_text(interview, builtin_questions()));
    REQUIRE(again.values == said.values);
    REQUIRE(again.partly.size() == said.partly.size());
    for (const auto& [key, known] : said.partly) REQUIRE(again.partly.at(key).values == known.values);
    partly += !said.partly.empty();
    second_lites += said.values.contains("lite.2.thickness") || said.partly.contains("lite.2.thickness");
  }
  CHECK(partly > 10);
  CHECK(second_lites > 10);
}
