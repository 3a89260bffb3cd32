// sunstrain tables: the data the engine runs on, each row with its source.
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../report/words.hpp"
#include "command.hpp"
#include "options.hpp"
#include "own_rules.hpp"
#include "sunstrain/io/data_tables.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;
using report::labeled;

constexpr std::array all_certainties{Certainty::read, Certainty::derived, Certainty::recalled,
                                     Certainty::common_practice, Certainty::judgement};

po::options_description options() {
  po::options_description all("Options");
  all.add_options()("json", "the same as JSON");
  add_rules_option(all);
  all.add_options()("help", "this page");
  return all;
}

long count_of(const DataTable& table, Certainty certainty) {
  return std::count_if(table.rows.begin(), table.rows.end(),
                       [&](const DataTableRow& row) { return row.source.certainty == certainty; });
}

std::string overview(const std::vector<DataTable>& tables, const Language& language, int width) {
  std::string text =
      tell(language, "Reference tables {}: rows, and how each row's figures were had", builtin_reference().version) +
      "\n\n";
  text += tell(language, "                       rows   read  derived  recalled  practice  judgement") + "\n";
  for (const DataTable& table : tables) {
    text += fmt::format("{:<22}{:>5}", table.name, table.rows.size());
    constexpr std::array widths{7, 9, 10, 10, 11};
    for (std::size_t i = 0; i < all_certainties.size(); ++i) {
      const long count = count_of(table, all_certainties[i]);
      text += fmt::format("{:>{}}", count == 0 ? "-" : std::to_string(count), widths[i]);
    }
    text += "\n";
  }
  return text + "\n" +
         labeled(
             "",
             tell(language,
                  "read: in the source named. derived: worked here from sources named. recalled: from memory of the "
                  "source named. practice: common practice of the trade, no source. judgement: ours. "
                  "sunstrain tables NAME shows a table."),
             0, width);
}

// Short values one after another, each long one below them.
std::string values_of(const DataTableRow& row, int width) {
  constexpr std::size_t longest = 40;
  std::string together, apart;
  for (const auto& [key, value] : row.values) {
    if (value.size() > longest)
      apart += labeled("", key + ": " + value, 2, width);
    else
      together += (together.empty() ? "" : "; ") + key + " " + value;
  }
  return (together.empty() ? "" : labeled("", together, 2, width)) + apart;
}

std::string one_table(const DataTable& table, const Language& language, int width) {
  std::string text = tell(language, "{} ({}, {} rows)", table.name, table.file, table.rows.size()) + "\n";
  text += labeled("", table.about, 0, width);
  for (const DataTableRow& row : table.rows) {
    text += "\n" + row.name + "\n";
    if (!row.note.empty()) text += labeled("", row.note, 2, width);
    text += values_of(row, width);
    text += labeled("", told(language, certainty_word(row.source.certainty)) + ": " + row.source.text, 2, width);
  }
  return text;
}

Json json_of(const DataTable& table) {
  Json rows = Json::array();
  for (const DataTableRow& row : table.rows) {
    Json values = Json::object();
    for (const auto& [key, value] : row.values) values[key] = value;
    Json shown{{"name", row.name}, {"values", std::move(values)}};
    if (!row.note.empty()) shown["note"] = row.note;
    shown["certainty"] = certainty_word(row.source.certainty);
    shown["source"] = row.source.text;
    rows.push_back(std::move(shown));
  }
  return {{"name", table.name}, {"file", table.file}, {"about", table.about}, {"rows", std::move(rows)}};
}

const DataTable& table_named(const std::vector<DataTable>& tables, const std::string& name) {
  std::vector<std::string> names;
  for (const DataTable& table : tables) {
    if (table.name == name) return table;
    names.push_back(table.name);
  }
  throw BadInput(
      say("tables: {}: no such table; there are: {}{}", shown(name), joined(names), nearest_hint(name, names)));
}

}  // namespace

std::string tables_help(const Language& language) {
  return tell(language,
              "sunstrain tables [NAME] [options]: the data the engine runs on\n\n"
              "  sunstrain tables                 the tables, and how their figures were had\n"
              "  sunstrain tables coating         one of them, every row with its source\n"
              "  sunstrain tables own-rules --rules FILE     rules of your own, as they were read\n\n"
              "Values stand as in the files of reference/; a unit is the end of a key's name.\n\n") +
         option_list(options(), language);
}

Outcome tables(const Words& words) {
  const po::variables_map given = read_options(words, options(), "name", "tables");
  const Texts names = texts_of(given, "name");
  if (names.size() > 1) throw BadInput("tables: name one table, or none for the list");
  std::vector<DataTable> all = data_tables(embedded_reference_files());
  if (given.count("rules") > 0) {
    const std::string path = text_of(given, "rules", ""), text = read_text_file(path);
    all.push_back(own_rules_table(text, with_own_rules(builtin_reference(), path, text)));
  }
  const DataTable* one = names.empty() ? nullptr : &table_named(all, names.front());
  if (given.count("json") == 0) {
    const int width = std::min(terminal_width(), usual_width);
    const Language language = load_language(language_of(given));
    return {one == nullptr ? overview(all, language, width) : one_table(*one, language, width)};
  }
  Json json{{"reference_version", builtin_reference().version}, {"tables", Json::array()}};
  for (const DataTable& table : all)
    if (one == nullptr || one == &table) json["tables"].push_back(json_of(table));
  return {json.dump(2) + "\n"};
}

}  // namespace sunstrain::cli
