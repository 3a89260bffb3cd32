#include "sunstrain/resolve.hpp"

#include <algorithm>

#include "sunstrain/job_keys.hpp"
#include "sunstrain/unit_build_up.hpp"

namespace sunstrain {
namespace {

bool starred_row_applies(const JobKey& row, const std::string& key, const Facts& facts, const Reference& reference) {
  if (key_applies(row, key, facts) != Truth::yes) return false;
  return find_job_key(reference.job_keys, key) == &row;  // "lite.1.coating_surface" has a row of its own
}

const Taking* taking_for(const JobKey& row, const std::string& key, const Facts& facts) {
  for (const Taking& taking : row.taken) {
    if (holds(for_key(taking.when, key), facts) == Truth::yes) return &taking;
  }
  return nullptr;
}

Pick pick_of(Run run, const Choice& choice) {
  if (run == Run::middle) return [](const OpenKey& open) { return open.middle; };
  return [&choice](const OpenKey& open) {
    const auto chosen = choice.find(open.key);
    return open.candidates.at(chosen == choice.end() ? 0 : std::min(chosen->second, open.candidates.size() - 1));
  };
}

OpenKey known_in_part(const std::string& key, const PartlyKnown& known) {
  return {key, known.values, known.likely, "as given"};
}

// The build-up of a unit whose thickness is known: its lites and cavities are one unknown together. Where there is no
// such unit, none is taken (build_case.cpp refuses that).
void take_build_up(Resolved& resolved, const Pick& pick, const Reference& reference) {
  const std::string key = "unit.build_up";
  Facts& values = resolved.job.values;
  const std::string panes = word_of(resolved.job, "glass.panes").value_or("1");
  if (values.contains("unit.thickness") && !values.contains(key) && panes != "1") {
    const BuildUps found = build_ups(values, std::stoi(panes), reference);
    if (found.plausible.empty()) return;
    const OpenKey open{
        key, {found.plausible.begin(), found.plausible.end()}, found.likely, "build-ups of the unit's thickness"};
    values[key] = pick(open);
    if (found.open) resolved.open.push_back(open);
  }
  take_apart(values);
}

}  // namespace

Job with_parts_settled(const Job& job, const Pick& pick, const Reference& reference) {
  if (job.partly.empty()) return job;
  Job settled{job.source, job.values, {}};
  for (const auto& [key, known] : job.partly) settled.values[key] = pick(known_in_part(key, known));
  for (const JobKey& row : reference.job_keys) {
    for (const std::string& key : concrete_keys(row.name)) {
      if (key_applies(row, key, settled.values) == Truth::no) settled.values.erase(key);
    }
  }
  return settled;
}

Resolved resolve(const Job& job, const Pick& pick, const Reference& reference) {
  Resolved resolved{with_parts_settled(job, pick, reference), {}};
  for (const auto& [key, known] : job.partly) {
    if (resolved.job.values.contains(key)) resolved.open.push_back(known_in_part(key, known));
  }
  Facts& values = resolved.job.values;
  take_apart(values);
  for (const JobKey& row : reference.job_keys) {
    if (row.name == "unit.build_up") take_build_up(resolved, pick, reference);
    if (row.taken.empty()) continue;
    for (const std::string& key : concrete_keys(row.name)) {
      if (values.contains(key) || !starred_row_applies(row, key, values, reference)) continue;
      const Taking* taking = taking_for(row, key, values);
      if (taking == nullptr) continue;
      std::vector<Value> candidates = taking->bad;  // the most likely value is plausible too
      if (std::find(candidates.begin(), candidates.end(), taking->middle) == candidates.end()) {
        candidates.push_back(taking->middle);
      }
      resolved.open.push_back({key, std::move(candidates), taking->middle, taking->why});
      values[key] = pick(resolved.open.back());
    }
  }
  return resolved;
}

Job with_parts_settled(const Job& job, Run run, const Choice& choice, const Reference& reference) {
  return with_parts_settled(job, pick_of(run, choice), reference);
}

Resolved resolve(const Job& job, Run run, const Choice& choice, const Reference& reference) {
  return resolve(job, pick_of(run, choice), reference);
}

}  // namespace sunstrain
