// Jobs of which much is not known.
#pragma once

#include "sunstrain/job.hpp"

namespace sunstrain::test {

// A pane with some of its keys settled, some known in part, the rest open. A given seed is the same job anywhere.
Job random_job(unsigned seed);

}  // namespace sunstrain::test
