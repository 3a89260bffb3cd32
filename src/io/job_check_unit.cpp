// A sealed unit's overall thickness and build-up, beside what is given of its lites and cavities.
#include <fmt/format.h>

#include <cmath>

#include "job_check.hpp"
#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/unit_build_up.hpp"

namespace sunstrain {
namespace {

std::string mm(double length_m) { return format_in_unit(JobKey::Kind::thickness, length_m, "mm"); }

void check_thickness(const Job& job, const Reference& reference) {
  const std::optional<double> thickness_m = number_of(job, "unit.thickness");
  if (!thickness_m) return;
  const std::optional<std::string> said = word_of(job, "glass.panes");
  if (said == "1") return;  // a key without a meaning, which is said elsewhere
  BuildUps nearest;
  for (const int panes : {2, 3}) {
    if (said && std::stoi(*said) != panes) continue;
    const BuildUps found = build_ups(job.values, panes, reference);
    if (!found.plausible.empty()) return;
    const auto off = [&](const BuildUps& unit) { return std::abs(unit.nearest_m - *thickness_m); };
    if (nearest.nearest.empty() || off(found) < off(nearest)) nearest = found;
  }
  throw BadInput(say("{}: unit.thickness = \"{}\": {}; {} is {}, and {} off is the most that is allowed", job.source,
                     mm(*thickness_m),
                     Saying(nearest.open ? "no unit of usual lites and spacers is that thick with what is given of it"
                                         : "the lites and cavities that are given do not add up to it"),
                     nearest.nearest, mm(nearest.nearest_m), mm(constant(reference, "unit_thickness_tolerance_m"))));
}

// The length that the build-up has for a key is the given one; "1/4 in" is 6 mm.
void require_same(const Job& job, const std::string& key, double length_m, const Reference& reference) {
  const double near_m = constant(reference, "same_nominal_m");
  const std::optional<double> given_m = number_of(job, key);
  if (!given_m || std::abs(*given_m - length_m) <= near_m) return;
  throw BadInput(say("{}: {} = \"{}\": unit.build_up = \"{}\" has {} there", job.source, key, mm(*given_m),
                     *word_of(job, "unit.build_up"), mm(length_m)));
}

void require_range(const Job& job, const std::string& key, double length_m, const Reference& reference) {
  const JobKey& row = *find_job_key(reference.job_keys, key);
  if (length_m >= row.minimum && length_m <= row.maximum) return;
  throw BadInput(say("{}: unit.build_up = {}: {} is no {}; allowed: {} to {}", job.source,
                     quoted(*word_of(job, "unit.build_up")), mm(length_m), key, mm(row.minimum), mm(row.maximum)));
}

void check_build_up(const Job& job, const Reference& reference) {
  const std::optional<std::string> text = word_of(job, "unit.build_up");
  if (!text) return;
  const std::optional<BuildUp> unit = build_up_of(*text);
  if (!unit)
    throw BadInput(
        say("{}: unit.build_up = {}: allowed: lites and cavities from outdoors in mm, such as "
            "4-16-4 or 4-12-4-12-4",
            job.source, quoted(*text)));
  const std::string panes = std::to_string(unit->lites_m.size());
  if (const auto said = word_of(job, "glass.panes"); said && *said != panes)
    throw BadInput(
        say("{}: unit.build_up = {}: has {} lites; glass.panes = {}", job.source, quoted(*text), panes, *said));
  for (std::size_t i = 0; i < unit->lites_m.size(); ++i) {
    const std::string key = fmt::format("lite.{}.thickness", i + 1);
    require_range(job, key, unit->lites_m[i], reference);
    require_same(job, key, unit->lites_m[i], reference);
  }
  for (std::size_t i = 0; i < unit->cavities_m.size(); ++i) {
    const std::string key = fmt::format("cavity.{}.width", i + 1);
    require_range(job, key, unit->cavities_m[i], reference);
    require_same(job, key, unit->cavities_m[i], reference);
  }
}

}  // namespace

void check_unit(const Job& job, const Reference& reference) {
  check_build_up(job, reference);
  Job apart = job;
  take_apart(apart.values);
  check_thickness(apart, reference);
}

}  // namespace sunstrain
