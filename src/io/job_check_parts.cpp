#include <fmt/format.h>

#include "job_check.hpp"
#include "job_words.hpp"

namespace sunstrain {
namespace {

[[noreturn]] void refuse(const Job& job, const std::string& problem) {
  throw BadInput(fmt::format("{}: {}", job.source, problem));
}

// A sign lies somewhere on the pane, whole.
void check_sign(const Job& job) {
  const char* keys[]{"sign.width", "sign.height", "sign.left", "sign.bottom"};
  for (const char* key : keys) {
    if (!number_of(job, key)) refuse(job, fmt::format("{}: is missing beside sign.side", key));
  }
  const auto within = [&](const char* from, const char* size, const char* pane) {
    constexpr double rounding_m = 1e-6;
    const double room_m = *number_of(job, pane) - *number_of(job, from) - *number_of(job, size);
    if (room_m >= -rounding_m) return;
    refuse(job, fmt::format("{} and {}: together are {:.0f} mm more than {}; a sign lies on the pane whole", from, size,
                            -1000.0 * room_m, pane));
  };
  within("sign.left", "sign.width", "pane.width");
  within("sign.bottom", "sign.height", "pane.height");
}

}  // namespace

void check_parts(const Job& job) {
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
  if (parts.size() > 1)
    refuse(job, fmt::format("{}: one at a time; leave out the one that matters less", joined(parts, " and ")));
  for (const char* key : {"sign.side", "sash.side"}) {
    if (word_of(job, key).value_or("none") != "none" && word_of(job, "panel.side").value_or("none") != "none")
      refuse(job, fmt::format("{} and panel.side: a pane with a panel before it is worked without sign and sash", key));
  }
  if (!parts.empty() && word_of(job, "shading.pattern").value_or("none") == "diagonal")
    refuse(job, fmt::format("{}: cannot be given together with shading.pattern = \"diagonal\"", parts.front()));
}

}  // namespace sunstrain
