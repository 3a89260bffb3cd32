// The weather file that a job names.
#include <filesystem>

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/weather_read.hpp"

namespace sunstrain {

std::optional<WeatherYear> weather_of(const Job& job, const std::string& job_file, const Reference& reference) {
  const auto named = word_of(job, "weather");
  if (!named) return std::nullopt;
  namespace fs = std::filesystem;
  fs::path path(*named);
  if (path.is_relative() && !job_file.empty()) path = fs::path(job_file).parent_path() / path;
  constexpr std::size_t most_bytes = 100'000'000;
  return read_weather(read_text_file(path.string(), most_bytes), *named, reference);
}

void take_place_of(const WeatherYear& year, Job& job) {
  if (job.values.contains("site.place") || job.values.contains("site.latitude") || !year.latitude_rad) return;
  job.values["site.latitude"] = *year.latitude_rad;
  job.values["site.longitude"] = *year.longitude_rad;
  job.values["site.utc_offset"] = *year.utc_offset_h;
  job.values["site.altitude"] = *year.altitude_m;
  if (!year.design) return;
  job.values["site.coldest"] = year.design->coldest_k;
  job.values["site.hottest"] = year.design->hottest_k;
  job.values["site.daily_range"] = year.design->daily_range_k;
}

}  // namespace sunstrain
