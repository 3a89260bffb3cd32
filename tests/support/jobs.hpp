// Jobs for tests, written as one types them.
#pragma once

#include <initializer_list>

#include "sunstrain/case.hpp"

namespace sunstrain::test {

// "pane.width=0.9 m", ...: read and checked with the built-in tables.
Job job_of(std::initializer_list<const char*> assignments);

// A clear 4-12-4 unit, vinyl, Denver, facing south, with nothing left open; then the changes.
Job complete_double(std::initializer_list<const char*> changes);

// The same as the run at the bad end has it.
Case complete_double_case(std::initializer_list<const char*> changes);

}  // namespace sunstrain::test
