// Internal: between which the verdict is while not every reading of what is not known has been tried.
#pragma once

#include "sunstrain/assess.hpp"

namespace sunstrain::internal {

struct VerdictBounds {
  Verdict at_least, at_most;
};

// Of an assessment of one reading (`choice`). At least: what no other reading takes back - a ratio over the line, what
// the middle run refers, guidance that does not hang on the bad end. At most: what a rule may come to as another
// reading has the glass (refer where that may be read in so many ways that they are not tried), and caution unless the
// ratio is known to stay under the line. Equal where nothing is open.
VerdictBounds verdict_bounds(const Assessment& reading, bool ratio_stays_under, const Reference& reference);

}  // namespace sunstrain::internal
