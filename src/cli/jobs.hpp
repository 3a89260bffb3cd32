// The jobs that a command line names, read and checked.
#pragma once

#include "options.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain::cli {

// One job a file ("-": standard input), each with the settings on top; without files one of the settings alone.
std::vector<Job> jobs_of(const Texts& files, const Texts& settings, const Reference& reference);

}  // namespace sunstrain::cli
