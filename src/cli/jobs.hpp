// The jobs that a command line names, read and checked.
#pragma once

#include <optional>

#include "options.hpp"
#include "sunstrain/job.hpp"
#include "sunstrain/reference.hpp"
#include "sunstrain/weather.hpp"

namespace sunstrain::cli {

// sought: the command looks for the film, so that its solar figures may be left out; a film of half the sun stands in
// for it, which the command replaces. listed: films come from a list; the job is checked as if one were
// on it, and has none; where its film goes stays.
enum class Film { given, sought, listed };

// The job, its settings on top, with a film as the command wants it; checked.
Job with_settings(Job job, const Texts& settings, const Reference& reference, Film film);

// One job a file ("-": standard input), each with the settings on top; without files one of the settings alone.
std::vector<Job> jobs_of(const Texts& files, const Texts& settings, const Reference& reference,
                         Film film = Film::given);

// The one job of a command that takes one, at its weather's place. `command` opens the message of a BadInput.
Job one_job_of(const Texts& files, const Texts& settings, const Reference& reference, const char* command,
               Film film = Film::given);

// The weather that a job names, if any; a place that the weather names becomes the job's.
std::optional<WeatherYear> take_weather(Job& job, const std::string& file, const Reference& reference);

}  // namespace sunstrain::cli
