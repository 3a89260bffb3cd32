// sunstrain record ACTION: finds the action.
#include <fmt/format.h>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "named_rows.hpp"
#include "record_options.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::cli {
namespace {

struct Action {
  const char *name, *usage, *sentence;
  Outcome (*run)(const Words&);
  po::options_description (*options)();
};

constexpr Action actions[]{
    {"add", "add JOB.toml", worded("works the job as check does and keeps job and answer"), record_add,
     record_add_options},
    {"list", "list", worded("the last entries, newest last"), record_list, record_list_options},
    {"show", "show N", worded("one entry"), record_show, record_show_options},
    {"find", "find", worded("entries by customer, address, pane, film lot or day"), record_find, record_find_options},
    {"verify", "verify", worded("whether anything was changed, dropped or cut off"), record_verify,
     record_verify_options},
    {"export", "export", worded("every entry as a line of JSON, and kept files"), record_export, record_export_options},
    {"rerun", "rerun N", worded("the job once more with this program: what changed, and why"), record_rerun,
     record_rerun_options},
    {"erase", "erase N ...", worded("takes names, addresses and files out on request; the chain holds"), record_erase,
     record_erase_options},
};

}  // namespace

std::string record_help(const Language& language) {
  std::string text = tell(language,
                          "sunstrain record ACTION -r FILE [options]: answers kept in a chain\n\n"
                          "  sunstrain record add -r crew.record --begin stair.toml --by AB --lot 4711\n"
                          "  sunstrain record find -r crew.record --address \"Tallow Lane\"\n"
                          "  sunstrain record verify -r crew.record --head \"1a2b...\" --entries 12\n\n"
                          "An entry keeps the job, the whole answer, the versions, the time and the hash of\n"
                          "the entry before it. Nothing is edited: a correction is a new entry. Names,\n"
                          "addresses, the job file as typed and files stand beside the chain, which knows\n"
                          "them by a salted hash alone: they, and they alone, can be erased. add and verify\n"
                          "print the head; on paper it shows later that nothing up to there was changed.\n\nActions\n");
  for (const Action& action : actions)
    text += fmt::format("  {:<14}{}\n", action.usage, told(language, action.sentence));
  for (const Action& action : actions)
    text += fmt::format("\nsunstrain record {}\n{}", action.usage, option_list(action.options(), language));
  return text + "\n" +
         tell(language,
              "Exit codes: 0 it ran; 1 verify found something, or rerun --fail-on-change;\n2 bad input, or the record "
              "cannot be read or written; 3 a fault of the program.") +
         "\n";
}

Outcome record(const Words& words) {
  const std::vector<std::string> names = names_of(actions);
  if (words.empty()) throw BadInput(say("record: say what to do: {}", joined(names)));
  if (const Action* action = row_named(actions, words.front())) return action->run({words.begin() + 1, words.end()});
  throw BadInput(say("record: {}: no such action; there are: {}{}", shown(words.front()), joined(names),
                     nearest_hint(words.front(), names)));
}

}  // namespace sunstrain::cli
