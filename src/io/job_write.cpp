// Keys and texts as a job file that a person can read and go on with.
#include <fmt/format.h>

#include <algorithm>

#include "job_lines.hpp"
#include "job_words.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/job_keys.hpp"
#include "tell.hpp"

namespace sunstrain {

std::string job_file_text(const KeyTexts& texts, const Reference& reference) {
  for (const auto& [key, text] : texts) {
    if (find_job_key(reference.job_keys, key) == nullptr)
      throw BadInput("{}: {}", shown(key), no_such_key(key, reference.job_keys));
  }
  std::string file = comment(
      tell(reference.language,
           "A pane. sunstrain check and this file's name give its answer; sunstrain check --template explains every "
           "key."));
  std::vector<std::string> tables = tables_in_order(reference);
  std::stable_partition(tables.begin(), tables.end(), [](const std::string& table) { return table.empty(); });
  for (const std::string& table : tables) {
    std::string lines;
    for (const auto& [key, text] : texts)
      if (table_of(key) == table) lines += fmt::format("{} = {}\n", name_in_table(key), toml_text(text));
    if (!lines.empty()) file += (table.empty() ? "\n" : fmt::format("\n[{}]\n", table)) + lines;
  }
  return file;
}

}  // namespace sunstrain
