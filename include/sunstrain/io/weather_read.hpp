// Weather years from files: the open hourly format EPW, and a plain table with named columns.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sunstrain/job.hpp"
#include "sunstrain/weather.hpp"

namespace sunstrain {

// An EPW file (starts with LOCATION), or a table whose first row names its columns: month, day, hour (the end of the
// interval, standard time), air_c, beam_normal_w_m2, diffuse_horizontal_w_m2 and, if known, dew_point_c, sky_w_m2,
// snow_cm. Records hourly or finer, in order, one year.
//
// What is missing is filled and said in `remarks`: records left out, cells with the format's marks for "missing" and
// empty cells. Temperatures over up to six hours go straight across; longer gaps and all sun take the same hour of the
// nearest day before that has it (else after). A 29 February stays. Throws BadInput with source, line, column and what
// is allowed: values out of range, records out of order, less than half a year, no column that is needed.
WeatherYear read_weather(std::string_view text, std::string source_name, const Reference& reference);

// Where the weather file of a job's key "weather" lies, a relative path seen from the job file; nothing without the
// key.
std::optional<std::string> weather_path(const Job& job, const std::string& job_file);
inline constexpr std::size_t most_weather_bytes = 100'000'000;

// The weather file that a job's key "weather" names, a relative path from where the job file lies; nothing without the
// key. Throws BadInput as read_text_file and read_weather do.
std::optional<WeatherYear> weather_of(const Job& job, const std::string& job_file, const Reference& reference);

// A job that says nothing of its place gets the file's: coordinates, time zone, altitude and, where the header has
// them, the design temperatures.
void take_place_of(const WeatherYear& year, Job& job);

}  // namespace sunstrain
