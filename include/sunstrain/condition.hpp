// Conditions as data: the `when` of a trade rule and of a job key, read from reference/ and from a
// user's own rule file. A condition looks at named facts (every job key, and the figures that
// assess.cpp adds) and says yes, no, or "cannot tell" when a fact it needs is not known.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "sunstrain/job.hpp"

namespace sunstrain {

using Facts = std::map<std::string, Value>;

enum class Truth { no, yes, cannot_tell };

// One test on one fact, or a group of conditions.
//   is / is_not / among            on words      (`words` holds one or more)
//   at_least / above / at_most / below  on numbers (`limit`, SI)
//   known / not_known              on whether somebody said it
//   all / any / none               on `parts`
// A fact name with a star ("lite.*.kind") is true when it is true of any lite, cannot_tell when of
// none but some lite is unknown.
struct Condition {
  enum class Kind { always, is, is_not, at_least, above, at_most, below, known, not_known, all, any, none };
  Kind kind = Kind::always;
  std::string fact;
  std::vector<std::string> words;
  double limit = 0.0;
  std::vector<Condition> parts;
};

// Kleene's three-valued logic over the condition's tree. `said`: what is known, where `facts` also holds values that
// were taken for what is not; known and not_known look at it alone. Throws std::logic_error where a number is
// compared with words (the loaders refuse such a table first).
Truth holds(const Condition& condition, const Facts& facts, const Facts& said);
Truth holds(const Condition& condition, const Facts& facts);  // all of them are known

// The names of every fact that it looks at, stars as they stand.
std::set<std::string> facts_of(const Condition& condition);

}  // namespace sunstrain
