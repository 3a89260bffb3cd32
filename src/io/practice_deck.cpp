// practice.toml: windows, their lessons and drills.
#include "sunstrain/io/practice_deck.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "data_node.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace {

using Says = Claim::Says;

constexpr std::array<std::pair<const char*, Says>, 4> of_one{{{"cold clear day", Says::cold_clear_day},
                                                              {"outer lite", Says::outer_lite},
                                                              {"shares do not add", Says::shares_do_not_add},
                                                              {"film adds little", Says::film_adds_little}}};
constexpr std::array<std::pair<const char*, Says>, 6> of_two{{{"ratio higher", Says::ratio_higher},
                                                              {"ratio lower", Says::ratio_lower},
                                                              {"ratio alike", Says::ratio_alike},
                                                              {"verdict better", Says::verdict_better},
                                                              {"verdict worse", Says::verdict_worse},
                                                              {"verdict same", Says::verdict_same}}};

template <std::size_t count>
std::optional<Claim> named_claim(const std::string& word,
                                 const std::array<std::pair<const char*, Says>, count>& known) {
  for (const auto& [name, says] : known)
    if (word == name) return Claim{says, ""};
  return std::nullopt;
}

std::optional<Claim> rule_claim(const std::string& word, const Reference& reference) {
  constexpr std::string_view start = "rule ";
  if (!word.starts_with(start)) return std::nullopt;
  const std::string id = word.substr(start.size());
  const bool known =
      std::any_of(reference.rules.begin(), reference.rules.end(), [&](const Rule& rule) { return rule.id == id; });
  return known ? std::optional(Claim{Says::rule, id}) : std::nullopt;
}

template <std::size_t count>
std::vector<Claim> claims_of(DataRow& row, const std::array<std::pair<const char*, Says>, count>& known, bool rules,
                             const Reference& reference) {
  std::vector<Claim> claims;
  for (const std::string& word : row.words("claims")) {
    auto claim = named_claim(word, known);
    if (!claim && rules) claim = rule_claim(word, reference);
    if (!claim) {
      std::vector<std::string> names;
      for (const auto& [name, says] : known) names.emplace_back(name);
      if (rules) names.emplace_back("rule and its id");
      row.refuse("claims", fmt::format("{}: allowed: {}{}", quoted(word), joined(names), nearest_hint(word, names)));
    }
    claims.push_back(*claim);
  }
  return claims;
}

Job job_in(DataRow& row, const Reference& reference) {
  Job job = read_job_toml(row.text("job"), row.where(), reference);
  check_job(job, reference);
  return job;
}

Comparison comparison_of(DataRow& row, Job job, const Reference& reference) {
  Comparison out;
  out.say = row.text("say");
  for (const std::string& setting : row.words("set")) set_key(job, setting, reference);
  job.source = row.where();
  check_job(job, reference);
  out.job = std::move(job);
  out.claims = claims_of(row, of_two, false, reference);
  row.finish();
  return out;
}

Scenario scenario_of(DataRow& row, const Reference& reference) {
  Scenario out;
  out.id = row.text("id");
  out.title = row.text("title");
  out.topic = row.text("topic");
  out.see = row.text("see");
  out.job = job_in(row, reference);
  if (row.has("compare")) {
    const DataNode& list = row.node("compare");
    for (std::size_t i = 0; i < list.items.size(); ++i) {
      DataRow one(list.items[i], fmt::format("{}, compare {}", row.where(), i + 1));
      out.compare.push_back(comparison_of(one, out.job, reference));
    }
  }
  if (row.has("claims")) out.claims = claims_of(row, of_one, true, reference);
  if (out.compare.empty() && out.claims.empty())
    row.refuse("claims", "a claim or a comparison is needed, that a test can hold the lesson to");
  out.lesson = row.text("lesson");
  out.source = row.source();
  return out;
}

Drill drill_of(DataRow& row) {
  Drill out;
  out.id = row.text("id");
  out.title = row.text("title");
  out.topic = row.text_or("topic", "");
  out.see = row.text("see");
  out.ask = row.text("ask");
  out.right = row.text("right");
  out.wrong = row.words("wrong");
  if (out.wrong.size() != 3) row.refuse("wrong", "three answers are needed");
  out.proves = row.text("proves");
  out.proves_not = row.text("proves_not");
  out.source = row.source();
  return out;
}

PracticeTopic topic_of(DataRow& row) { return {row.text("id"), row.text("name"), row.text("again")}; }

// Topics that are there, and no id twice.
void require_names(const std::string& file, const Deck& deck) {
  std::set<std::string> topics, ids;
  const auto take = [&](std::set<std::string>& names, const std::string& id) {
    if (!names.insert(id).second) throw BadInput(say("{}: id = {}: stands twice", file, quoted(id)));
  };
  const auto require_topic = [&](const std::string& id, const std::string& topic) {
    if (!topics.contains(topic))
      throw BadInput(say("{}, {}: topic = {}: is none of the topics", file, id, quoted(topic)));
  };
  for (const PracticeTopic& topic : deck.topics) take(topics, topic.id);
  for (const Scenario& scenario : deck.scenarios) {
    take(ids, scenario.id);
    require_topic(scenario.id, scenario.topic);
  }
  for (const Drill& drill : deck.drills) {
    take(ids, drill.id);
    require_topic(drill.id, drill.topic);
  }
}

// "crew/stair window.toml" -> "stair window"
std::string stem_of(const std::string& path) {
  const std::size_t slash = path.find_last_of("/\\");
  std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
  if (name.ends_with(".toml")) name.resize(name.size() - 5);
  return name;
}

}  // namespace

Deck load_deck(const std::string& file, std::string_view text, const Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"not_asked", "topic", "scenario", "drill"});
  Deck deck;
  DataRow whole(document, file);
  deck.not_asked = whole.words("not_asked");
  for (const std::string& key : deck.not_asked)
    if (find_job_key(reference.job_keys, key) == nullptr) whole.refuse("not_asked", "keys of a job are needed");
  deck.topics = rows_read(document, file, "topic", topic_of);
  for (DataRow& row : rows_of(document, file, "scenario")) {
    deck.scenarios.push_back(scenario_of(row, reference));
    row.finish();
  }
  deck.drills = rows_read(document, file, "drill", drill_of);
  require_names(file, deck);
  return deck;
}

const Deck& builtin_deck() {
  constexpr const char* file = "practice.toml";
  static const Deck deck = load_deck(file, embedded_reference_files().at(file), builtin_reference());
  return deck;
}

Deck builtin_deck_in(const Language& language) {
  Deck deck = builtin_deck();
  const auto tell = [&](const std::vector<std::string*>& texts) {
    for (std::string* text : texts) *text = told(language, *text);
  };
  for (PracticeTopic& topic : deck.topics) tell({&topic.name, &topic.again});
  for (Scenario& scenario : deck.scenarios) {
    tell({&scenario.title, &scenario.see, &scenario.lesson});
    for (Comparison& comparison : scenario.compare) tell({&comparison.say});
  }
  for (Drill& drill : deck.drills) {
    tell({&drill.title, &drill.see, &drill.ask, &drill.right, &drill.proves, &drill.proves_not});
    for (std::string& wrong : drill.wrong) tell({&wrong});
  }
  return deck;
}

Scenario scenario_of_job(const std::string& name, std::string_view toml, const Reference& reference) {
  Scenario out;
  out.id = shown(stem_of(name));
  out.job = read_job_toml(toml, name, reference);
  check_job(out.job, reference);
  if (word_of(out.job, "weather"))
    throw BadInput("{}: weather: practice goes by the design days; take the weather file out", name);
  out.title = word_of(out.job, "job.name").value_or(out.id);
  out.see = word_of(out.job, "job.note").value_or("");
  return out;
}

}  // namespace sunstrain
