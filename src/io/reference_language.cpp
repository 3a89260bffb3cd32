// texts.csv: every sentence of the code and of the tables in each language.
#include <algorithm>

#include "job_words.hpp"
#include "reference_csv.hpp"
#include "reference_tables.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace sunstrain {
namespace {

constexpr const char *file = "texts.csv", *english = "en";

const std::string& texts() { return embedded_reference_files().at(file); }

// A row of the table is a line: "\\n" in it stands for a line end of the text.
std::string with_line_ends(std::string text) {
  for (std::size_t at = 0; (at = text.find("\\n", at)) != std::string::npos; ++at) text.replace(at, 2, "\n");
  return text;
}

// The tables' own sentences; a word that says what something is stays as it is.
void put_into_language(Reference& reference) {
  const auto tell = [&](std::string& text) { text = told(reference.language, text); };
  for (JobKey& key : reference.job_keys) {
    for (std::string* text : {&key.sentence, &key.question, &key.refused}) tell(*text);
    for (Taking& taking : key.taken) tell(taking.why);
  }
  for (Rule& rule : reference.rules) {
    tell(rule.text);
    tell(rule.training);
    tell(rule.source.text);
  }
  for (DriverRow& driver : reference.drivers) {
    tell(driver.words);
    tell(driver.how);
  }
}

}  // namespace

std::vector<std::string> languages() { return csv_columns(file, texts()); }

Language load_language(const std::string& code) {
  const std::vector<std::string> known = languages();
  if (std::find(known.begin(), known.end(), code) == known.end())
    throw BadInput("--language = {}: allowed: {}", quoted(code), joined(known));
  Language language{code, {}};
  if (code == english) return language;
  for (const CsvRow& row : parse_reference_csv(file, texts(), known))
    language.of[with_line_ends(row.text(english))] = with_line_ends(row.text(code));
  return language;
}

Reference builtin_reference_in(const std::string& code) {
  Reference reference = builtin_reference();
  reference.language = load_language(code);
  if (code != english) put_into_language(reference);
  return reference;
}

}  // namespace sunstrain
