// libFuzzer: any bytes as a report on a cracked pane. BadInput is an answer; a message of more than one line, or a
// report that was taken and cannot be read or told, is a fault.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "allow_bad_input.hpp"
#include "sunstrain/io/break_report.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/break_answer.hpp"

using namespace sunstrain;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const BreakTables tables = builtin_break_tables();
  const std::string text(reinterpret_cast<const char*>(data), size);
  allow_bad_input([&] {
    BreakAnswer answer;
    answer.seen = read_break_report(text, "fuzz.toml", tables);
    check_break_report(answer.seen, tables);
    answer.reading = read_break(answer.seen, tables);
    day_of(answer.seen);
    if (break_text(answer, tables, builtin_reference(), {}).empty()) std::abort();
    if (break_json(answer, tables, builtin_reference()).empty()) std::abort();
  });
  return 0;
}
