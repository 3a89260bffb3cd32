#include <fmt/format.h>

#include <numbers>

#include "job_check.hpp"
#include "job_words.hpp"
#include "say.hpp"

namespace sunstrain {
namespace {

[[noreturn]] void refuse(const Job& job, const Saying& problem) { throw BadInput(say("{}: {}", job.source, problem)); }

// A sign lies somewhere on the pane, whole.
void check_sign(const Job& job) {
  const char* keys[]{"sign.width", "sign.height", "sign.left", "sign.bottom"};
  for (const char* key : keys) {
    if (!number_of(job, key)) refuse(job, say("{}: is missing beside sign.side", key));
  }
  const auto within = [&](const char* from, const char* size, const char* pane) {
    constexpr double rounding_m = 1e-6;
    const double room_m = *number_of(job, pane) - *number_of(job, from) - *number_of(job, size);
    if (room_m >= -rounding_m) return;
    refuse(job, say("{} and {}: together are {:.0f} mm more than {}; a sign lies on the pane whole", from, size,
                    -1000.0 * room_m, pane));
  };
  within("sign.left", "sign.width", "pane.width");
  within("sign.bottom", "sign.height", "pane.height");
}

// Some of the film is left.
void check_edge_gap(const Job& job) {
  const double gap_m = number_of(job, "film.edge_gap").value_or(0.0);
  for (const char* side : {"pane.width", "pane.height"}) {
    if (2.0 * gap_m >= *number_of(job, side))
      refuse(job, say("film.edge_gap: {:.0f} mm on either side leave no film on a {} of {:.0f} mm", 1000.0 * gap_m,
                      side, 1000.0 * *number_of(job, side)));
  }
}

// Reflected sun is worked for upright panes.
void check_reflected(const Job& job) {
  constexpr double upright_rad = 0.5 * std::numbers::pi, rounding_rad = 1e-6;
  if (number_of(job, "pane.tilt").value_or(upright_rad) >= upright_rad - rounding_rad) return;
  for (const char* key : {"shading.wall_reflectance", "site.water_distance"}) {
    if (number_of(job, key))
      refuse(job, say("{}: is worked for upright panes alone; leave it out, or pane.tilt if it is 90 deg", key));
  }
}

}  // namespace

void check_parts(const Job& job) {
  check_edge_gap(job);
  check_reflected(job);
  std::vector<std::string> parts;
  const auto look = [&](const char* key, const char* nothing) {
    const std::string word = word_of(job, key).value_or(nothing);
    if (word != nothing) parts.push_back(fmt::format("{} = {}", key, quoted(word)));
  };
  look("inside.drawn", "evenly");
  look("sign.side", "none");
  look("film.bare", "none");
  look("sash.side", "none");
  if (word_of(job, "sign.side").value_or("none") != "none") check_sign(job);
  Saying all_of_them = part_of_saying(parts.empty() ? "" : parts.front());
  for (std::size_t i = 1; i < parts.size(); ++i) all_of_them = saying("{} and {}", all_of_them, parts[i]);
  if (parts.size() > 1) refuse(job, say("{}: one at a time; leave out the one that matters less", all_of_them));
  for (const char* key : {"sign.side", "sash.side"}) {
    if (word_of(job, key).value_or("none") != "none" && word_of(job, "panel.side").value_or("none") != "none")
      refuse(job, say("{} and panel.side: a pane with a panel before it is worked without sign and sash", key));
  }
  if (!parts.empty() && word_of(job, "shading.pattern").value_or("none") == "diagonal")
    refuse(job, say("{}: cannot be given together with shading.pattern = \"diagonal\"", parts.front()));
}

}  // namespace sunstrain
