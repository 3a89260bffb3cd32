#include "jobs.hpp"

#include <fmt/format.h>

#include "../io/say.hpp"
#include "sunstrain/io/film_list.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/weather_read.hpp"

namespace sunstrain::cli {

Job with_settings(Job job, const Texts& settings, const Reference& reference, Film film) {
  for (const std::string& setting : settings) set_key(job, setting, reference);
  if (film == Film::listed) return pane_for_list(std::move(job), reference);
  if (film == Film::sought) job = with_film_standing_in(std::move(job));
  check_job(job, reference);
  return job;
}

std::vector<Job> jobs_of(const Texts& files, const Texts& settings, const Reference& reference, Film film) {
  std::vector<Job> jobs;
  for (const std::string& file : files) {
    const std::string path = file == "-" ? "/dev/stdin" : file;
    jobs.push_back(with_settings(read_job_toml(read_text_file(path), file == "-" ? "standard input" : file, reference),
                                 settings, reference, film));
  }
  if (files.empty()) jobs.push_back(with_settings({"options", {}}, settings, reference, film));
  return jobs;
}

Job one_job_of(const Texts& files, const Texts& settings, const Reference& reference, const char* command, Film film) {
  if (files.size() > 1 || (files.empty() && settings.empty())) {
    throw BadInput(say("{0}: name one job file or give its keys with --set; sunstrain {0} --help shows how", command));
  }
  Job job = jobs_of(files, settings, reference, film).front();
  take_weather(job, files.empty() ? "" : files.front(), reference);
  return job;
}

std::optional<WeatherYear> take_weather(Job& job, const std::string& file, const Reference& reference) {
  auto weather = weather_of(job, file == "-" ? "" : file, reference);
  if (weather) take_place_of(*weather, job);
  return weather;
}

}  // namespace sunstrain::cli
