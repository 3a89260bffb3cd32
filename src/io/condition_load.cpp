#include "condition_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "sunstrain/io/quantity.hpp"

namespace sunstrain {

namespace {

using Kind = Condition::Kind;

JobKey figure(std::string name, bool number) {
  JobKey key;
  key.name = "figure." + std::move(name);
  key.kind = number ? JobKey::Kind::number : JobKey::Kind::choice;
  if (number)
    key.maximum = 1e12;
  else
    key.choices = {"yes", "no"};
  return key;
}

// What the assessment adds to the job's own keys. A new figure must be named here before a rule may use it.
const std::vector<JobKey>& figures() {
  static const std::vector<JobKey> all{
      figure("most_absorbed_annealed", true),
      figure("filmed_absorbed", true),
      figure("stress_added_pa", true),
      figure("film_on_coating", false),
      figure("film_on_soft_coating", false),
      figure("soft_coating_in_the_open", false),
      figure("film_on_film", false),
      figure("film_behind_low_e_with_gas", false),
      figure("lasting_l_or_half_shadow", false),
      figure("blind_tight", false),
      figure("outside_checked_range", false),
      figure("over_line_without_film", false),
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

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

// Numbers in a table: SI as they stand, or text with a unit. The key's range is not applied to a limit.
double load_number(const DataNode& node, const JobKey& key, const std::string& where) {
  if (node.kind == DataNode::Kind::number) return node.number;
  if (node.kind != DataNode::Kind::text) throw BadInput(where + " = " + as_typed(node) + ": a number is needed");
  try {
    return parse_quantity(key.kind, node.text);
  } catch (const BadInput& error) {
    throw BadInput(where + " = " + as_typed(node) + ": " + error.what());
  }
}

void require_choice(const std::string& word, const JobKey& key, const std::string& where) {
  if (std::find(key.choices.begin(), key.choices.end(), word) == key.choices.end()) {
    throw BadInput(fmt::format("{} = \"{}\": allowed: {}", where, word, joined(key.choices)));
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
  if (key.kind != JobKey::Kind::choice) row.refuse(name, "words are for keys with a list of choices; compare a number");
  Condition out;
  out.kind = kind;
  out.words = row.words(name);
  for (const std::string& word : out.words) require_choice(word, key, row.where() + ": " + name);
  return out;
}

Condition number_test(DataRow& row, const char* name, Kind kind, const JobKey& key) {
  if (!holds_number(key.kind)) row.refuse(name, "this fact is a word; use is, is_not or among");
  Condition out;
  out.kind = kind;
  out.limit = load_number(row.node(name), key, row.where() + ": " + name);
  return out;
}

Condition fact_test(DataRow& row, const std::vector<JobKey>& keys) {
  const std::string fact = row.text("fact");
  const JobKey* key = fact_description(fact, keys);
  if (key == nullptr) row.refuse("fact", "no job key or figure has this name");
  const std::pair<const char*, Kind>* asked = nullptr;
  for (const auto& test : tests) {
    if (!row.has(test.first)) continue;
    if (asked != nullptr) row.refuse(test.first, "one test on one fact; join two with all or any");
    asked = &test;
  }
  if (asked == nullptr)
    row.refuse("fact", "a test is missing: is, is_not, among, at_least, above, at_most, below, known");
  Condition out;
  if (asked->second == Kind::known) {
    out.kind = row.flag("known") ? Kind::known : Kind::not_known;
  } else if (asked->second == Kind::is || asked->second == Kind::is_not) {
    out = word_test(row, asked->first, asked->second, *key);
  } else {
    out = number_test(row, asked->first, asked->second, *key);
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
  const std::string pattern = key_pattern(fact);
  for (const std::vector<JobKey>* list : {&keys, &figures()}) {
    for (const JobKey& key : *list) {
      if (key.name == pattern) return &key;
    }
  }
  return nullptr;
}

Value load_value(const DataNode& node, const JobKey& key, const std::string& where) {
  if (!holds_number(key.kind)) {
    if (node.kind != DataNode::Kind::text) throw BadInput(where + " = " + as_typed(node) + ": a word is needed");
    if (key.kind == JobKey::Kind::choice) require_choice(node.text, key, where);
    return node.text;
  }
  const double number = load_number(node, key, where);
  if (number < key.minimum || number > key.maximum) {
    throw BadInput(fmt::format("{} = {}: outside the key's own range", where, as_typed(node)));
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
