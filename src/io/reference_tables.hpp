// The parts of load_reference, one a file of reference/.
#pragma once

#include <string>
#include <string_view>

#include "sunstrain/reference.hpp"

namespace sunstrain {

inline constexpr double zero_celsius_k = 273.15;
inline constexpr double m_per_mm = 1e-3;
inline constexpr double pa_per_mpa = 1e6;

void load_glass_solar(const std::string& file, std::string_view text, Reference& reference);
void load_glass(const std::string& file, std::string_view text, Reference& reference);
void load_frames(const std::string& file, std::string_view text, Reference& reference);
void load_gases(const std::string& file, std::string_view text, Reference& reference);
void load_shades(const std::string& file, std::string_view text, Reference& reference);
void load_grounds(const std::string& file, std::string_view text, Reference& reference);
void load_places(const std::string& file, std::string_view text, Reference& reference);
void load_constants(const std::string& file, std::string_view text, Reference& reference);
void load_hand_methods(const std::string& file, std::string_view text, Reference& reference);
void load_drivers(const std::string& file, std::string_view text, Reference& reference);  // needs the job keys
void load_samples(const std::string& file, std::string_view text, Reference& reference);
void load_warmth_scale(const std::string& file, std::string_view text, Reference& reference);
// The rows of a table in the form of job_keys.toml.
std::vector<JobKey> load_keys(const std::string& file, std::string_view text);
void load_job_keys(const std::string& file, std::string_view text, Reference& reference);

}  // namespace sunstrain
