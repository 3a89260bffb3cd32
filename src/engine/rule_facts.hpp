// Internal: what the rules see.
#pragma once

#include <array>

#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

// The figures of an assessment that has been judged.
inline constexpr const char* stress_added = "figure.stress_added_pa";
inline constexpr const char* over_line_without_film = "figure.over_line_without_film";
inline constexpr std::array stress_figures{stress_added, over_line_without_film};

// The middle run's keys, and the figures ("figure.*") of both runs' cases and of an assessment that has been judged.
Facts rule_facts(const Assessment& judged, const Case& bad_end, const Case& middle, const Reference& reference);

// The same without stress_figures. `complete`: the middle run's job.
Facts case_facts(const Job& complete, const Case& bad_end, const Case& middle, const Reference& reference);

// Of them those that are the middle run's: they do not hang on how the bad end takes what is not known.
Facts middle_facts(const Job& complete, const Case& middle, const Reference& reference);

// What the job says, a key known in part included, without what is taken for it where it says nothing.
Facts said_of(const Job& job, const Reference& reference);

// Rules that do not speak now, but do with another value of a key that the job knows in part; the stresses are those
// of the assessment.
std::vector<OpenRule> open_rules(const Assessment& judged, const Reference& reference);

}  // namespace sunstrain::internal
