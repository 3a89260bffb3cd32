#include "condition_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {

namespace {

using Kind = Condition::Kind;

JobKey figure(const char* name, JobKey::Kind kind, double minimum, double maximum) {
  JobKey key;
  key.name = std::string("figure.") + name;
  key.kind = kind;
  key.unit = "-";
  key.minimum = minimum;
  key.maximum = maximum;
  return key;
}
JobKey share(const char* name) { return figure(name, JobKey::Kind::fraction, 0.0, 1.0); }
JobKey question(const char* name) {
  JobKey key = figure(name, JobKey::Kind::choice, 0.0, 0.0);
  key.choices = {"yes", "no"};
  return key;
}

// What the assessment adds to the job's own keys. A new figure must be named here before a rule may use it.
const std::vector<JobKey>& figures() {
  static const std::vector<JobKey> all{
      share("most_absorbed_annealed"),
      share("filmed_absorbed"),
      figure("stress_added_pa", JobKey::Kind::number, -1e12, 1e12),
      question("film_on_coating"),
      question("film_on_soft_coating"),
      question("soft_coating_in_the_open"),
      question("film_on_film"),
      question("film_behind_low_e_with_gas"),
      question("lasting_l_or_half_shadow"),
      question("blind_tight"),
      question("outside_checked_range"),
      question("over_line_without_film"),
  };
  return all;
}

constexpr std::array<std::pair<const char*, Kind>, 8> tests{{{"is", Kind::is},
                                                             {"is_not", Kind::is_not},
                                                             {"among", Kind::is},
                                                             {"at_least", Kind::at_least},
                                                             {"above", Kind::above},
                                                             {"at_most", Kind::at_most},
                                                             {"below", Kind::below},
                                                             {"known", Kind::known}}};
constexpr std::array<std::pair<const char*, Kind>, 3> groups{
    {{"all", Kind::all}, {"any", Kind::any}, {"none", Kind::none}}};

// Numbers in a table as in a job: with a unit where the key has one.
double load_number(const DataNode& node, const JobKey& key, const std::string& where) {
  const bool bare = node.kind == DataNode::Kind::number;
  if (bare && key.kind == JobKey::Kind::number) return node.number;
  if (!bare && node.kind != DataNode::Kind::text)
    throw BadInput(say("{} = {}: a number is needed", where, as_typed(node)));
  try {
    return parse_quantity(key.kind, bare ? fmt::format("{}", node.number) : node.text);
  } catch (const BadInput& error) {
    throw BadInput(say("{} = {}: {}", where, as_typed(node), error));
  }
}

void require_choice(const std::string& word, const JobKey& key, const std::string& where) {
  if (std::find(key.choices.begin(), key.choices.end(), word) == key.choices.end()) {
    throw BadInput(
        say("{} = {}: allowed: {}{}", where, quoted(word), joined(key.choices), nearest_hint(word, key.choices)));
  }
}

Condition group(DataRow& row, const char* name, Kind kind, const std::vector<JobKey>& keys) {
  const DataNode& parts = row.node(name);
  if (parts.kind != DataNode::Kind::list || parts.items.empty()) row.refuse(name, "a list of conditions is needed");
  Condition out;
  out.kind = kind;
  for (std::size_t i = 0; i < parts.items.size(); ++i) {
    out.parts.push_back(load_condition(parts.items[i], keys, fmt::format("{}, {} {}", row.where(), name, i + 1)));
  }
  return out;
}

Condition word_test(DataRow& row, const char* name, Kind kind, const JobKey& key) {
  if (holds_number(key.kind)) row.refuse(name, "this fact is a number; use at_least, above, at_most or below");
  Condition out;
  out.kind = kind;
  out.words = row.words(name);
  if (key.kind == JobKey::Kind::choice)
    for (const std::string& word : out.words) require_choice(word, key, row.where() + ": " + name);
  return out;
}

Condition number_test(DataRow& row, const char* name, Kind kind, const JobKey& key) {
  if (!holds_number(key.kind)) row.refuse(name, "this fact is a word; use is, is_not or among");
  Condition out;
  out.kind = kind;
  out.limit = load_number(row.node(name), key, row.where() + ": " + name);
  // What no value of the key can pass, or every one does, was meant otherwise.
  if (out.limit < key.minimum || out.limit > key.maximum)
    row.refuse(name, say("{} goes from {} to {}", key.name, format_in_unit(key.kind, key.minimum, key.unit),
                         format_in_unit(key.kind, key.maximum, key.unit)));
  return out;
}

[[noreturn]] void refuse_fact(const DataRow& row, const std::string& fact, const std::vector<JobKey>& keys) {
  std::vector<std::string> names;
  for (const JobKey& one : figures()) names.push_back(one.name);
  if (fact.starts_with("figure.")) row.refuse_word("fact", fact, names);
  row.refuse("fact", no_such_key(fact, keys));
}

// The one test of the row, by its place in `tests`.
const std::pair<const char*, Kind>& test_of(const DataRow& row) {
  const std::pair<const char*, Kind>* asked = nullptr;
  for (const auto& test : tests) {
    if (!row.has(test.first)) continue;
    if (asked != nullptr) row.refuse(test.first, "one test on one fact; join two with all or any");
    asked = &test;
  }
  if (asked == nullptr)
    row.refuse("fact", "a test is missing: is, is_not, among, at_least, above, at_most, below, known");
  return *asked;
}

Condition fact_test(DataRow& row, const std::vector<JobKey>& keys) {
  const std::string fact = row.text("fact");
  const JobKey* key = fact_description(fact, keys);
  if (key == nullptr) refuse_fact(row, fact, keys);
  require_instance(fact, row.where() + ", fact", keys);
  const auto& [name, kind] = test_of(row);
  Condition out;
  if (kind == Kind::known) {
    if (fact.starts_with("figure.")) row.refuse("known", "a figure is worked out and always known; test its value");
    out.kind = row.flag("known") ? Kind::known : Kind::not_known;
  } else if (kind == Kind::is || kind == Kind::is_not) {
    out = word_test(row, name, kind, *key);
  } else {
    out = number_test(row, name, kind, *key);
  }
  out.fact = fact;
  return out;
}

}  // namespace

bool holds_number(JobKey::Kind kind) {
  using K = JobKey::Kind;
  return kind != K::text && kind != K::choice && kind != K::date;
}

const JobKey* fact_description(const std::string& fact, const std::vector<JobKey>& keys) {
  if (const JobKey* key = find_job_key(keys, fact)) return key;
  for (const std::vector<JobKey>* list : {&keys, &figures()})
    for (const JobKey& row : *list)
      if (row.name == fact) return &row;  // a pattern, a figure
  return nullptr;
}

Value load_value(const DataNode& node, const JobKey& key, const std::string& where) {
  if (!holds_number(key.kind)) {
    if (node.kind != DataNode::Kind::text) throw BadInput(say("{} = {}: a word is needed", where, as_typed(node)));
    if (key.kind == JobKey::Kind::choice) require_choice(node.text, key, where);
    return node.text;
  }
  const double number = load_number(node, key, where);
  if (number < key.minimum || number > key.maximum) {
    throw BadInput(say("{} = {}: outside the key's own range", where, as_typed(node)));
  }
  return number;
}

Condition load_condition(const DataNode& node, const std::vector<JobKey>& keys, const std::string& where) {
  DataRow row(node, where);
  Condition out;
  const auto asked = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return row.has(g.first); });
  out = asked != groups.end() ? group(row, asked->first, asked->second, keys) : fact_test(row, keys);
  row.finish();
  return out;
}

Condition optional_condition(DataRow& row, const char* name, const std::vector<JobKey>& keys) {
  const DataNode* node = row.optional_node(name);
  return node == nullptr ? Condition{} : load_condition(*node, keys, row.where() + ", " + name);
}

}  // namespace sunstrain
