// What can be said of a pane at once, before every reading of what is not known has been tried.
#pragma once

#include <limits>
#include <optional>

#include "sunstrain/assess.hpp"

namespace sunstrain {

// A pane assessed before, from which a first look begins; none where it is left empty.
struct AssessedBefore {
  Facts bad_end = {};  // the values of that assessment's bad_end, SI
  Job job = {};
  double stress_ratio = std::numeric_limits<double>::infinity();
};

// An assessment with every open key of the bad end as it was taken for a pane assessed before, where that value is
// plausible here too, else as the table expects to be worst. Some six runs of the chain, where assess() tries reading
// after reading. The middle run, by which figures are refer, is that of assess(); the bad end's ratio is one of those
// of which assess() seeks the highest. `unknowns` has every open key as it is taken, none of them weighed:
// ratio_at_middle is the ratio itself, decided false, no readings. `helps` are those of assess() for that taking, their
// ratios of the days of the year that count most there. `shadow` and `weather` are left empty.
struct FirstLook {
  Assessment assessment;
  // Between which assess() decides. At least: no reading of what is not known takes back a ratio over the line, what
  // the middle run refers, or the guidance that does not hang on the bad end. At most: caution, for another reading may
  // stand over the line, and more where a rule may speak as another reading has the glass. Go, where none does and this
  // pane is the one before with more known of it, which stood under half of its go line: what is known since takes
  // readings away and adds none. Equal where nothing is open.
  Verdict at_least, at_most;
};

// Nothing where no pane is as it would be taken (a reading of a film's data sheet may be impossible). `cache` any; best
// one that stays with the pane. Throws as assess().
std::optional<FirstLook> first_look(const Job& job, const AssessedBefore& before, const Reference& reference,
                                    ChainCache& cache);

}  // namespace sunstrain
