#include "jobs.hpp"

#include "sunstrain/io/job_read.hpp"

namespace sunstrain::cli {

namespace {

Job with_settings(Job job, const Texts& settings, const Reference& reference) {
  for (const std::string& setting : settings) set_key(job, setting, reference);
  check_job(job, reference);
  return job;
}

}  // namespace

std::vector<Job> jobs_of(const Texts& files, const Texts& settings, const Reference& reference) {
  std::vector<Job> jobs;
  for (const std::string& file : files) {
    const std::string path = file == "-" ? "/dev/stdin" : file;
    jobs.push_back(with_settings(read_job_toml(read_text_file(path), file == "-" ? "standard input" : file, reference),
                                 settings, reference));
  }
  if (files.empty()) jobs.push_back(with_settings({"options", {}}, settings, reference));
  return jobs;
}

}  // namespace sunstrain::cli
