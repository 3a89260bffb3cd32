// One subcommand: its words in, its whole output back. Nothing is written before everything is known, so that bad
// input leaves no half answer behind. Only a stream of rows (schedule, rank --panes) is written as it goes, each row
// whole.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/language.hpp"

namespace sunstrain::cli {

using Words = std::vector<std::string>;  // of the command line, without the program's and the command's name

// Exit codes: it ran, whatever the verdict; --fail-on and that bad; bad input; a fault of the program; Ctrl-C (as
// shells have it).
enum Exit { ran = 0, failed_on = 1, bad_input = 2, fault = 3, stopped = 130 };

struct Outcome {
  std::string text;
  Exit exit = ran;
  std::string aside{};  // for standard error: what is no part of the output
};

Outcome ask(const Words& words);
std::string ask_help(const Language& language);

Outcome check(const Words& words);
std::string check_help(const Language& language);

Outcome limit(const Words& words);
std::string limit_help(const Language& language);

Outcome schedule(const Words& words);
std::string schedule_help(const Language& language);

Outcome rank(const Words& words);
std::string rank_help(const Language& language);

Outcome sun(const Words& words);
std::string sun_help(const Language& language);

Outcome stress(const Words& words);
std::string stress_help(const Language& language);

Outcome trace(const Words& words);
std::string trace_help(const Language& language);

Outcome tables(const Words& words);
std::string tables_help(const Language& language);

Outcome practice(const Words& words);
std::string practice_help(const Language& language);

Outcome report(const Words& words);
std::string report_help(const Language& language);

Outcome record(const Words& words);
std::string record_help(const Language& language);

Outcome break_report(const Words& words);
std::string break_help(const Language& language);

Outcome page(const Words& words);
std::string page_help(const Language& language);

}  // namespace sunstrain::cli
