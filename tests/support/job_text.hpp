// Jobs for tests, and what the reader says of those that it refuses.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace job_text {

using namespace sunstrain;

inline const Reference& reference() { return builtin_reference(); }

inline Job read(const std::string& text) { return read_job_toml(text, "pane.toml", reference()); }

// What an action is refused with; empty when it is not. One line always.
template <class Action>
std::string refusal(Action action) {
  try {
    action();
  } catch (const BadInput& error) {
    CHECK(std::string(error.what()).find('\n') == std::string::npos);
    return error.what();
  }
  return {};
}

inline std::string read_refusal(const std::string& text) {
  return refusal([&] { read(text); });
}

inline bool says(const std::string& message, const std::vector<std::string>& parts) {
  INFO(message);
  bool all = true;
  for (const std::string& part : parts) {
    CAPTURE(part);
    CHECK(message.find(part) != std::string::npos);
    all = all && message.find(part) != std::string::npos;
  }
  return all;
}

inline Job with(Job job, const std::vector<std::string>& options) {
  for (const std::string& option : options) set_key(job, option, reference());
  return job;
}

// A sound job with one absorptance; the options come on top.
inline Job sound(const std::vector<std::string>& options = {}) {
  return with(read("[pane]\nwidth = \"37 1/4 in\"\nheight = \"5 ft 2 in\"\n[film]\nsolar_absorptance = 0.5\n"),
              options);
}

// The size alone, with these figures of a film.
inline Job film(const std::vector<std::string>& options) {
  return with(read("[pane]\nwidth = \"946 mm\"\nheight = \"1.5 m\"\n"), options);
}

inline std::string check_refusal(const Job& job) {
  return refusal([&] { check_job(job, reference()); });
}

}  // namespace job_text
