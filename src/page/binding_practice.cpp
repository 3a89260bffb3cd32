// Practice: the deck, a window worked, and what a learner's answers come to.
#include "../io/job_words.hpp"
#include "../report/words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/drivers.hpp"
#include "sunstrain/io/csv_rows.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/practice_deck.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/assessment_json.hpp"
#include "sunstrain/report/practice_rows.hpp"
#include "sunstrain/report/practice_text.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::page {
namespace {

constexpr std::size_t most_offered = 5;

std::string text_at(const Json& object, const char* key) { return object.value(key, std::string()); }

Json window_json(const Scenario& scenario, const Reference& reference, Units units) {
  return {{"id", scenario.id},
          {"title", scenario.title},
          {"topic", scenario.topic},
          {"see", scenario.see},
          {"pad", pad_lines(scenario.job, reference, units)}};
}

Json drill_json(const Drill& drill) {
  return {{"id", drill.id},       {"title", drill.title},   {"topic", drill.topic},
          {"see", drill.see},     {"ask", drill.ask},       {"right", drill.right},
          {"wrong", drill.wrong}, {"proves", drill.proves}, {"proves_not", drill.proves_not}};
}

Scenario own_window(const Json& file, const Reference& reference) {
  const std::string& toml = file.at("toml").get_ref<const std::string&>();
  const std::string name = file.at("source").get<std::string>();
  require_text(toml, name);
  return scenario_of_job(name, toml, reference);
}

// Of each file what is asked, or why it cannot be.
Json own_windows(const Json& files, const Reference& reference, Units units) {
  Json out = Json::array();
  for (const Json& file : files) {
    try {
      out.push_back(window_json(own_window(file, reference), reference, units));
    } catch (const BadInput& error) {
      out.push_back({{"refused", shown(told(reference.language, error), std::string::npos)}});
    }
  }
  return out;
}

std::string deck_json(const Json& request, const Reference& reference) {
  const Deck deck = builtin_deck_in(reference.language);
  const Units units = units_of(request);
  Json topics = Json::array(), windows = Json::array(), drills = Json::array();
  for (const PracticeTopic& topic : deck.topics)
    topics.push_back({{"id", topic.id}, {"name", topic.name}, {"again", topic.again}});
  for (const Scenario& scenario : deck.scenarios) windows.push_back(window_json(scenario, reference, units));
  for (const Drill& drill : deck.drills) drills.push_back(drill_json(drill));
  return Json{{"topics", topics},
              {"windows", windows},
              {"drills", drills},
              {"own", own_windows(request.value("own", Json::array()), reference, units)},
              {"note", practice_note(reference.language)}}
      .dump();
}

Scenario window_of(const Json& request, const Reference& reference) {
  if (request.contains("toml")) return own_window(request, reference);
  const std::string id = text_at(request, "window");
  for (Scenario& scenario : builtin_deck_in(reference.language).scenarios)
    if (scenario.id == id) return std::move(scenario);
  throw BadInput("window: there is none of that name: {}", sunstrain::quoted(id));
}

std::string worked_json(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  const Units units = units_of(request);
  const Scenario scenario = window_of(request, reference);
  Assessment answer = assess(scenario.job, reference, session.cache);
  answer.drivers = drivers_of(answer, reference, session.cache);
  RandomStream random(request.value("seed", std::uint64_t{0}), 0);
  Json offers = Json::array(), compare = Json::array(), rules = Json::array();
  for (const Decider& one : offered(deciders_of(answer, builtin_deck(), reference), most_offered, random))
    offers.push_back({{"text", decider_text(one, reference, units)}, {"right", one.right}});
  for (const Comparison& comparison : scenario.compare)
    compare.push_back(comparison_text(comparison, answer, assess_briefly(comparison.job, reference, session.cache),
                                      reference.language));
  for (const Rule& rule : taught_rules(answer)) rules.push_back({{"id", rule.id}, {"training", rule.training}});
  const Json beside{{"text", text_answer(answer, reference, {80, false, false, units})},
                    {"picture", picture_of(answer, reference.language)},
                    {"offers", offers},
                    {"compare", compare},
                    {"lesson", scenario.lesson},
                    {"rules", rules}};
  return R"({"answer":)" + assessments_json({&answer, 1}, false, reference, units) + "," + beside.dump().substr(1);
}

std::optional<Verdict> verdict_at(const Json& object, const char* key) {
  const std::string word = text_at(object, key);
  if (word.empty()) return std::nullopt;
  if (const auto verdict = verdict_answered(word)) return verdict;
  throw BadInput("{} = {}: allowed: go, caution, refer", key, sunstrain::quoted(word));
}

PracticeResult result_of(const Json& one) {
  return {text_at(one, "item"), text_at(one, "topic"), verdict_at(one, "answered"), verdict_at(one, "verdict"),
          one.value("picked_right", false)};
}

std::string score_json(const Json& results) {
  std::vector<PracticeResult> all;
  for (const Json& one : results) all.push_back(result_of(one));
  const PracticeScore score = score_of(all);
  Json topics = Json::array();
  for (const TopicScore& one : score.topics)
    topics.push_back({{"topic", one.topic}, {"asked", one.asked}, {"right", one.right}});
  return Json{{"scenarios", score.scenarios},       {"verdicts_right", score.verdicts_right},
              {"picks_right", score.picks_right},   {"milder", score.milder},
              {"stricter", score.stricter},         {"drills", score.drills},
              {"drills_right", score.drills_right}, {"topics", topics}}
      .dump();
}

std::string table_json(const Json& results, const Reference& reference) {
  std::string csv = csv_line(practice_columns(), ',', "\n");
  for (const Json& one : results)
    csv +=
        csv_line(practice_cells({text_at(one, "date"), text_at(one, "learner"), result_of(one), text_at(one, "picked"),
                                 text_at(one, "right"), one.value("tables", reference.version)}),
                 ',', "\n");
  return Json{{"csv", csv}}.dump();
}

}  // namespace

std::string practice(const Json& request, Session& session) {
  const Reference& reference = session.reference;
  if (request.contains("window") || request.contains("toml")) return worked_json(request, session);
  if (request.contains("score")) return score_json(request["score"]);
  if (request.contains("table")) return table_json(request["table"], reference);
  return deck_json(request, reference);
}

}  // namespace sunstrain::page
