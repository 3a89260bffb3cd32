// Panes at random, with all that moves the light over them.
#pragma once

#include <random>

#include "sunstrain/job.hpp"

namespace sunstrain::test {

// A job that can be, most of it left open; what bears on light and steps is there often.
Job random_job(std::mt19937& random);

}  // namespace sunstrain::test
