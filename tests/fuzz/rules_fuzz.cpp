// libFuzzer: any bytes as a file of a user's own rules, and as the condition of a sound rule. BadInput is an answer; a
// message of more than one line, or a rule that breaks when it meets a job, is a fault.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "allow_bad_input.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"
#include "sunstrain/rules.hpp"

namespace {

using namespace sunstrain;

// A job of which little is known, one with everything taken, and figures as an assessment adds them.
Facts facts_of(const Job& job) {
  Facts facts = resolve(job, Run::middle, {}, builtin_reference()).job.values;
  facts["figure.most_absorbed_annealed"] = facts["figure.filmed_absorbed"] = 0.4;
  facts["figure.stress_added_pa"] = 3e6;
  for (const char* name : {"film_on_coating", "film_on_soft_coating", "film_on_film", "blind_tight"})
    facts[std::string("figure.") + name] = std::string("no");
  return facts;
}

void read(const std::string& text) {
  allow_bad_input([&] {
    const Reference reference = with_own_rules(builtin_reference(), "fuzz.toml", text);
    if (reference.rules.size() <= builtin_reference().rules.size()) std::abort();
    Job job;
    set_key(job, "pane.width=1 m", reference);
    set_key(job, "lite.2.tint=gray", reference);
    set_key(job, "film.name=Sample 1", reference);
    fired_rules(reference.rules, facts_of(job), job.values);
    fired_rules(reference.rules, {});
  });
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  read(text);
  read("[[rule]]\nid = 'F1'\nseverity = 'ask'\ntext = 't'\nwhen = " + text);
  return 0;
}
