// libFuzzer: any lines as the answers at a window. What is taken must make a job file that reads back as the same job;
// BadInput is an answer to a line; anything else that is thrown is a fault.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "allow_bad_input.hpp"
#include "sunstrain/io/interview.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace {

using namespace sunstrain;

void require_same(const Interview& interview, const Reference& reference) {
  const Job said = job_of(interview, reference);
  const Job read = read_job_toml(job_file_text(interview, builtin_questions()), "fuzz.toml", reference);
  if (read.values != said.values || read.partly.size() != said.partly.size()) std::abort();
  for (const auto& [key, partly] : said.partly)
    if (!read.partly.contains(key) || read.partly.at(key).values != partly.values) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view text(reinterpret_cast<const char*>(data), size);
  const Reference& reference = builtin_reference();
  Interview interview;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(line.size() + 1, text.size()));
    const auto asking = next_question(interview, builtin_questions());
    if (!asking) break;
    allow_bad_input([&] {
      require_text(line, "the answer");
      interview = line == "back" ? one_back(interview) : answered(interview, *asking, line, reference);
    });
  }
  require_same(interview, reference);
  allow_bad_input([&] { check_job(job_of(interview, reference), reference); });
  return 0;
}
