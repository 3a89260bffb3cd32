// The weather file that a job names.
#include <filesystem>

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/weather_read.hpp"

namespace sunstrain {

std::string path_beside(const std::string& named, const std::string& file) {
  const std::filesystem::path path(named);
  return (path.is_relative() && !file.empty() ? std::filesystem::path(file).parent_path() / path : path).string();
}

std::optional<std::string> weather_path(const Job& job, const std::string& job_file) {
  const auto named = word_of(job, "weather");
  return named ? std::optional(path_beside(*named, job_file)) : std::nullopt;
}

std::optional<WeatherYear> weather_of(const Job& job, const std::string& job_file, const Reference& reference) {
  const auto path = weather_path(job, job_file);
  if (!path) return std::nullopt;
  return read_weather(read_text_file(*path, most_weather_bytes), *word_of(job, "weather"), reference);
}

void take_place_of(const WeatherYear& year, Job& job) {
  if (speaks_of(job, "site.place") || speaks_of(job, "site.latitude") || !year.latitude_rad) return;
  settle(job, "site.latitude", *year.latitude_rad);
  settle(job, "site.longitude", *year.longitude_rad);
  settle(job, "site.utc_offset", *year.utc_offset_h);
  settle(job, "site.altitude", *year.altitude_m);
  if (!year.design) return;
  settle(job, "site.coldest", year.design->coldest_k);
  settle(job, "site.hottest", year.design->hottest_k);
  settle(job, "site.daily_range", year.design->daily_range_k);
}

}  // namespace sunstrain
