#include "sunstrain/condition.hpp"

#include <algorithm>
#include <optional>
#include <stdexcept>

namespace sunstrain {

namespace {

using Kind = Condition::Kind;

Truth truth(bool yes) { return yes ? Truth::yes : Truth::no; }

Truth negation(Truth t) {
  if (t == Truth::cannot_tell) return t;
  return t == Truth::yes ? Truth::no : Truth::yes;
}

// "Any of": yes beats cannot tell beats no. "All of" is its mirror image.
Truth any_of(Truth a, Truth b) {
  if (a == Truth::yes || b == Truth::yes) return Truth::yes;
  return a == Truth::no && b == Truth::no ? Truth::no : Truth::cannot_tell;
}

Truth all_of(Truth a, Truth b) { return negation(any_of(negation(a), negation(b))); }

// ---- one test on one value ------------------------------------------------------------------------

std::logic_error mismatch(const Condition& condition, const char* held) {
  return std::logic_error("the condition on " + condition.fact + " does not fit: the fact holds " + held);
}

bool is_among(const Condition& condition, const Value& value) {
  const std::string* word = std::get_if<std::string>(&value);
  if (word == nullptr) throw mismatch(condition, "a number");
  return std::find(condition.words.begin(), condition.words.end(), *word) != condition.words.end();
}

double as_number(const Condition& condition, const Value& value) {
  const double* number = std::get_if<double>(&value);
  if (number == nullptr) throw mismatch(condition, "a word");
  return *number;
}

bool test(const Condition& condition, const Value& value) {
  switch (condition.kind) {
    case Kind::is:
      return is_among(condition, value);
    case Kind::is_not:
      return !is_among(condition, value);
    case Kind::at_least:
      return as_number(condition, value) >= condition.limit;
    case Kind::above:
      return as_number(condition, value) > condition.limit;
    case Kind::at_most:
      return as_number(condition, value) <= condition.limit;
    case Kind::below:
      return as_number(condition, value) < condition.limit;
    default:
      throw std::logic_error("not a test on a value");
  }
}

const Value* value_of(const Facts& facts, const std::string& name) {
  const auto found = facts.find(name);
  return found == facts.end() ? nullptr : &found->second;
}

Truth test_or_unknown(const Condition& condition, const std::string& name, const Facts& facts, const Facts& said) {
  if (condition.kind == Kind::known) return truth(value_of(said, name) != nullptr);
  if (condition.kind == Kind::not_known) return truth(value_of(said, name) == nullptr);
  const Value* value = value_of(facts, name);
  return value == nullptr ? Truth::cannot_tell : truth(test(condition, *value));
}

// ---- facts with a star ------------------------------------------------------------------------------

// How many lites or cavities the glass has, or nothing when the number of panes is not known. A job
// takes the panes as a choice or as a number; a unit has one cavity less than it has panes.
std::optional<int> instances(const Facts& facts, std::string_view prefix) {
  const Value* panes = value_of(facts, "glass.panes");
  if (panes == nullptr) return std::nullopt;
  const double* number = std::get_if<double>(panes);
  const int count = number != nullptr ? static_cast<int>(*number) : std::stoi(std::get<std::string>(*panes));
  return prefix == "cavity." ? count - 1 : count;
}

// The highest index under which the facts hold anything called `prefix` + index: what the number of
// lites is at least.
int highest_index(const Facts& facts, std::string_view prefix) {
  int highest = 0;
  for (const auto& [name, value] : facts) {
    if (name.compare(0, prefix.size(), prefix) != 0) continue;
    const std::size_t end = name.find_first_not_of("0123456789", prefix.size());
    if (end == prefix.size() || end == std::string::npos) continue;
    highest = std::max(highest, std::stoi(name.substr(prefix.size(), end - prefix.size())));
  }
  return highest;
}

Truth any_instance(const Condition& condition, const Facts& facts, const Facts& said, std::size_t star) {
  const std::string prefix = condition.fact.substr(0, star), suffix = condition.fact.substr(star + 1);
  const std::optional<int> counted = instances(facts, prefix);
  const int count = std::max(counted.value_or(0), highest_index(facts, prefix));
  Truth result = Truth::no;
  for (int i = 1; i <= count; ++i) {
    result = any_of(result, test_or_unknown(condition, prefix + std::to_string(i) + suffix, facts, said));
  }
  // With the panes not counted there may be one more of which nothing is known. Whether a fact is known
  // is asked of what was said, so it always has an answer: of no lite at all, nothing is known.
  if (counted) return result;
  if (condition.kind == Kind::known) return result;
  if (condition.kind == Kind::not_known) return count == 0 ? Truth::yes : result;
  return any_of(result, Truth::cannot_tell);
}

Truth holds_of_fact(const Condition& condition, const Facts& facts, const Facts& said) {
  const std::size_t star = condition.fact.find('*');
  if (star != std::string::npos) return any_instance(condition, facts, said, star);
  return test_or_unknown(condition, condition.fact, facts, said);
}

}  // namespace

Truth holds(const Condition& condition, const Facts& facts, const Facts& said) {
  switch (condition.kind) {
    case Kind::always:
      return Truth::yes;
    case Kind::all: {
      Truth result = Truth::yes;
      for (const Condition& part : condition.parts) result = all_of(result, holds(part, facts, said));
      return result;
    }
    case Kind::any:
    case Kind::none: {
      Truth result = Truth::no;
      for (const Condition& part : condition.parts) result = any_of(result, holds(part, facts, said));
      return condition.kind == Kind::any ? result : negation(result);
    }
    default:
      return holds_of_fact(condition, facts, said);
  }
}

Truth holds(const Condition& condition, const Facts& facts) { return holds(condition, facts, facts); }

std::set<std::string> facts_of(const Condition& condition) {
  std::set<std::string> facts;
  if (!condition.fact.empty()) facts.insert(condition.fact);
  for (const Condition& part : condition.parts) facts.merge(facts_of(part));
  return facts;
}

}  // namespace sunstrain
