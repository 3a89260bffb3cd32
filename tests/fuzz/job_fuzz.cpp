// libFuzzer: any bytes as a job file, as an option and as a quantity. BadInput is an answer; anything else
// that is thrown, a message of more than one line, or a number outside its key's range is a fault.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "allow_bad_input.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/job_keys.hpp"

namespace {

using namespace sunstrain;

void require_sound(const Job& job, const Reference& reference) {
  for (const auto& [key, value] : job.values) {
    const JobKey* row = find_job_key(reference.job_keys, key);
    if (row == nullptr) std::abort();
    const double* number = std::get_if<double>(&value);
    if (number != nullptr && !(*number >= row->minimum && *number <= row->maximum)) std::abort();
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Reference& reference = builtin_reference();
  allow_bad_input([&] {
    Job job = read_job_toml(text, "fuzz.toml", reference);
    require_sound(job, reference);
    check_job(job, reference);
  });
  allow_bad_input([&] {
    Job job;
    set_key(job, text, reference);
    require_sound(job, reference);
  });
  using Kind = JobKey::Kind;
  for (const Kind kind : {Kind::length, Kind::thickness, Kind::temperature, Kind::difference, Kind::fraction,
                          Kind::angle, Kind::u_value, Kind::number, Kind::years}) {
    allow_bad_input([&] {
      if (!std::isfinite(parse_quantity(kind, text))) std::abort();
    });
  }
  allow_bad_input([&] { parse_date(text); });
  return 0;
}
